// Where one is in practice: the step that is shown, the one it was come to from, the pair that is changed between. Pure; each
// way on gives a position of its own.
import { sceneOf } from "./scene.js";
import { changeOf, neighbour, pairInto, timedNext } from "./walk.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("./walk.js").Pair} Pair
 */

export class Position {
  /**
   * @param {Step[]} steps
   * @param {number} at
   * @param {number | null} from the step come from by a change; null where the step was only opened or gone back to
   * @param {Pair} pair
   * @param {boolean} opened whether practice has just been opened here
   */
  constructor(steps, at = 0, from = null, pair = null, opened = false) {
    this.steps = steps;
    this.at = at;
    this.from = from;
    this.pair = pair;
    this.justOpened = opened;
  }

  get step() {
    return this.steps[this.at];
  }

  get scene() {
    return sceneOf(this.steps, this.at, this.from, this.pair, this.justOpened);
  }

  /** The step, or the two of the pair. @returns {Step[]} */
  get practised() {
    return this.#stepsAt(this.pair ?? [this.at]);
  }

  /** The two steps of the change just made; null where it was none. */
  get change() {
    const change = changeOf(this.from, this.at, this.steps);
    return change && this.#stepsAt(change);
  }

  /** The pair to begin where none is practised; null where one is, to end it. */
  get otherPair() {
    return this.pair ? null : pairInto(this.at, this.steps);
  }

  /** Whether the pair has been changed there and back. */
  get roundIsOver() {
    return this.pair !== null && this.at === this.pair[0] && this.from !== null;
  }

  /** Where keeping time begins: here, or with the first of the pair. @returns {Position} */
  get timeBegins() {
    return this.pair && !this.justOpened ? new Position(this.steps, this.pair[0], null, this.pair) : this;
  }

  /** Where time goes on to when the beats of this step are over; null where it ends. @returns {Position | null} */
  get inTime() {
    const next = timedNext(this.at, this.steps, this.pair);
    return next === null ? null : new Position(this.steps, next, this.at, this.pair);
  }

  /** At a step, or at the first of a pair. @param {number} at @param {Pair} pair */
  opened(at, pair) {
    return new Position(this.steps, pair ? pair[0] : at, null, pair, true);
  }

  /** One on or one back; null at either end. @param {1 | -1} by */
  beside(by) {
    const to = neighbour(this.at, by, this.steps.length, this.pair);
    return to === null ? null : new Position(this.steps, to, this.pair || by === 1 ? this.at : null, this.pair);
  }

  /** @param {number[]} places */
  #stepsAt(places) {
    return places.map((at) => this.steps[at]);
  }
}
