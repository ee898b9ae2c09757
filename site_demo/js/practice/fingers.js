// Which fingers a shape uses and where, read from its text: `x32010/-32-1-`, `xx0231/---231/1=2:1-1:1`. Pure.
import { fretsOf } from "../sound/pitches.js";

/** @typedef {[number, number]} Strings the highest-numbered and the lowest that a finger lies over */

/** @param {string} shape @returns {Set<string>} 1 to 4, and T for the thumb */
function fingersOf(shape) {
  return new Set((shape.split("/")[1] ?? "").match(/[1-4T]/gu) ?? []);
}

/**
 * The fingers that are down before and up after.
 * @param {string} before
 * @param {string} after
 * @returns {string[]}
 */
export function fingersLifted(before, after) {
  const now = fingersOf(after);
  return [...fingersOf(before)].filter((finger) => !now.has(finger));
}

/**
 * The fingers that press more or fewer strings than before, and stay on their fret and on one of their strings.
 * @param {string} before
 * @param {string} after
 * @returns {{finger: string, was: Strings, now: Strings}[]}
 */
export function fingersStretched(before, after) {
  const [old, held] = [pressesOf(before), pressesOf(after)];
  return [...held].flatMap(([finger, { fret, strings: now }]) => {
    const from = old.get(finger);
    if (!from || from.fret !== fret || from.strings[0] < now[1] || from.strings[1] > now[0]) return [];
    return String(from.strings) === String(now) ? [] : [{ finger, was: from.strings, now }];
  });
}

/** @param {string} shape @returns {Map<string, {fret: number, strings: Strings}>} by finger */
function pressesOf(shape) {
  const [, fingers = "", hidden = ""] = shape.split("/");
  const frets = fretsOf(shape);
  /** @type {Map<string, {fret: number, strings: Strings}>} */
  const presses = new Map();
  [...fingers].forEach((finger, at) => {
    const [fret, string] = [frets[at], frets.length - at];
    if (!/[1-4T]/u.test(finger) || !fret) return;
    presses.set(finger, { fret, strings: [presses.get(finger)?.strings[0] ?? string, string] });
  });
  // What lies behind another finger is written apart, with all of its strings.
  for (const [, finger, high, fret, low = high] of hidden.matchAll(/([1-4T])=(\d+):(\d+)(?:-(\d+):\d+)?/gu)) {
    presses.set(finger, { fret: Number(fret), strings: [Number(high), Number(low)] });
  }
  return presses;
}
