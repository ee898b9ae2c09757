// Starts what is kept on a page that has use for it; each part is fetched only where the page has its place.
import { part } from "../parts.js";
import { bindNotice } from "./notice.js";

/** What is looked for in a page, and what is done where it is found. @type {[string, () => Promise<unknown>][]} */
const PARTS = [
  ["[data-today]", async () => (await import("./today.js")).bindToday()],
  ["main input[data-key*='/change/']", async () => (await import("./lesson.js")).bindKeptLesson()],
  ["[data-your-progress]", async () => (await import("./page.js")).bindKeptPage()],
  ["[data-notices]", async () => (await import("../offline/opened.js")).bindOffline()],
  ["[data-whole]", async () => (await import("../offline/whole.js")).bindWhole()],
  ["[data-not-kept]", async () => (await import("../offline/not-kept.js")).bindNotKept()],
];

/** Binds each part that this page has. */
export function bindKept() {
  bindNotice();
  for (const [place, start] of PARTS) {
    // Without its script a part stays as it was built, and the page works.
    if (part(document, place, Element)) start().catch(() => undefined);
  }
}
