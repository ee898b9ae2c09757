// Keeps time: calls each beat when it is due, never drifting; a step's beats over, it asks where to go on.
import { beatTime, meaning } from "./beats.js";

/**
 * @typedef {object} Score
 * @property {number} tempo beats a minute
 * @property {number} countIn
 * @property {() => number} beats how many beats the step that is shown has
 * @property {(beat: import("./beats.js").Beat, number: number, due: number) => void} play shows a beat; number: counted
 *   from the first; due: when it was or is due, on the clock of performance.now()
 * @property {() => boolean} goOn shows the next step; false where there is none, and time stops
 */

/** A browser that slept through a beat takes the time from there. */
const LATE = 400;

/**
 * @param {Score} score
 * @returns {() => void} stops it
 */
export function keepTime(score) {
  let timer = 0;
  let start = performance.now();
  let number = 0;
  let stepBegan = 0;
  const stop = () => window.clearTimeout(timer);
  const beat = () => {
    const due = start + beatTime(number, score.tempo);
    if (performance.now() - due > LATE) start += performance.now() - due;
    let now = meaning(number - stepBegan, stepBegan === 0 ? score.countIn : 0, score.beats());
    if (now.kind === "over") {
      stepBegan = number;
      if (!score.goOn()) return;
      now = meaning(0, 0, score.beats());
    }
    score.play(now, number, due);
    number += 1;
    timer = window.setTimeout(beat, Math.max(0, start + beatTime(number, score.tempo) - performance.now()));
  };
  beat();
  return stop;
}
