// What a pitch means for a string: how far off it is, and in which words that is said. Needs no page.

/** Cents: in tune within so much (about half of what many listeners can just tell apart); the ends of the scale. */
export const IN_TUNE = 5;
const SCALE = 50;

/** @param {number} hertz @returns {number} MIDI number, fractional (ISO 16: A4 = 440 Hz) */
export function midiOf(hertz) {
  return 69 + 12 * Math.log2(hertz / 440);
}

/**
 * @typedef {object} Reading
 * @property {number} string its place in the tuning, from 0
 * @property {number} cents above the string's note, or below it where negative
 * @property {"in-tune" | "flat" | "sharp" | "far-flat" | "far-sharp"} verdict far: beyond the scale
 * @property {number} place on the scale, from 0 (flat) over 0.5 (in tune) to 1 (sharp)
 */

/**
 * @param {number} hertz
 * @param {number[]} tuning MIDI numbers
 * @param {number | null} wanted the string that is being tuned; null: the nearest one
 * @returns {Reading}
 */
export function reading(hertz, tuning, wanted) {
  const midi = midiOf(hertz);
  const nearest = tuning.reduce((best, note, at) => (Math.abs(midi - note) < Math.abs(midi - tuning[best]) ? at : best), 0);
  const string = wanted ?? nearest;
  const cents = 100 * (midi - tuning[string]);
  return { string, cents, verdict: verdictOf(cents), place: Math.min(1, Math.max(0, 0.5 + cents / (2 * SCALE))) };
}

/** @param {number} cents @returns {Reading["verdict"]} */
function verdictOf(cents) {
  if (Math.abs(cents) <= IN_TUNE) return "in-tune";
  const far = Math.abs(cents) > SCALE;
  return cents < 0 ? (far ? "far-flat" : "flat") : far ? "far-sharp" : "sharp";
}
