// While the View panel or the practice view lies over a long lesson, what is far out of sight waits undrawn (css/waiting.css),
// so that each tap is answered at once. As long as one reads, everything is laid out: a jump lands, and nothing moves.

import { parts } from "./parts.js";

const BOXES = ".fp-step, .fp-ways, .fp-practice > ul, .fp-map, .fp-index-entry";
/** So many screens above and below what is seen are near: they may come into sight. */
const NEAR = 1.5;

/** @returns {() => void} ends the waiting */
export function waitFarOff() {
  // Only where the browser keeps one's place when what is above turns out taller or lower than it was thought.
  if (!CSS.supports("overflow-anchor", "auto")) return () => undefined;
  const far = parts(document, BOXES, HTMLElement).filter(isFar);
  far.forEach((box) => box.classList.add("fp-waits"));
  return () => far.forEach((box) => box.classList.remove("fp-waits"));
}

/** @param {HTMLElement} box */
function isFar(box) {
  const { top, bottom } = box.getBoundingClientRect();
  return bottom < -NEAR * innerHeight || top > (1 + NEAR) * innerHeight;
}

/** Whether an element, if it is shown at all, is drawn now and does not wait. @param {Element} element */
export function isDrawn(element) {
  return element.checkVisibility?.({ contentVisibilityAuto: true }) ?? true;
}
