// One practice from opening to leaving: what the student does, whether time is kept, what is asked.
import { thePart } from "../parts.js";
import { showBeat } from "./beat-marks.js";
import { Count } from "./count.js";
import { Position } from "./position.js";
import { keepTime } from "./run.js";
import { Showing } from "./showing.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("./walk.js").Pair} Pair
 * @typedef {object} Given
 * @property {HTMLElement} view
 * @property {Step[]} steps
 * @property {import("./settings.js").Settings} settings always the current ones
 * @property {import("../words.js").Say} say
 * @property {(which: string) => void} notice says something that is no part of the step; "": it has been read
 * @property {import("./sound.js").Sounds} sound
 * @property {{keep: () => void, release: () => void}} awake
 */

/** The click comes so many milliseconds after the light, so that a late timer is not heard. */
const CLICK_AFTER = 40;

export class Session {
  /** @type {(() => void) | null} */
  #stopTime = null;
  #asking = false;
  #stopped = "";

  /** @param {Given} given */
  constructor(given) {
    this.given = given;
    this.here = new Position(given.steps);
    this.counted = new Count(given.say, () => given.notice("unkept"));
    this.showing = new Showing(given, this.counted);
    this.row = thePart(given.view, "[data-beat]", HTMLElement);
  }

  /** @returns {Step} the one that is shown */
  get step() {
    return this.here.step;
  }

  get running() {
    return this.#stopTime !== null;
  }

  /** @returns {import("./showing.js").Now} */
  get #now() {
    return { here: this.here, running: this.running, asking: this.#asking, stopped: this.#stopped };
  }

  /** From now on clean tries are counted. @param {import("./tries.js").Keeper} keeper */
  count(keeper) {
    this.counted.begin(keeper);
    this.showing.label(this.#now);
  }

  /** Begins at a step, or at the first of a pair. @param {number} at @param {Pair} pair */
  begin(at, pair) {
    this.pause();
    this.#asking = false;
    this.given.awake.keep();
    this.#goTo(this.here.opened(at, pair));
  }

  /** On to the next step; after a round: it was clean. */
  next() {
    if (this.#asking) this.rate(true);
    else this.#go(1);
  }

  /** Back to the step before; after a round: it was not clean. */
  back() {
    if (this.#asking) this.rate(false);
    else this.#go(-1);
  }

  togglePair() {
    this.begin(this.here.at, this.here.otherPair);
  }

  /** Shows the move again. */
  again() {
    this.pause();
    this.showing.draw(this.#now, true);
  }

  /** Draws anew, as when the pictures have been turned. */
  redraw() {
    this.showing.draw(this.#now, false);
  }

  /** What has been set holds from the next beat that is asked for. */
  changed() {
    this.pause();
    this.redraw();
  }

  hear() {
    const { settings, sound } = this.given;
    if (this.step.pitches.length) sound.hear(this.step, settings.tempo);
  }

  /** Stops everything. */
  stop() {
    this.pause();
    this.showing.leave();
    this.given.sound.stop();
    this.given.awake.release();
  }

  /** Takes the student's word for the change just made, or for both of a round. @param {boolean} clean */
  rate(clean) {
    const { practised, change, pair } = this.here;
    const round = this.#asking && pair;
    const changes = round ? [practised, practised.toReversed()] : [change];
    for (const made of changes) {
      if (made) this.counted.note(made, clean);
    }
    this.given.awake.keep();
    this.showing.label(this.#now);
    if (round) this.run();
  }

  /** Keeps time from here; between two steps a round begins with the first. */
  run() {
    if (this.running) return;
    const { settings, sound, say } = this.given;
    this.#asking = false;
    this.#stopped = "";
    this.given.awake.keep();
    sound.stop();
    if (settings.sound) sound.ready();
    const { timeBegins } = this.here;
    if (timeBegins.at !== this.here.at) this.#goTo(timeBegins);
    this.here = timeBegins;
    // Set first: the first beat comes at once, and asks whether time is kept.
    this.#stopTime = () => undefined;
    this.showing.label(this.#now);
    this.showing.tell(settings.countIn ? say("counting") : "");
    this.#stopTime = keepTime({
      tempo: settings.tempo, countIn: settings.countIn, beats: () => this.step.beats ?? settings.beats,
      play: (...beat) => this.#beat(...beat), goOn: () => this.#goOn(),
    });
  }

  /** @param {string} [word] what is said of it, to who listens and to who looks */
  pause(word = "paused") {
    if (!this.#stopTime) return;
    this.#stopTime();
    this.#stopTime = null;
    this.#stopped = word;
    this.row.hidden = true;
    this.given.sound.stop();
    this.showing.tell(this.given.say(word));
    this.showing.where(this.#now);
    this.showing.label(this.#now);
  }

  /** @param {import("./beats.js").Beat} beat @param {number} number @param {number} due */
  #beat(beat, number, due) {
    const { settings, awake, sound } = this.given;
    awake.keep();
    showBeat(this.row, beat, number, settings.tempo);
    const strong = beat.kind === "count" ? beat.left === beat.of : beat.kind === "step" && beat.within === 0;
    if (settings.sound) sound.click(strong, (due + CLICK_AFTER - performance.now()) / 1000);
  }

  /** A step's beats are over. @returns {boolean} whether time goes on */
  #goOn() {
    // Where no tries can be kept there is nothing to ask, and the change goes on.
    const asks = this.counted.counts && this.here.roundIsOver;
    const next = asks ? null : this.here.inTime;
    if (next) {
      this.given.notice("");
      this.#goTo(next);
      return true;
    }
    this.#asking = asks;
    this.pause(asks ? "" : "ended");
    return false;
  }

  /** @param {1 | -1} by */
  #go(by) {
    this.pause();
    this.given.notice("");
    this.given.sound.stop();
    this.given.awake.keep();
    const to = this.here.beside(by);
    if (to) this.#goTo(to);
  }

  /** @param {Position} to */
  #goTo(to) {
    this.here = to;
    this.#stopped = "";
    this.showing.come(this.#now);
  }
}
