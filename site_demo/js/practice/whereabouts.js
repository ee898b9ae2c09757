// Says where one is in practice: above the step, on the control of pairs, and in the address.
import { thePart } from "../parts.js";
import { write } from "../write.js";
import { askedToPractise, practiseAddress } from "./address.js";
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

/**
 * The address: told soon, not at once, since browsers allow so many changes of it in a minute and no more. When the page is
 * left it can't be changed any more, so where one is then is told to the page (js/progress.js hears `practiceleft`).
 */
export class Address {
  #timer = 0;
  /** @type {string[]} */
  #ids = [];

  constructor() {
    addEventListener("pagehide", () => this.leave());
    addEventListener("visibilitychange", () => { if (document.hidden) this.leave(); });
  }

  /** @param {string[]} ids the steps that it is to say */
  tell(ids) {
    this.hold(ids);
    this.#timer = window.setTimeout(() => history.replaceState(history.state, "", practiseAddress(ids)), SETTLED);
  }

  /** While time is kept steps go by faster than it may change: it is told when that ends. @param {string[]} ids */
  hold(ids) {
    clearTimeout(this.#timer);
    this.#ids = ids;
  }

  /** Tells both where one is. Where the address is not the view's any more, one has gone back to the lesson. */
  leave() {
    clearTimeout(this.#timer);
    const ids = this.#ids;
    this.#ids = [];
    if (!ids.length || !askedToPractise(location.hash)) return;
    history.replaceState(history.state, "", practiseAddress(ids));
    document.documentElement.dispatchEvent(new CustomEvent("practiceleft", { detail: { ids } }));
  }
}
