// Answers what pages ask for: a kept page and all that it loads come from the one build that the page began with.
import { OtherFile, fetched } from "./fetched.js";
import { listOf } from "./keep.js";
import { addressOf, pathOf } from "./list.js";
import { ranged } from "./ranged.js";
import { SCOPE, openBuild, pin, pinOf, readState } from "./state.js";

const NOT_KEPT = "not-kept.html";

/** @param {FetchEvent} event @returns {Promise<Response>} */
export async function answer(event) {
  const path = pathOf(new URL(event.request.url), SCOPE);
  if (event.request.mode === "navigate") return page(event, path);
  const build = await pinOf(event.clientId);
  return build ? ofBuild(build, path, event.request) : fetch(event.request);
}

/** @param {FetchEvent} event @param {string} path */
async function page(event, path) {
  const { current } = await readState();
  const kept = current ? await keptFile(current, path) : undefined;
  if (current && kept) {
    await pin(event.resultingClientId, current);
    return kept;
  }
  try {
    return await fetch(event.request);
  } catch (error) {
    if (current && (await keptFile(current, `${path}/index.html`))) return Response.redirect(addressOf(`${path}/`, SCOPE));
    if (!current || !(await keptFile(current, NOT_KEPT))) throw error;
    return Response.redirect(`${addressOf(NOT_KEPT, SCOPE)}#${encodeURIComponent(path.replace(/index\.html$/u, ""))}`);
  }
}

/**
 * What a page of a build may be given: a kept file, or the host's where it is that very file, or one that is in no list.
 * @param {string} build @param {string} path @param {Request} request
 */
async function ofBuild(build, path, request) {
  const kept = await keptFile(build, path);
  if (kept) return ranged(kept, request.headers.get("Range"));
  const cache = await openBuild(build);
  const file = (await listOf(cache))?.files.find((one) => one.path === path);
  if (!file) return fetch(request);
  try {
    return ranged(await fetched(file), request.headers.get("Range"));
  } catch (error) {
    if (error instanceof OtherFile) return Response.error();
    throw error;
  }
}

/** @param {string} build @param {string} path */
async function keptFile(build, path) {
  return (await openBuild(build)).match(addressOf(path, SCOPE));
}
