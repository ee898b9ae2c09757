// What is played for a step, a change, or a whole block: strums and notes with their times.
import { changesBetween, fretsOf, pitchesOf, sounding } from "./pitches.js";
import { rhythm } from "./rhythm.js";

/**
 * @typedef {object} Sound
 * @property {number} at seconds from the beginning
 * @property {number[]} pitches lowest string first, struck in this order unless up
 * @property {boolean} up
 * @property {Element | null} step whose sound it is
 *
 * @typedef {{sounds: Sound[], length: number}} Score length in seconds
 * @typedef {{string: number, fret: number, midi: number, open: number}} Held a string that sounds: what, on which fret, and what it would open
 */

/** Seconds: a note alone, a chord, and what a last chord is given to ring. */
const NOTE = 1.1;
const CHORD = 2.2;
const RING = 3;

/** @param {HTMLElement} step @returns {import("./pitches.js").Strings} */
export function stringsOf(step) {
  const block = step.closest(".fp-block");
  const { tuning = "", capo = "0" } = block instanceof HTMLElement ? block.dataset : {};
  return step.dataset.kind === "rest" ? [] : pitchesOf(step.dataset.shape ?? "", tuning.split(" ").map(Number), Number(capo));
}

/** The strings that should sound, the highest-numbered first. @param {HTMLElement} step @returns {Held[]} */
export function heldOf(step) {
  const frets = fretsOf(step.dataset.shape ?? "");
  return stringsOf(step).flatMap((midi, at) => {
    const fret = frets[at];
    return midi === null || fret === null ? [] : [{ string: frets.length - at, fret, midi, open: midi - fret }];
  });
}

/** One strum. @param {HTMLElement} step @returns {Score} */
export function strumOf(step) {
  return inTurn([{ pitches: sounding(stringsOf(step)), step, lasts: RING }]);
}

/** One string alone. @param {number} pitch @param {HTMLElement} step @returns {Score} */
export function noteOf(pitch, step) {
  return inTurn([{ pitches: [pitch], step, lasts: RING }]);
}

/** What has changed: each note that did, before and after, alone; then the old chord and the new one. @param {HTMLElement} step @returns {Score} */
export function changeOf(step) {
  const before = stepBefore(step);
  if (!before) return { sounds: [], length: 0 };
  const [old, now] = [stringsOf(before), stringsOf(step)];
  const notes = changesBetween(old, now).flatMap((change) => [
    { pitches: sounding([change.before]), step: before, lasts: NOTE },
    { pitches: sounding([change.after]), step, lasts: NOTE },
  ]);
  const chords = [
    { pitches: sounding(old), step: before, lasts: CHORD },
    { pitches: sounding(now), step, lasts: RING },
  ];
  return notes.length ? inTurn([...notes, ...chords]) : { sounds: [], length: 0 };
}

/** A block from its first step to its last, by the author's strokes and beats. @param {HTMLElement[]} steps @param {number} tempo beats a minute @returns {Score} */
export function musicOf(steps, tempo) {
  /** @type {Sound[]} */
  const sounds = [];
  let beat = 0;
  for (const step of steps.filter((one) => one.dataset.kind !== "passing")) {
    const { beats, strokes } = rhythm(step.dataset.pattern ?? "", Number(step.dataset.beats) > 0 ? Number(step.dataset.beats) : null);
    const pitches = sounding(stringsOf(step));
    const struck = pitches.length ? strokes : [{ at: 0, up: false }];
    sounds.push(...struck.map(({ at, up }) => ({ at: ((beat + at) * 60) / tempo, pitches, up, step })));
    beat += beats;
  }
  return { sounds, length: (beat * 60) / tempo };
}

/** @param {HTMLElement} step @returns {HTMLElement | null} the step that its change comes from; none after a rest, when the whole hand is put down anew */
export function stepBefore(step) {
  const before = step.previousElementSibling;
  return before instanceof HTMLElement && before.matches(".fp-step") && before.dataset.kind !== "rest" && step.dataset.kind !== "rest" ? before : null;
}

/** @param {{pitches: number[], step: HTMLElement, lasts: number}[]} sounds a silent one takes no time @returns {Score} */
function inTurn(sounds) {
  let at = 0;
  const heard = sounds.filter(({ pitches }) => pitches.length).map(({ pitches, step, lasts }) => {
    at += lasts;
    return { at: at - lasts, pitches, up: false, step };
  });
  return { sounds: heard, length: at };
}
