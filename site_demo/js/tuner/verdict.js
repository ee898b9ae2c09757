// What was heard when one string of a shape was plucked: it rings, it is another note, or no note was heard. Needs no page.
import { midiOf } from "./reading.js";

/** Seconds that a note has to be heard to ring; and that a pluck is given to become a note. */
const RINGS = 0.45;
const GIVEN = 1.1;
/** A pluck is so many times louder (mean square) than what was before it, and no quieter than about -56 dB of full scale. */
const RISE = 6;
const LEAST = 2.5e-6;
/** Semitones: nearer than this it is the note; beyond the second it is the note, but pulled sharp or out of tune. */
const SAME = 0.5;
const TRUE = 0.2;

/**
 * @typedef {object} Asked
 * @property {number} pitch MIDI number that should sound
 * @property {number} open the string's own, with the capo
 * @property {number[]} others what the shape's other strings sound
 *
 * @typedef {"rings" | "off" | "open" | "other-string" | "fret-low" | "fret-high" | "wrong" | "silent"} Verdict
 */

/** The kind of a note that was heard. @param {number} midi @param {Asked} asked @returns {Verdict} */
export function kindOf(midi, { pitch, open, others }) {
  const off = midi - pitch;
  const near = (/** @type {number} */ other) => Math.abs(midi - other) < SAME;
  if (Math.abs(off) < SAME) return Math.abs(off) <= TRUE ? "rings" : "off";
  if (near(open)) return "open";
  if (others.some(near)) return "other-string";
  if (near(pitch - 1)) return "fret-low";
  return near(pitch + 1) ? "fret-high" : "wrong";
}

/** Follows one pluck from before it to its verdict. */
export class Pluck {
  /** @type {number | null} the mean square before it */
  #before = null;
  /** @type {number | null} */
  #since = null;
  /** @type {{kind: Verdict, since: number} | null} */
  #note = null;

  /** @param {Asked} asked */
  constructor(asked) {
    this.asked = asked;
  }

  /** @param {import("./pitch.js").Finding} finding @param {number} time seconds @returns {Verdict | null} null while it is not known */
  hear({ hertz, power }, time) {
    if (this.#since === null) return this.#awaits(power, time);
    const kind = hertz === null ? null : kindOf(midiOf(hertz), this.asked);
    if (kind === null) this.#note = null;
    else if (this.#note?.kind !== kind) this.#note = { kind, since: time };
    if (this.#note && time - this.#note.since >= RINGS) return this.#note.kind;
    return time - this.#since > GIVEN && !this.#note ? "silent" : null;
  }

  /** @param {number} power @param {number} time @returns {null} */
  #awaits(power, time) {
    if (this.#before !== null && power > LEAST && power > RISE * this.#before) this.#since = time;
    // What was there sinks at once, and rises slowly: a pluck is sudden.
    this.#before = this.#before === null ? power : Math.min(power, this.#before * 1.1 + 1e-9);
    return null;
  }
}
