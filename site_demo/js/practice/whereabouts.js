// Says where one is in practice: above the step, on the control of pairs, and in the address.
import { thePart } from "../parts.js";
import { write } from "../write.js";
import { practiseAddress } from "./address.js";
import { pairInto } from "./walk.js";

/** Milliseconds after which a step that is shown stands in the address. */
const SETTLED = 150;

/**
 * @param {HTMLElement} view @param {import("../words.js").Say} say @param {import("./steps.js").Step[]} steps
 * @param {number} at @param {import("./walk.js").Pair} pair
 */
export function tellWhere(view, say, steps, at, pair) {
  const { ordinal, block, title } = steps[at];
  const all = steps.filter((step) => step.block === block).length;
  write(thePart(view, "[data-where]", HTMLElement), say(pair ? "where-pair" : "where", { n: ordinal + 1, all, title }));
}

/**
 * On the control of pairs: whether one is practised, or could be.
 * @param {HTMLElement} view @param {import("./steps.js").Step[]} steps @param {number} at @param {import("./walk.js").Pair} pair
 */
export function tellPair(view, steps, at, pair) {
  const control = thePart(view, "[data-pair]", HTMLButtonElement);
  control.setAttribute("aria-pressed", String(pair !== null));
  control.setAttribute("aria-disabled", String(!pair && !pairInto(at, steps)));
}

/** The address: told soon, not at once, since browsers allow so many changes of it in a minute and no more. */
export class Address {
  #timer = 0;
  /** @type {string[] | null} */
  #untold = null;

  constructor() {
    // Before others read the address for the last time: where one left is where one carries on.
    for (const event of ["pagehide", "visibilitychange"]) addEventListener(event, () => this.#write(), { capture: true });
  }

  /** @param {string[]} ids the steps that it is to say */
  tell(ids) {
    this.drop();
    this.#untold = ids;
    this.#timer = window.setTimeout(() => this.#write(), SETTLED);
  }

  /** What has not been told yet never is. */
  drop() {
    clearTimeout(this.#timer);
    this.#untold = null;
  }

  #write() {
    if (this.#untold) history.replaceState(history.state, "", practiseAddress(this.#untold));
    this.drop();
  }
}
