// Where the overtones of a chord's strings lie, and which of them a string has for itself. Pure: no sound, no page.
//
// A stiff string's n-th partial lies at n f sqrt(1 + B n^2) (Fletcher 1964). B differs from guitar to guitar, so a partial
// is looked for in a band, and two strings share one where their bands come too near to be told apart.
import { frequency } from "../sound/string.js";

/** @typedef {{string: number, midi: number}} Sounding a string and what it should sound: a MIDI number */
/** @typedef {{hertz: number, n: number, alone: boolean}} Partial alone: no other string has one so near */

/** Inharmonicity of a middling steel string; wound and thick plain ones have more (from memory). */
const STIFFNESS = 6e-5;
/** Partials that are looked at; above, they are weak and near one another. */
export const LOOKED_AT = 6;
/** Partials of other strings that can cover one. */
const COVERING = 16;
/** Two partials nearer than so many Hz, or cents, can't be told apart in half a second. */
const NEAR_HERTZ = 9;
const NEAR_CENTS = 40;
/** A telephone's microphone hears little below, and other noises are above. */
const LOWEST = 95;
const HIGHEST = 2600;

/** @param {number} midi @param {number} n from 1 @returns {number} Hz */
export function partial(midi, n) {
  return n * frequency(midi) * Math.sqrt((1 + STIFFNESS * n * n) / (1 + STIFFNESS));
}

/**
 * The partials of a note among others.
 * @param {number} midi
 * @param {number[]} others MIDI numbers of everything else that may sound
 * @returns {Partial[]}
 */
export function partialsAmong(midi, others) {
  const covering = others.flatMap((other) => range(COVERING).map((n) => partial(other, n)));
  return range(LOOKED_AT)
    .map((n) => ({ n, hertz: partial(midi, n) }))
    .filter(({ hertz }) => hertz >= LOWEST && hertz <= HIGHEST)
    .map(({ n, hertz }) => ({ n, hertz, alone: !covering.some((other) => isNear(hertz, other)) }));
}

/** @param {number} hertz @param {number} other */
function isNear(hertz, other) {
  return Math.abs(hertz - other) < Math.max(NEAR_HERTZ, hertz * (2 ** (NEAR_CENTS / 1200) - 1));
}

/** From 1 to last. @param {number} last @returns {number[]} */
function range(last) {
  return Array.from({ length: last }, (_, at) => at + 1);
}
