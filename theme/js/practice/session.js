// One practice from opening to leaving: which step is shown, how it was come to, whether time is kept, what is asked.
import { part, thePart } from "../parts.js";
import { showBeat } from "./beat-marks.js";
import { label } from "./controls.js";
import { Count } from "./count.js";
import { keepTime } from "./run.js";
import { sceneOf, wayOf } from "./scene.js";
import { show } from "./stage.js";
import { plainText } from "./steps.js";
import { changeOf, neighbour, pairInto, timedNext } from "./walk.js";
import { Address, tellWhere } from "./whereabouts.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("./walk.js").Pair} Pair
 * @typedef {object} Given
 * @property {HTMLElement} view
 * @property {Step[]} steps
 * @property {import("./settings.js").Settings} settings always the current ones
 * @property {import("../words.js").Say} say
 * @property {(which: string) => void} notice says something that is no part of the step
 * @property {import("./sound.js").Sounds} sound
 * @property {{keep: () => void, release: () => void}} awake
 */

/** A movement takes so long, in milliseconds, and no more than this part of a beat. */
const MOVEMENT = 1000;
const OF_A_BEAT = 0.75;
/** The click comes so many milliseconds after the light, so that a late timer is not heard. */
const CLICK_AFTER = 40;
/** A longer short form is not said beforehand: it would not fit. */
const FITS = 8;

export class Session {
  #at = 0;
  /** @type {number | null} the step come from by a change; null where the step was only opened or gone back to */
  #from = null;
  /** @type {Pair} */
  #pair = null;
  /** @type {(() => void) | null} */
  #stopTime = null;
  #asking = false;
  #address = new Address();
  #calm = window.matchMedia("(prefers-reduced-motion: reduce)");

  /** @param {Given} given */
  constructor(given) {
    this.given = given;
    this.counted = new Count(given.say, () => given.notice("unkept"));
    this.live = thePart(given.view, "[data-live]", HTMLElement);
    this.row = thePart(given.view, "[data-beat]", HTMLElement);
    this.body = thePart(given.view, ".practice-body", HTMLElement);
  }

