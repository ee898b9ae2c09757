// The service worker: lets a lesson that was opened open again without a network. It knows no build: what changes with each
// build stands in files.json. It lies in the course's folder, since it answers for that folder and nothing else.
import { hostList, keep, lacking } from "./worker/keep.js";
import { sizeOf } from "./worker/list.js";
import { answer } from "./worker/serve.js";
import { SCOPE, forget, openBuild, pin, pinOf, readState } from "./worker/state.js";

/** @typedef {{kind: "keep", page?: string, whole?: boolean} | {kind: "ask"} | {kind: "forget"}} Message */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
/** What the browser, and not a page, has to get from the host. */
const HOSTS_OWN = ["files.json", "worker.js"].map((path) => new URL(path, SCOPE).pathname);
/** One thing at a time: two pages opened together would fill the same build. @type {Promise<unknown>} */
let turn = Promise.resolve();

worker.addEventListener("install", (event) => event.waitUntil(worker.skipWaiting()));
worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));

worker.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  const ours = address.origin === SCOPE.origin && address.pathname.startsWith(SCOPE.pathname);
  if (ours && event.request.method === "GET" && !HOSTS_OWN.includes(address.pathname)) event.respondWith(answer(event));
});

worker.addEventListener("message", (event) => {
  const message = /** @type {Message} */ (event.data);
  const source = /** @type {Client | null} */ (event.source);
  if (message.kind === "ask") event.waitUntil(tellStanding(source));
  else {
    turn = turn.then(() => (message.kind === "keep" ? keepFor(message, source) : forget().then(() => tellStanding(source)))).catch(() => undefined);
    event.waitUntil(turn);
  }
});

/** @param {{page?: string, whole?: boolean}} wish @param {Client | null} source */
async function keepFor(wish, source) {
  const { end, build } = await keep(wish, (progress) => tell(() => ({ kind: "progress", ...progress })));
  if (end === "leave") return leave();
  // The page that was opened from the host is of the build that its own file was just found to be of.
  if (end === "kept" && build && source && wish.page && !(await pinOf(source.id))) await pin(source.id, build);
  const { whole } = await readState();
  return tell(async ({ id }) => {
    const shown = await pinOf(id);
    return { kind: "end", end, whole: whole || wish.whole === true, newer: end === "kept" && shown !== null && shown !== build };
  });
}

/** @param {Client | null} page */
async function tellStanding(page) {
  page?.postMessage({ kind: "standing", ...(await standing()) });
}

/** How much there is, and how much of it is here: what a page says before it keeps the whole course. */
async function standing() {
  const { current, whole } = await readState();
  const [pages, list] = [await keptPages(current), await hostList()];
  if (typeof list === "string") return { reachable: false, whole, pages, all: 0, missing: 0 };
  const missing = await lacking(await openBuild(list.build), list.files);
  return { reachable: true, whole, pages, all: sizeOf(list.files), missing: sizeOf(missing) };
}

/** Paths of the pages that open without a network. @param {string | null} current @returns {Promise<string[]>} */
async function keptPages(current) {
  if (!current) return [];
  const here = (await (await openBuild(current)).keys()).map(({ url }) => new URL(url).pathname.slice(SCOPE.pathname.length));
  return here.filter((path) => path === "" || path.endsWith("/") || path.endsWith(".html"));
}

/** Nothing is kept of a course that an author is writing, or that is gone. */
async function leave() {
  const open = await worker.clients.matchAll({ type: "window" });
  await forget();
  await worker.registration.unregister();
  await Promise.all(open.map((page) => page.navigate(page.url).catch(() => null)));
}

/** @param {(page: Client) => object | Promise<object>} what */
async function tell(what) {
  for (const page of await worker.clients.matchAll({ includeUncontrolled: true })) page.postMessage(await what(page));
}
