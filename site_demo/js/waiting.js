// Lets what is far out of sight wait undrawn (css/block.css), once the browser knows how tall it is: so a tap on a long lesson
// is answered at once, and a jump to a step still lands on it.

import { parts } from "./parts.js";

const root = document.documentElement;
const AT_ONCE = 3;
const FAR = "150% 0px";
const STILL = 1000;

/** Begins when the page has come to rest; what changes the sizes has them taken anew. */
export function bindWaiting() {
  // Only where the browser keeps one's place when what is above turns out taller or lower than it was thought.
  if (!CSS.supports("overflow-anchor", "auto") || !("checkVisibility" in root) || !("requestIdleCallback" in globalThis)) return;
  const boxes = parts(document, ".fp-step, .fp-ways, .fp-practice > ul, .fp-map, .fp-index-entry", HTMLElement);
  if (boxes.length <= AT_ONCE) return;
  const measuring = new Measuring(boxes);
  if ("waiting" in root.dataset) whenStill(() => measuring.begin());
  else whenStill(() => waitFarOff(boxes));
  beforeJumps(() => {
    if (!("waiting" in root.dataset) || measuring.done) return;
    // Their sizes are not known yet, so all is laid out, and the jump lands.
    measuring.end();
    delete root.dataset.waiting;
    whenStill(() => waitFarOff(boxes));
  });
  for (const change of ["viewchange", "turned"]) root.addEventListener(change, () => measuring.begin());
  onWidth(() => measuring.begin());
}

/** Whoever comes by an address with a step is carried to it first. @param {() => void} act once nothing has moved for a second */
function whenStill(act) {
  const still = () => {
    removeEventListener("scroll", again);
    idle(act);
  };
  let timer = setTimeout(still, STILL);
  const again = () => {
    clearTimeout(timer);
    timer = setTimeout(still, STILL);
  };
  addEventListener("scroll", again, { passive: true });
}

/** @param {() => void} act before the page follows a link to a place of its own */
function beforeJumps(act) {
  document.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("a[href*='#']")) act();
  }, { capture: true });
}

/** What is near never changes before one's eyes: it may wait from the first time on that it is far. @param {HTMLElement[]} boxes */
function waitFarOff(boxes) {
  const observer = new IntersectionObserver((seen) => {
    for (const { target, isIntersecting } of seen) {
      if (isIntersecting) continue;
      target.classList.add("fp-waits");
      observer.unobserve(target);
    }
  }, { rootMargin: FAR });
  boxes.forEach((box) => observer.observe(box));
}

/** Draws a few of those that wait at a time, while nothing else is to be done, so that the browser knows their sizes. */
class Measuring {
  #turn = 0;
  /** Whether all have been measured since they changed last. */
  done = false;

  /** @param {HTMLElement[]} boxes */
  constructor(boxes) {
    this.boxes = boxes;
  }

  /** Begins, or begins again. */
  begin() {
    this.end();
    const turn = this.#turn;
    idle(() => this.#from(0, turn));
  }

  end() {
    this.#turn += 1;
    this.done = false;
  }

  /** @param {number} first @param {number} turn */
  #from(first, turn) {
    if (turn !== this.#turn) return;
    this.done = first >= this.boxes.length;
    if (this.done) return;
    const few = this.boxes.slice(first, first + AT_ONCE).filter((box) => box.firstElementChild && !isDrawn(box.firstElementChild));
    few.forEach((box) => { box.style.contentVisibility = "visible"; });
    // The size is known when the frame is made; only then may the box wait again.
    requestAnimationFrame(() => idle(() => {
      few.forEach((box) => { box.style.contentVisibility = ""; });
      this.#from(first + AT_ONCE, turn);
    }));
  }
}

/** Whether an element, if it is shown at all, is drawn now and does not wait. @param {Element} element */
export function isDrawn(element) {
  return element.checkVisibility?.({ contentVisibilityAuto: true }) ?? true;
}

/** Telephones change the height of a page whenever their bars come and go; that moves nothing. @param {() => void} act */
function onWidth(act) {
  let width = root.clientWidth;
  addEventListener("resize", () => {
    if (root.clientWidth === width) return;
    width = root.clientWidth;
    act();
  });
}

/** @param {() => void} act */
function idle(act) {
  requestIdleCallback(act, { timeout: 2000 });
}
