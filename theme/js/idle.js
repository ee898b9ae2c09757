// What nobody waits for is done while the page has nothing else to do, one thing at a time.

/** A browser that does not tell when it has nothing to do is asked again after so many milliseconds. */
const SOON = 60;

export class Idle {
  /** @type {(() => void)[]} */
  #acts = [];
  #asked = 0;

  /** Puts things off. What was put off before, and is not done yet, never is. @param {(() => void)[]} acts */
  put(acts) {
    this.drop();
    this.#acts = [...acts];
    this.#ask();
  }

  /** What was put off never is done. */
  drop() {
    this.#acts = [];
    if ("cancelIdleCallback" in window) cancelIdleCallback(this.#asked);
    else clearTimeout(this.#asked);
  }

  #ask() {
    if (!this.#acts.length) return;
    if ("requestIdleCallback" in window) this.#asked = requestIdleCallback(this.#one);
    else this.#asked = setTimeout(this.#one, SOON);
  }

  #one = () => {
    this.#acts.shift()?.();
    this.#ask();
  };
}
