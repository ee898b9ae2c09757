// Notes by what they sound, whatever they are spelled; and the tones of a chord from its root upwards. Pure: no page.

/** Semitones above C. */
const LETTERS = new Map([["C", 0], ["D", 2], ["E", 4], ["F", 5], ["G", 7], ["A", 9], ["B", 11]]);
const SIGNS = new Map([["#", 1], ["b", -1]]);

/** @typedef {{note: string, sign: string, words: string}} Tone its note in plain English form; its interval, as a sign and in words */

/** @param {string} note in plain English form, `Eb` @returns {number} 0 to 11: D# and Eb are one; NaN where it is no note */
export function pitchClass(note) {
  const [letter, ...signs] = note;
  const semitones = signs.reduce((sum, sign) => sum + (SIGNS.get(sign) ?? NaN), LETTERS.get(letter) ?? NaN);
  return ((semitones % 12) + 12) % 12;
}

/** @param {string[]} notes @returns {string[]} each note once, in the spelling that comes first */
export function distinctNotes(notes) {
  const classes = notes.map(pitchClass);
  return notes.filter((_, at) => classes.indexOf(classes[at]) === at);
}

/** @param {string[]} one @param {string[]} other @returns {boolean} whether both sound the same notes, in whatever octaves and spelling */
export function sameNotes(one, other) {
  const [these, those] = [one, other].map((notes) => [...new Set(notes.map(pitchClass))].sort().join());
  return these === those;
}

/** @param {Tone[]} tones in any order, some of them more than once @returns {Tone[]} each once, by the number of its interval: the root first */
export function fromTheRoot(tones) {
  const numberOf = (/** @type {Tone} */ { sign }) => Number(/\d+/u.exec(sign)?.[0] ?? 1);
  return tones
    .filter((one, at) => tones.findIndex((other) => other.note === one.note && other.sign === one.sign) === at)
    .sort((one, other) => numberOf(one) - numberOf(other));
}
