// What each string of a step sounds, read from what the page says of it: its shape, its tuning and its capo.

/**
 * @typedef {(number | null)[]} Strings MIDI numbers, highest-numbered string first as in the shapes; null where silent
 * @typedef {{string: number, before: number | null, after: number | null}} Change string: as guitarists count, 1 is the last
 */

/** The frets of a shape as text, `x32010` or `x-10-12-12-11-x`, with or without fingers behind a slash. @param {string} shape @returns {(number | null)[]} */
export function fretsOf(shape) {
  const [frets] = shape.split("/");
  const marks = frets.includes("-") ? frets.split("-") : [...frets];
  return marks.map((mark) => (/^\d+$/u.test(mark) ? Number(mark) : null));
}

/** @param {string} shape @param {number[]} tuning MIDI numbers of the open strings, in the same order @param {number} capo @returns {Strings} */
export function pitchesOf(shape, tuning, capo) {
  return fretsOf(shape).map((fret, at) => (fret === null || tuning[at] === undefined ? null : tuning[at] + capo + fret));
}

/** The strings that sound otherwise than before, lowest-pitched first. @param {Strings} before @param {Strings} after @returns {Change[]} */
export function changesBetween(before, after) {
  return after
    .map((pitch, at) => ({ string: after.length - at, before: before[at] ?? null, after: pitch }))
    .filter((change) => change.before !== change.after);
}

/** @param {Strings} strings @returns {number[]} those that sound */
export function sounding(strings) {
  return strings.filter((pitch) => pitch !== null);
}
