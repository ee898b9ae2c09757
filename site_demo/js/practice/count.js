// Counts clean tries of each change, once the room that keeps them is there, and says their share as it is.
import { changeBetween } from "./tries.js";

/** @typedef {import("./steps.js").Step} Step @typedef {import("./tries.js").Keeper} Keeper */

export class Count {
  /** @type {Keeper | null} */
  #keeper = null;

  /** @param {import("../words.js").Say} say @param {() => void} unkept told where the browser keeps nothing */
  constructor(say, unkept) {
    this.say = say;
    this.unkept = unkept;
  }

  /** Whether tries are counted. */
  get counts() {
    return this.#keeper !== null;
  }

  /** From now on tries are counted. @param {Keeper} keeper */
  begin(keeper) {
    this.#keeper = keeper;
  }

  /** A browser that keeps nothing is told of at the first try, or a tap would seem to do nothing. @param {Step[]} ends @param {boolean} clean */
  note([from, to], clean) {
    if (!this.#keeper) return;
    const change = changeBetween(from, to);
    const before = this.#keeper.tally(change).tries;
    this.#keeper.noteTry(change, clean, Date.now());
    if (this.#keeper.tally(change).tries === before) this.unkept();
  }

  /** What is said of a change's tries; "" where none are counted. @param {Step[]} ends @returns {string} */
  said([from, to]) {
    if (!this.#keeper) return "";
    const { clean, tries } = this.#keeper.tally(changeBetween(from, to));
    return this.say(tries ? "tally" : "untried", { from: from.name, to: to.name, clean, tries });
  }
}
