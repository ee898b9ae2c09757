// Clean tries, kept for each change: noted and told.
import { changeOf, keyOf, untried } from "./record.js";
import { afterTry } from "./schedule.js";
import { keepRecords, records } from "./shelf.js";

/**
 * @typedef {import("./record.js").Change} Change
 * @typedef {import("./record.js").Kept} Kept
 */

/**
 * Notes one try.
 * @param {Change} change
 * @param {boolean} clean
 * @param {number} now milliseconds since 1970
 */
export function noteTry(change, clean, now) {
  renew(change, (kept) => afterTry(kept, clean, now));
}

/**
 * Notes that a change was ticked as done, or that the tick was taken back.
 * @param {Change} change
 * @param {boolean} done
 * @param {number} now milliseconds since 1970
 */
export function noteDone(change, done, now) {
  renew(change, (kept) => ({ ...kept, done, last: done ? now : kept.last }));
}

/** @param {Change} change @returns {{clean: number, tries: number}} all tries of it on this device */
export function tally(change) {
  const { clean, tries } = recordOf(change) ?? untried(change);
  return { clean, tries };
}

/** @param {Change} change @returns {Kept | undefined} */
export function recordOf(change) {
  return records().find((kept) => keyOf(kept) === keyOf(change));
}

/** @param {Change} change @param {(kept: Kept) => Kept} make */
function renew(change, make) {
  const all = records();
  const at = all.findIndex((kept) => keyOf(kept) === keyOf(change));
  // Words and place are taken anew each time: a lesson may have been renamed, or a step moved, since.
  const made = { ...make(at < 0 ? untried(change) : all[at]), ...changeOf(change) };
  keepRecords(at < 0 ? [...all, made] : all.with(at, made));
  document.documentElement.dispatchEvent(new CustomEvent("trieschange"));
}
