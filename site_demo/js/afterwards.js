// A tap is answered first: what can wait is done with the frame after the one that shows the answer.

/** Without a page to be seen no frame comes: what was put off is done before it goes. */
const LEAVING = ["pagehide", "visibilitychange"];

export class Afterwards {
  /** @type {(() => void)[]} */
  #acts = [];
  #frame = 0;

  /**
   * Puts something off. What was put off before, and is not done yet, never is.
   * @param {(() => void)[]} acts every other frame one, so that another tap need not wait for all: it is answered between
   */
  put(...acts) {
    this.drop();
    this.#acts = acts;
    if (document.hidden) {
      this.catchUp();
      return;
    }
    this.#frame = requestAnimationFrame(this.#wait);
    LEAVING.forEach((event) => addEventListener(event, this.catchUp, true));
  }

  #wait = () => {
    this.#frame = requestAnimationFrame(() => {
      const act = this.#acts.shift();
      if (this.#acts.length) this.#frame = requestAnimationFrame(this.#wait);
      else this.drop();
      act?.();
    });
  };

  /** Does now what was put off. */
  catchUp = () => {
    const acts = this.#acts;
    this.drop();
    acts.forEach((act) => act());
  };

  /** What was put off never is done. */
  drop() {
    this.#acts = [];
    cancelAnimationFrame(this.#frame);
    LEAVING.forEach((event) => removeEventListener(event, this.catchUp, true));
  }
}
