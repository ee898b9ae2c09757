// The steps of a lesson as its page tells them, in the order of the page. Nothing here is kept or changed.
import { part, parts } from "../parts.js";

/**
 * @typedef {object} Step
 * @property {string} id
 * @property {string} block id of its block
 * @property {string} title of its block, or of the page
 * @property {number} ordinal which step of its block, from 0
 * @property {string} kind start, move, hold, rest, back or passing
 * @property {string} shape the shape as text, with its fingers
 * @property {string} name what its arm says now: the reader may choose other names for notes
 * @property {string} written what its arm says as the course was built
 * @property {string} named which name that is (data-name), however it is written; "" where it is none
 * @property {string} aloud the same in words
 * @property {Way} way how it is reached
 * @property {Way | null} wayBack how the step before it is reached from here
 * @property {number | null} beats the author's own
 * @property {number[]} pitches MIDI numbers that are heard, highest-numbered string first
 * @property {string} pattern the author's strokes, "" for none
 * @property {HTMLElement} element
 *
 * @typedef {HTMLElement | string} Said words as an element of the lesson has them, or a script's own
 * @typedef {{short: Said, stays: Said, move: Said}} Way the short form, what stays, what moves
 */

/** @param {ParentNode} page @returns {Step[]} */
export function readSteps(page) {
  return parts(page, ".fp-block", HTMLElement).flatMap((block) =>
    parts(block, ".fp-step", HTMLElement).map((element, ordinal) => readStep(element, block, ordinal)));
}

/** @param {HTMLElement} element @param {HTMLElement} block @param {number} ordinal @returns {Step} */
function readStep(element, block, ordinal) {
  const data = element.dataset;
  const label = part(element, ".fp-arm .fp-chord", HTMLElement);
  const said = (/** @type {string} */ line) => part(element, line, HTMLElement) ?? "";
  const kept = (/** @type {string} */ role) => said(`.fp-for-practice > .fp-${role}`);
  return {
    id: data.step ?? element.id,
    block: block.id,
    title: textOf(part(block, ".fp-title", HTMLElement) ?? document.querySelector("h1")),
    ordinal,
    kind: data.kind ?? "move",
    shape: data.shape ?? "",
    get name() { return textOf(label); },
    get written() { return label?.dataset.built ?? textOf(label); },
    named: label?.dataset.name ?? "",
    get aloud() { return label?.getAttribute("aria-label") ?? textOf(label); },
    way: { short: kept("short"), stays: said(".fp-words > .fp-stays > span"), move: said(".fp-words > .fp-move > span") },
    wayBack: kept("back-move") ? { short: kept("back-short"), stays: kept("back-stays"), move: kept("back-move") } : null,
    beats: Number(data.beats) > 0 ? Number(data.beats) : null,
    pitches: (data.pitches ?? "").split(" ").filter(Boolean).map(Number),
    pattern: data.pattern ?? "",
    element,
  };
}

/** Words as plain text. @param {Said} words */
export function plainText(words) {
  return typeof words === "string" ? words : textOf(words);
}

/** Puts words in a place, names of notes still marked as such. @param {HTMLElement} place @param {Said} words */
export function put(place, words) {
  place.replaceChildren(...(typeof words === "string" ? [words] : words.cloneNode(true).childNodes));
}

/** @param {Element | null} element */
function textOf(element) {
  return element?.textContent?.trim() ?? "";
}
