// Beats: when each comes, what it means for the step, and which of them may be shown as a change of light. Pure.

/** No more changes of light than this a second (WCAG 2.2, 2.3.1). */
const MOST_A_SECOND = 3;

/** Milliseconds from the first beat to the given one. @param {number} beat from 0 @param {number} tempo beats a minute */
export function beatTime(beat, tempo) {
  return (beat * 60000) / tempo;
}

/** Every how many beats one is shown. @param {number} tempo beats a minute @returns {number} */
export function stride(tempo) {
  return Math.ceil(tempo / 60 / MOST_A_SECOND);
}

/**
 * What is shown on a beat.
 * @param {number} beat from 0, counted from the first
 * @param {number} within which beat of the bar that is shown, from 0
 * @param {number} marks how many marks there are; a bar of one beat needs two to be seen
 * @param {number} tempo
 * @returns {number | null} the mark that is lit; null: nothing changes
 */
export function litMark(beat, within, marks, tempo) {
  if (beat % stride(tempo) !== 0) return null;
  return marks < 2 ? beat % 2 : within % marks;
}

/**
 * @typedef {{kind: "count", left: number, of: number}
 *   | {kind: "step", within: number, of: number}
 *   | {kind: "over"}} Beat a beat of the count-in, of a step, or the one that ends it
 */

/**
 * What a beat means, from the first of the count-in on.
 * @param {number} beat from 0
 * @param {number} countIn
 * @param {number} beats how many the step has
 * @returns {Beat}
 */
export function meaning(beat, countIn, beats) {
  if (beat < countIn) return { kind: "count", left: countIn - beat, of: countIn };
  const within = beat - countIn;
  return within < beats ? { kind: "step", within, of: beats } : { kind: "over" };
}
