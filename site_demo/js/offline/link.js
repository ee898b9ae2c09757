// The way to the service worker: registers it for the course's own folder, asks it for things, hears what it says.
import { siteRoot } from "../store.js";

/**
 * @typedef {{kind: "keep", page?: string, whole?: boolean} | {kind: "ask"} | {kind: "forget"}} Wish
 * @typedef {{kind: "progress", done: number, all: number}} Progress in bytes
 * @typedef {{kind: "standing", reachable: boolean, whole: boolean, pages: string[], all: number, missing: number}} Standing
 *   whole: whether the whole course is to be kept; pages: those that open without a network; all, missing: bytes of the course
 * @typedef {{kind: "end", end: "kept" | "unreachable" | "mixed" | "full", whole: boolean, newer: boolean}} End
 *   newer: a newer build than this page's is kept
 */

/** @type {Promise<ServiceWorker | null> | null} */
let found = null;

/** @param {Wish} wish @returns {Promise<boolean>} whether there is a worker to hear it */
export async function wish(wish) {
  found ??= registered().catch(() => null);
  const worker = await found;
  worker?.postMessage(wish);
  return worker !== null;
}

/** @param {(said: Progress | Standing | End) => void} hear */
export function listen(hear) {
  navigator.serviceWorker?.addEventListener("message", ({ data }) => hear(data));
  navigator.serviceWorker?.startMessages();
}

/** Takes a worker out of an author's own view of the course. */
export async function dismiss() {
  const all = await navigator.serviceWorker?.getRegistrations() ?? [];
  const ours = all.filter(({ scope }) => new URL(scope).pathname === siteRoot());
  await Promise.all(ours.map((one) => one.unregister()));
}

/** @returns {Promise<ServiceWorker | null>} null where the browser has no such thing, or does not allow it here */
async function registered() {
  const root = siteRoot();
  const registration = await navigator.serviceWorker?.register(`${root}worker.js`, { scope: root, type: "module", updateViaCache: "none" });
  const worker = registration?.active ?? registration?.waiting ?? registration?.installing;
  return worker ? activated(worker) : null;
}

/** @param {ServiceWorker} worker @returns {Promise<ServiceWorker>} */
function activated(worker) {
  return new Promise((resolve, reject) => {
    const look = () => {
      if (worker.state === "activated") resolve(worker);
      else if (worker.state === "redundant") reject(new Error("The worker was not taken"));
    };
    worker.addEventListener("statechange", look);
    look();
  });
}
