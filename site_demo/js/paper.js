// Paper has no folds: the ways back that a lesson keeps folded are opened for the printer, and folded again after it.
import { parts } from "./parts.js";

/** Where a browser can be told so by css/print.css alone, this changes nothing that is seen. */
export function bindPaper() {
  /** @type {HTMLDetailsElement[]} */
  let opened = [];
  window.addEventListener("beforeprint", () => {
    opened = parts(document, ".fp-ways-folded", HTMLDetailsElement).filter((fold) => !fold.open);
    opened.forEach((fold) => { fold.open = true; });
  });
  window.addEventListener("afterprint", () => opened.forEach((fold) => { fold.open = false; }));
}
