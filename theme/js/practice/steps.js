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
 * @property {string} name what its arm says; aloud: the same in words
 * @property {string} aloud
 * @property {Way} way how it is reached
 * @property {Way | null} wayBack how the step before it is reached from here
 * @property {number | null} beats the author's own
 * @property {number[]} pitches MIDI numbers that are heard, highest-numbered string first
 * @property {HTMLElement} element
 *
 * @typedef {{short: string, stays: string, move: string}} Way the short form, what stays, what moves
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
  const name = textOf(label);
  return {
    id: data.step ?? element.id,
    block: block.id,
    title: textOf(part(block, ".fp-title", HTMLElement) ?? document.querySelector("h1")),
    ordinal,
    kind: data.kind ?? "move",
    shape: data.shape ?? "",
    name,
    aloud: label?.getAttribute("aria-label") ?? name,
    way: { short: data.short ?? "", stays: said(element, ".fp-stays"), move: said(element, ".fp-move") },
    wayBack: data.backMove === undefined ? null : { short: data.backShort ?? "", stays: data.backStays ?? "", move: data.backMove },
    beats: Number(data.beats) > 0 ? Number(data.beats) : null,
    pitches: (data.pitches ?? "").split(" ").filter(Boolean).map(Number),
    element,
  };
}

/** @param {HTMLElement} step @param {string} line */
function said(step, line) {
  return textOf(part(step, `.fp-words > ${line} > span`, HTMLElement));
}

/** @param {Element | null} element */
function textOf(element) {
  return element?.textContent?.trim() ?? "";
}
