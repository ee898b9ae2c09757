// Which one string of a strum is at fault: silent, or another note. It names one only where the sound leaves no doubt, and
// never says that all is well: most of a chord's overtones lie on one another, and what lies on another can't be heard.
import { partialsAmong } from "./partials.js";
import { spectrum } from "./spectrum.js";

/** @typedef {import("./partials.js").Sounding} Sounding */
/** @typedef {Sounding & {open: number}} Held open: what the string sounds where a finger misses it */
/** @typedef {{string: number, fault: "silent"} | {string: number, fault: "other", midi: number, fret: number}} Named */

/** Everything that was set by trials, in one place; dB unless said otherwise. */
export const SET = {
  /** Partials that a string must have for itself to be judged. */
  alone: 2,
  /** A string is there if its strongest own partial is no further below the strongest string's. */
  there: -18,
  /** It is missing if every own partial lies so far below. */
  missing: -28,
  /** A note that should not be there counts if two of its own partials are at least so strong. */
  intruding: -18,
  /** It is surely not there if all are weaker. */
  absent: -26,
  /** Frets by which a finger is likely to be wrong. */
  frets: [-2, -1, 1, 2],
  /** A partial's natural fall an octave up, taken off before levels are compared. */
  slope: 5,
  /** Seconds after the loudest moment where listening begins, and how long it lasts. */
  after: 0.12,
  lasts: 0.6,
};

/**
 * The strings of a chord that can't be judged, since other strings' overtones cover theirs.
 * @param {Sounding[]} chord @returns {number[]} string numbers
 */
export function covered(chord) {
  return chord.filter((one) => ownPartials(one.midi, othersOf(one, chord)).length < SET.alone).map(({ string }) => string);
}

/**
 * @param {Float32Array} sound a strum, with at most a second before it
 * @param {number} rate samples a second
 * @param {Held[]} chord what should sound, lowest string first
 * @returns {Named | null} null: can't tell
 */
export function fault(sound, rate, chord) {
  const begin = loudest(sound, rate) + Math.round(SET.after * rate);
  const length = Math.round(SET.lasts * rate);
  if (begin + length > sound.length) return null;
  const heard = spectrum(sound, begin, length, rate);
  const judged = chord.map((one) => ({ ...one, levels: levelsOf(one.midi, othersOf(one, chord), heard) })).filter(({ levels }) => levels.length >= SET.alone);
  if (judged.length < 2) return null;
  const strongest = Math.max(...judged.flatMap(({ levels }) => levels));
  const missing = judged.filter(({ levels }) => Math.max(...levels) - strongest < SET.missing);
  const there = judged.filter(({ levels }) => Math.max(...levels) - strongest > SET.there);
  if (missing.length + there.length < judged.length || missing.length > 1) return null;
  const coveredOnes = chord.filter(({ string }) => !judged.some((one) => one.string === string));
  const suspects = missing.length ? missing : coveredOnes;
  const intruders = suspects.flatMap((one) => likely(one).map((midi) => ({ one, midi, how: intrusion(midi, chord, heard, strongest) })));
  const clear = intruders.filter(({ how }) => how === "clear");
  if (clear.length === 1) {
    const [{ one, midi }] = clear;
    return { string: one.string, fault: "other", midi, fret: midi - one.open };
  }
  if (missing.length === 1 && intruders.every(({ how }) => how === "none")) return { string: missing[0].string, fault: "silent" };
  return null;
}

/** What a finger on the wrong fret, or none, would sound instead. @param {Held} one */
function likely({ midi, open }) {
  return [...new Set([...SET.frets.map((frets) => midi + frets), open])].filter((other) => other >= open && other !== midi);
}

/**
 * Whether a note that is not of the chord is heard.
 * @param {number} midi @param {Sounding[]} chord @param {ReturnType<typeof spectrum>} heard @param {number} strongest dB
 * @returns {"clear" | "none" | "doubtful"}
 */
function intrusion(midi, chord, heard, strongest) {
  const own = ownPartials(midi, chord.map((one) => one.midi)).map(({ hertz, n }) => ({ n, level: levelOf(hertz, n, heard) - strongest }));
  if (own.length < SET.alone) return "doubtful";
  const loud = own.filter(({ level }) => level > SET.intruding);
  // A note an octave higher has the even partials too.
  if (loud.length >= 2 && loud.some(({ n }) => n % 2)) return "clear";
  return own.every(({ level }) => level < SET.absent) ? "none" : "doubtful";
}

/** @param {number} midi @param {number[]} others @param {ReturnType<typeof spectrum>} heard @returns {number[]} dB */
function levelsOf(midi, others, heard) {
  return ownPartials(midi, others).map(({ hertz, n }) => levelOf(hertz, n, heard));
}

/** @param {number} hertz @param {number} n which partial it is @param {ReturnType<typeof spectrum>} heard @returns {number} dB, its natural fall taken off */
function levelOf(hertz, n, heard) {
  return 20 * Math.log10(heard.near(hertz) + 1e-9) + SET.slope * Math.log2(n);
}

/** @param {number} midi @param {number[]} others */
function ownPartials(midi, others) {
  return partialsAmong(midi, others).filter(({ alone }) => alone);
}

/** @param {Sounding} one @param {Sounding[]} chord @returns {number[]} */
function othersOf(one, chord) {
  return chord.filter((other) => other !== one).map(({ midi }) => midi);
}

/** The sample where a hundredth of a second is loudest: about when the last strings are struck. @param {Float32Array} sound @param {number} rate */
function loudest(sound, rate) {
  const step = Math.round(0.01 * rate);
  let [most, where] = [0, 0];
  for (let from = 0; from + step <= sound.length; from += step) {
    let energy = 0;
    for (let at = from; at < from + step; at += 1) energy += sound[at] * sound[at];
    if (energy > most) [most, where] = [energy, from];
  }
  return where;
}