  /** @returns {Step} the one that is shown */
  get step() {
    return this.given.steps[this.#at];
  }

  get running() {
    return this.#stopTime !== null;
  }

  /** From now on clean tries are counted. @param {import("./tries.js").Keeper} keeper */
  count(keeper) {
    this.counted.begin(keeper);
    this.#label();
  }

  /** Begins at a step, or at the first of a pair. @param {number} at @param {Pair} pair */
  begin(at, pair) {
    this.pause();
    this.#asking = false;
    this.#pair = pair;
    this.given.awake.keep();
    this.#goTo(pair ? pair[0] : at, null);
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
    this.begin(this.#at, this.#pair ? null : pairInto(this.#at, this.given.steps));
  }

  /** Shows the move again. */
  again() {
    this.pause();
    this.#draw(true);
  }

  /** Draws anew, as when the pictures have been turned. */
  redraw() {
    this.#draw(false);
  }

  /** What has been set holds from the next beat that is asked for. */
  changed() {
    this.pause();
    this.redraw();
  }

  hear() {
    this.given.sound.strum(this.step.pitches);
  }

  /** Stops everything. */
  stop() {
    this.pause();
    this.#address.drop();
    this.given.sound.stop();
    this.given.awake.release();
  }

  /** Takes the student's word for the change just made, or for both of a round. @param {boolean} clean */
  rate(clean) {
    const round = this.#asking && this.#pair;
    const changes = round ? [round, [round[1], round[0]]] : [this.#change()];
    for (const change of changes) {
      if (change) this.counted.note(this.#stepsAt(change), clean);
    }
    this.given.awake.keep();
    this.#label();
    if (round) this.run();
  }

  /** Keeps time from here; between two steps a round begins with the first. */
  run() {
    if (this.running) return;
    const { settings, steps, sound, say } = this.given;
    this.#asking = false;
    this.given.awake.keep();
    if (settings.sound) sound.ready();
    if (this.#pair && this.#at !== this.#pair[0]) this.#goTo(this.#pair[0], null);
    if (this.#pair) this.#from = null;
    // Set first: the first beat comes at once, and asks whether time is kept.
    this.#stopTime = () => undefined;
    this.#label();
    this.live.textContent = settings.countIn ? say("counting") : "";
    this.#stopTime = keepTime({
      tempo: settings.tempo, countIn: settings.countIn, beats: () => steps[this.#at].beats ?? settings.beats,
      play: (...beat) => this.#beat(...beat), goOn: () => this.#goOn(),
    });
  }

  /** @param {string} [word] what is said of it */
  pause(word = "paused") {
    if (!this.#stopTime) return;
    this.#stopTime();
    this.#stopTime = null;
    this.row.hidden = true;
    this.given.sound.stop();
    this.live.textContent = this.given.say(word);
    this.#tellWhere();
    this.#label();
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
    const round = this.counted.counts && this.#pair !== null && this.#at === this.#pair[0] && this.#from !== null;
    const next = round ? null : timedNext(this.#at, this.given.steps, this.#pair);
    if (next === null) {
      this.#asking = round;
      this.pause(round ? "" : "ended");
      return false;
    }
    this.#goTo(next, this.#at);
    return true;
  }

  /** @param {1 | -1} by */
  #go(by) {
    this.pause();
    this.given.awake.keep();
    const to = neighbour(this.#at, by, this.given.steps.length, this.#pair);
    if (to !== null) this.#goTo(to, this.#pair || by === 1 ? this.#at : null);
  }

  /** @param {number} to @param {number | null} from */
  #goTo(to, from) {
    [this.#from, this.#at] = [from, to];
    this.#draw(from !== null);
    this.#announce();
    // Asked for now, it would have the page laid out twice.
    requestAnimationFrame(() => { this.body.scrollTop = 0; });
  }

  get #scene() {
    return sceneOf(this.given.steps, this.#at, this.#from, this.#pair);
  }

  /** @param {boolean} moving whether the move is to be seen */
  #draw(moving) {
    const { view, say, settings } = this.given;
    const pictures = this.#calm.matches || !settings.movement;
    const beat = (OF_A_BEAT * 60000) / settings.tempo;
    show(view, this.#scene, {
      how: pictures ? "pictures" : moving ? "moving" : "still", duration: this.running ? Math.min(MOVEMENT, beat) : MOVEMENT,
    }, say);
    thePart(view, "[data-again]", HTMLButtonElement).hidden = pictures;
    this.#tellWhere();
    this.#label();
  }

  /** In the order finger, string, fret, what rings; while time is kept only the move, since there is no time for more. */
  #announce() {
    const { view, say } = this.given;
    const shape = this.running ? "" : part(view, "[data-picture] desc", SVGElement)?.textContent ?? "";
    this.live.textContent = say("announce", { name: this.step.aloud, move: plainText(wayOf(this.#scene, say("apart")).move), shape });
  }

  /** A pause catches up with the address. */
  #tellWhere() {
    const { view, steps, say } = this.given;
    tellWhere(view, say, steps, this.#at, this.#pair);
    if (this.running) this.#address.drop();
    else this.#address.tell(this.#stepsAt(this.#pair ?? [this.#at]).map((step) => step.id));
  }

  #label() {
    const { view, steps, say, settings } = this.given;
    const change = this.#change();
    const [back, next] = [neighbour(this.#at, -1, steps.length, this.#pair), neighbour(this.#at, 1, steps.length, this.#pair)];
    label(view, say, {
      back: back === null ? null : steps[back],
      next: next === null ? null : steps[next],
      nextShort: next === null ? "" : this.#shortOf(next),
      running: this.running,
      tempo: say("tempo", { n: settings.tempo }),
      asking: this.#asking && this.#pair ? say("asked", { from: steps[this.#pair[0]].name, to: steps[this.#pair[1]].name }) : "",
      tally: change ? this.counted.said(this.#stepsAt(change)) : "",
    });
  }

  /** The short form of the move to a step that is to come. @param {number} next */
  #shortOf(next) {
    const short = plainText(wayOf(sceneOf(this.given.steps, next, this.#at, this.#pair), "").short);
    return short.length > FITS ? "" : short;
  }

  #change() {
    return changeOf(this.#from, this.#at, this.given.steps);
  }

  /** @param {number[]} places @returns {Step[]} */
  #stepsAt(places) {
    return places.map((at) => this.given.steps[at]);
  }
}
