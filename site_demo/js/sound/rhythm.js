// When the strumming hand strikes: the author's pattern laid over a step's beats.
//
// A group of strokes (`d`, `du`, `-udu`) begins on a beat. Strokes written together are half a beat apart (common
// practice: down on the beat, up between); one that stands alone has the whole beat. The pattern is repeated until the
// beats are over.

/** Without the author's beats a step lasts as long as its pattern, or so many beats. */
const BEATS = 4;

/** @typedef {{at: number, up: boolean}} Stroke at: in beats from the step's first */

/**
 * @param {string} pattern groups of d, u and -, blanks between; "" for one stroke down
 * @param {number | null} beats
 * @returns {{beats: number, strokes: Stroke[]}}
 */
export function rhythm(pattern, beats) {
  const { strokes, length } = once(pattern);
  const all = beats ?? (length || BEATS);
  if (!length) return { beats: all, strokes: [{ at: 0, up: false }] };
  const rounds = Array.from({ length: Math.ceil(all / length) }, (_, round) =>
    strokes.map((stroke) => ({ ...stroke, at: stroke.at + round * length })));
  return { beats: all, strokes: rounds.flat().filter((stroke) => stroke.at < all) };
}

/** @param {string} pattern @returns {{strokes: Stroke[], length: number}} length in whole beats */
function once(pattern) {
  /** @type {Stroke[]} */
  const strokes = [];
  let length = 0;
  for (const group of pattern.split(" ").filter(Boolean)) {
    [...group].forEach((mark, place) => { if (mark !== "-") strokes.push({ at: length + place / 2, up: mark === "u" }); });
    length += Math.ceil(group.length / 2);
  }
  return { strokes, length };
}
