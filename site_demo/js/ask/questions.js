// Questions about a lesson, made from its own steps: which note is new, and what a chord is called. Pure: no page.
import { distinctNotes, pitchClass, sameNotes } from "./tones.js";

/**
 * @typedef {object} Known what a step tells of itself
 * @property {string} id
 * @property {string} kind start, move, hold, rest, back or passing
 * @property {string} name its chord in plain English form, "" where it has none
 * @property {string} before the name of the step before, "" where there is none
 * @property {string[]} notes what sounds, lowest string first, in plain English form
 * @property {string[]} newNotes those of them that the move brought
 * @property {string[]} notesBefore what sounded before
 *
 * @typedef {"note" | "name"} Kind
 * @typedef {object} Question
 * @property {Kind} kind
 * @property {string} step id of the step that is asked about
 * @property {string} from name of the chord before
 * @property {string} to name of the chord, which the kind "name" asks for
 * @property {string[]} options in plain English form
 * @property {string} right one of them
 */

/** Questions in one round: a few minutes between two sips of tea, not an examination. */
export const A_ROUND = 6;
const MOST_OPTIONS = 4;

/**
 * A round of questions, kinds in turn, no step asked twice while others are left.
 * @param {Known[]} steps of a lesson
 * @param {() => number} chance from 0 up to, not including, 1
 * @returns {Question[]}
 */
export function round(steps, chance) {
  const kinds = [steps.flatMap((step) => aboutNewNote(step)), steps.flatMap((step) => aboutName(step, steps, chance))]
    .map((questions) => shuffled(questions, chance));
  /** @type {Question[]} */
  const out = [];
  for (let turn = 0; out.length < A_ROUND && kinds.some((left) => left.length); turn += 1) {
    const left = kinds[turn % kinds.length];
    const fresh = left.findIndex((one) => !out.some((asked) => asked.step === one.step));
    const next = left.splice(Math.max(fresh, 0), 1)[0];
    if (next) out.push(next);
  }
  return out;
}

/** Asked only where just one note came that did not sound before: then there is one right answer.
 * @param {Known} step @returns {Question[]} */
function aboutNewNote({ id, kind, name, before, notes, newNotes, notesBefore }) {
  const options = distinctNotes(notes);
  const [right] = newNotes;
  const heard = (/** @type {string} */ note) => pitchClass(note) === pitchClass(right);
  const fair = kind === "move" && newNotes.length === 1 && !notesBefore.some(heard) && options.includes(right) && options.length > 2;
  return fair && name && before ? [{ kind: "note", step: id, from: before, to: name, options, right }] : [];
}

/**
 * @param {Known} step @param {Known[]} steps @param {() => number} chance
 * @returns {Question[]}
 */
function aboutName(step, steps, chance) {
  const { id, kind, name, before } = step;
  if (!name || ["rest", "passing", "hold", "back"].includes(kind)) return [];
  // What a chord of the same notes is called would be right too, however they are spelled, so it is no option.
  const right = new Set(steps.filter((one) => sameNotes(one.notes, step.notes)).map((one) => one.name));
  const others = distinct(steps.map((one) => one.name)).filter((other) => other && !right.has(other));
  const wrong = shuffled(others, chance).slice(0, MOST_OPTIONS - 1);
  if (wrong.length < 2) return [];
  return [{ kind: "name", step: id, from: before, to: name, options: shuffled([name, ...wrong], chance), right: name }];
}

/** @template T @param {T[]} list @returns {T[]} */
function distinct(list) {
  return [...new Set(list)];
}

/** Fisher and Yates. @template T @param {T[]} list @param {() => number} chance @returns {T[]} */
function shuffled(list, chance) {
  const out = [...list];
  for (let at = out.length - 1; at > 0; at -= 1) {
    const other = Math.floor(chance() * (at + 1));
    [out[at], out[other]] = [out[other], out[at]];
  }
  return out;
}
