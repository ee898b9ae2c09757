// What the steps of a page tell of themselves to the questions: names, notes and their intervals, and which of them are new.
import { part, parts } from "../parts.js";

/** @typedef {import("./tones.js").Tone} Tone */

/** @param {ParentNode} page @returns {import("./questions.js").Known[]} */
export function knownSteps(page) {
  return parts(page, ".fp-block", HTMLElement).flatMap((block) => {
    const steps = parts(block, ".fp-step", HTMLElement).map(knownStep);
    return steps.map((step, at) => ({ ...step, before: steps[at - 1]?.name ?? "", notesBefore: steps[at - 1]?.notes ?? [] }));
  });
}

/** @param {HTMLElement} step */
function knownStep(step) {
  const sounding = soundingOf(step);
  return {
    id: step.id,
    kind: step.dataset.kind ?? "",
    name: part(step, ".fp-arm .fp-chord", HTMLElement)?.dataset.name ?? "",
    notes: sounding.map(({ note }) => note),
    newNotes: sounding.filter(({ isNew }) => isNew).map(({ note }) => note),
  };
}

/** What each string that sounds is in its chord, as the step's own table has it. @param {HTMLElement} step @returns {(Tone & {isNew: boolean})[]} lowest string first */
export function soundingOf(step) {
  const table = part(step, ".fp-strings", HTMLTableElement);
  return (table ? stringsOf(table) : []).flatMap((cells) => {
    // With a capo what it sounds comes further on; the chord is called as the shape, and so are its notes here.
    const at = cells.findIndex((cell) => part(cell, "[data-name]", HTMLElement));
    const [cell, interval] = [cells[at], cells[at + 1]];
    if (!cell || !interval) return [];
    const sign = (interval.textContent ?? "").trim();
    const words = part(interval, "[aria-label]", HTMLElement)?.getAttribute("aria-label") ?? sign;
    const note = part(cell, "[data-name]", HTMLElement)?.dataset.name ?? "";
    return [{ note, sign, words, isNew: cell.matches(".fp-new") }];
  });
}

/** The cells of each string, lowest string first: a column of the table, or a row where the neck lies. @param {HTMLTableElement} table */
function stringsOf(table) {
  const rows = [...table.tBodies[0].rows].map((row) => parts(row, "td", HTMLTableCellElement));
  if (table.matches(".fp-strings-down")) return rows.reverse();
  return (rows[0] ?? []).map((_, at) => rows.map((row) => row[at]));
}
