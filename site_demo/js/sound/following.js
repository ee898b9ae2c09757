// Keeps in sight what sounds while a whole block is played, until the student scrolls by hand.

/** By these a student goes elsewhere. A key that turns the page's volume, say, is none of them. */
const KEYS = new Set(["ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End", " ", "Tab"]);
const BY_HAND = ["wheel", "touchmove", "hashchange"];

/**
 * @typedef {object} Following
 * @property {(step: Element) => void} show brings a step into sight, where it is not
 * @property {() => void} end
 */

/** @param {HTMLElement} bar what stops the sound; it stays in sight too @returns {Following} */
export function follow(bar) {
  const over = new AbortController();
  const { signal } = over;
  let led = true;
  const letGo = () => { led = false; };
  for (const act of BY_HAND) addEventListener(act, letGo, { signal, passive: true });
  addEventListener("keydown", ({ key }) => { if (KEYS.has(key)) letGo(); }, { signal });
  // The bar at the side of the window belongs to the page itself.
  addEventListener("pointerdown", ({ target }) => { if (target === document.documentElement) letGo(); }, { signal });
  Object.assign(bar.style, { position: "sticky", top: "0", zIndex: "1", background: "var(--paper)" });
  const show = (/** @type {Element} */ step) => {
    const { top, bottom } = step.getBoundingClientRect();
    const covered = bar.offsetHeight;
    if (!led || (top >= covered && bottom <= innerHeight)) return;
    scrollBy({ top: top - covered, behavior: matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth" });
  };
  return { show, end: () => { over.abort(); bar.style.cssText = ""; } };
}
