// Keeps what is wanted of a course. A new build is filled apart, every file made sure of, and shown only when it is complete.
import { OtherFile, fetched } from "./fetched.js";
import { addressOf, listIn, sizeOf, wanted } from "./list.js";
import { SCOPE, changeState, openBuild, readState, sweep } from "./state.js";

/**
 * @typedef {import("./list.js").List} List
 * @typedef {import("./list.js").Listed} Listed
 * @typedef {{done: number, all: number}} Progress in bytes
 * @typedef {"kept" | "unreachable" | "mixed" | "full" | "leave"} End
 *   unreachable: no network; mixed: the host has another file than its list says; full: no room; leave: keep nothing here
 */

const LIST = "files.json";
/** So many files are asked for at once. */
const AT_ONCE = 4;
const DAY = 24 * 60 * 60 * 1000;

/**
 * Takes what is wanted and not yet here.
 * @param {{page?: string, whole?: boolean}} wish what is wanted from now on, besides what already was
 * @param {(progress: Progress) => void} [tell]
 * @returns {Promise<{end: End, build: string | null}>} build: the one that is now shown
 */
export async function keep(wish, tell = () => undefined) {
  const { current } = await readState();
  try {
    return await take(wish, current, tell);
  } catch (error) {
    return { end: endOf(error), build: current };
  }
}

/** @param {{page?: string, whole?: boolean}} wish @param {string | null} current @param {(progress: Progress) => void} tell */
async function take(wish, current, tell) {
  await want(wish);
  const list = await hostList();
  if (list === "unreachable" || list === "leave") return { end: list, build: current };
  const state = await readState();
  // A build that was begun before, and overtaken since, is of no use.
  await sweep([list.build, ...(current ? [current] : [])]);
  await fill(list, wanted(list, state), tell);
  // A page that the course no longer has is not asked for again.
  const pages = state.pages.filter((page) => list.files.some(({ path }) => path === page));
  await changeState({ current: list.build, pages });
  await sweep([list.build]);
  return { end: /** @type {End} */ ("kept"), build: list.build };
}

/** Remembered before anything is fetched, so that what is cut goes on another time. @param {{page?: string, whole?: boolean}} wish */
async function want({ page, whole }) {
  const state = await readState();
  await changeState({ whole: whole ?? state.whole, pages: page ? [...new Set([...state.pages, page])] : state.pages });
}

/** @returns {Promise<List | "unreachable" | "leave">} */
export async function hostList() {
  const answer = await fetch(new URL(LIST, SCOPE), { cache: "no-cache" }).catch(() => null);
  if (!answer || (!answer.ok && ![404, 410].includes(answer.status))) return "unreachable";
  const list = answer.ok ? listIn(await answer.json().catch(() => null)) : null;
  if (list === "serving") return "leave";
  if (list === null) return (await hasLeft(answer.ok)) ? "leave" : "unreachable";
  await changeState({ missed: 0 });
  return list;
}

/**
 * A host that has had no list for a day no longer has this course; one that has none for a moment is being changed. On a
 * developer's own machine another site may come to the same address at any time.
 * @param {boolean} answered with something that is no list
 */
async function hasLeft(answered) {
  if (["localhost", "127.0.0.1", "[::1]"].includes(SCOPE.hostname)) return !answered;
  const { missed } = await readState();
  if (!missed) await changeState({ missed: Date.now() });
  return missed > 0 && Date.now() - missed > DAY;
}

/** @param {List} list @param {Listed[]} files @param {(progress: Progress) => void} tell */
async function fill(list, files, tell) {
  const cache = await openBuild(list.build);
  const missing = await lacking(cache, files);
  const all = sizeOf(files);
  let done = all - sizeOf(missing);
  tell({ done, all });
  if (!missing.length) return;
  await cache.put(addressOf(LIST, SCOPE), Response.json(list));
  const before = await alreadyHere(list.build);
  await inTurn(missing, async (file) => {
    await cache.put(addressOf(file.path, SCOPE), (await before(file)) ?? (await fetched(file)));
    done += file.size;
    tell({ done, all });
  });
}

/** @param {Cache} cache @param {Listed[]} files @returns {Promise<Listed[]>} */
export async function lacking(cache, files) {
  const here = new Set((await cache.keys()).map(({ url }) => url));
  return files.filter(({ path }) => !here.has(addressOf(path, SCOPE)));
}

/** Finds a file in the build that is shown now: what did not change is not fetched again. @param {string} build */
async function alreadyHere(build) {
  const { current } = await readState();
  const cache = current && current !== build ? await openBuild(current) : null;
  const list = cache && (await listOf(cache));
  const paths = new Map((list?.files ?? []).map(({ path, sha256 }) => [sha256, path]));
  return async (/** @type {Listed} */ { sha256 }) => {
    const path = paths.get(sha256);
    return path !== undefined && cache ? cache.match(addressOf(path, SCOPE)) : undefined;
  };
}

/** The list that a build was kept by. @param {Cache} cache @returns {Promise<List | null>} */
export async function listOf(cache) {
  const found = await cache.match(addressOf(LIST, SCOPE));
  const list = found && listIn(await found.json());
  return list && list !== "serving" ? list : null;
}

/**
 * Several at once, begun in their order. The first that fails ends all: none is begun any more, and it is thrown when those
 * under way are done, so that nothing comes after the end.
 * @template T @param {T[]} things @param {(thing: T) => Promise<void>} act
 */
async function inTurn(things, act) {
  const waiting = [...things];
  /** @type {unknown[]} */
  const failed = [];
  const line = async () => {
    for (let next = waiting.shift(); next !== undefined && !failed.length; next = waiting.shift()) {
      await act(next).catch((error) => failed.push(error));
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, line));
  if (failed.length) throw failed[0];
}

/** @param {unknown} error @returns {End} */
function endOf(error) {
  if (error instanceof OtherFile) return "mixed";
  return error instanceof DOMException && error.name === "QuotaExceededError" ? "full" : "unreachable";
}
