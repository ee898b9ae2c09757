// The styles of the tuner and of the check, fetched with them: a lesson alone does not need them.
import { parts } from "../parts.js";

/** @returns {Promise<unknown>} once they are there; without them the page is plain, but works */
export function styles() {
  const href = new URL("../../css/tuner.css", import.meta.url).href;
  if (parts(document, "link[rel=stylesheet]", HTMLLinkElement).some((link) => link.href === href)) return Promise.resolve();
  const link = Object.assign(document.createElement("link"), { rel: "stylesheet", href });
  document.head.append(link);
  return new Promise((resolve) => { link.onload = link.onerror = resolve; });
}
