// While the View panel or the practice view lies over a long lesson, what is far out of sight waits undrawn (css/waiting.css),
// so that each tap is answered at once. As long as one reads, everything is laid out: a jump lands, and nothing moves.

import { Afterwards } from "./afterwards.js";
import { parts } from "./parts.js";

const BOXES = ".fp-step, .fp-ways, .fp-practice > ul, .fp-map, .fp-index-entry";
/** What is folded is not drawn anyway, and to be asked where it lies it would be laid out. */
const FOLDED = "details:not([open])";
/** So many screens above and below what is seen are near: they may come into sight. */
const NEAR = 1.5;
/** So many boxes are laid out at once when they no longer wait; then comes another tap, if there is one. */
const AT_ONCE = 2;

export class Waiting {
  /** @type {HTMLElement[]} */
  #far = [];
  #later = new Afterwards();

  /** What is far waits from now on. */
  begin() {
    // Only where the browser keeps one's place when what is above turns out taller or lower than it was thought.
    if (!CSS.supports("overflow-anchor", "auto")) return;
    this.end();
    this.#far = parts(document, BOXES, HTMLElement).filter((box) => !box.closest(FOLDED) && isFar(box));
    // A caret in what waits would be looked for in every frame.
    const chosen = getSelection();
    if (chosen?.isCollapsed) chosen.removeAllRanges();
    this.#far.forEach((box) => box.classList.add("fp-waits"));
  }

  /** Nothing waits any longer. */
  end() {
    this.#later.drop();
    removeEventListener("click", this.#land, true);
    this.#draw(this.#far.length);
  }

  /** Ends bit by bit, from the top of the page. */
  endByAndBy() {
    this.#draw(AT_ONCE);
    addEventListener("click", this.#land, true);
    // Not before these are laid out, or all would be so at once after all.
    if (this.#far.length) this.#later.put(() => this.endByAndBy());
    else this.end();
  }

  /** A link that is followed meanwhile must land. @param {MouseEvent} event */
  #land = ({ target }) => {
    if (target instanceof Element && target.closest("a")) this.end();
  };

  /** @param {number} count how many no longer wait */
  #draw(count) {
    this.#far.splice(0, count).forEach((box) => box.classList.remove("fp-waits"));
  }
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
