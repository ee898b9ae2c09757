// A tap is answered first: what can wait is done with the frame after the one that shows the answer.

/** Without a page to be seen no frame comes: what was put off is done before it goes. */
const LEAVING = ["pagehide", "visibilitychange"];

export class Afterwards {
  /** @type {(() => void) | null} */
  #act = null;
  #frame = 0;

  /** Puts something off. What was put off before, and is not done yet, never is. @param {() => void} act */
  put(act) {
    this.drop();
    if (document.hidden) {
      act();
      return;
    }
    this.#act = act;
    this.#frame = requestAnimationFrame(() => { this.#frame = requestAnimationFrame(this.catchUp); });
    LEAVING.forEach((event) => addEventListener(event, this.catchUp, true));
  }

  /** Does now what was put off. */
  catchUp = () => {
    const act = this.#act;
    this.drop();
    act?.();
  };

  /** What was put off never is done. */
  drop() {
    this.#act = null;
    cancelAnimationFrame(this.#frame);
    LEAVING.forEach((event) => removeEventListener(event, this.catchUp, true));
  }
}
