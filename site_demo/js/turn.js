// The player's view: gives every picture the view box of its quarter turn, and lays its table so that a row continues each
// string. How far the neck turns is said by css/block.css; this module only does what a style sheet cannot.

import { part, parts } from "./parts.js";
import { isDrawn } from "./waiting.js";

const root = document.documentElement;
const AT_ONCE = 6;

/** Turns the pictures as the reader's choice says, now and whenever it changes. */
export function bindTurn() {
  const frames = parts(document, ".fp-frame[data-turned]", SVGSVGElement);
  if (!frames.length) return;
  const turns = frames.map((frame) => ({ frame, turn: turnable(frame) }));
  let shown = root.dataset.view;
  root.addEventListener("viewchange", () => {
    if (root.dataset.view === shown) return;
    shown = root.dataset.view;
    const [near, far] = [true, false].map((drawn) => turns.filter(({ frame }) => isDrawn(frame) === drawn));
    near.forEach(({ turn }) => turn(root.dataset.view));
    // The tap is answered first; then come the pictures that nobody sees yet.
    if (far.length) setTimeout(() => turnLater(far));
  });
  const all = () => turns.forEach(({ turn }) => turn(root.dataset.view));
  // Who is about to show a picture elsewhere can't wait for it.
  root.addEventListener("picturesneeded", all);
  all();
}

/** A few at a time, so that another tap need not wait for all. @param {{turn: (view: string | undefined) => void}[]} turns */
function turnLater(turns) {
  turns.slice(0, AT_ONCE).forEach(({ turn }) => turn(root.dataset.view));
  if (turns.length > AT_ONCE) setTimeout(() => turnLater(turns.slice(AT_ONCE)));
}

/**
 * @param {SVGSVGElement} frame
 * @returns {(view: string | undefined) => void} turns this picture and its table to a view; undefined: as it was built
 */
function turnable(frame) {
  const built = frame.getAttribute("viewBox") ?? "";
  const figure = frame.closest(".fp-figure");
  const table = figure && part(figure, ".fp-strings", HTMLTableElement);
  const cells = table ? [...table.rows].map((row) => [...row.cells]) : [];
  return (view = frame.dataset.view) => {
    const asBuilt = view === frame.dataset.view;
    const box = asBuilt ? built : frame.dataset.turned ?? built;
    // Written even where it says the same, it would have every picture of the lesson laid out anew.
    if (frame.getAttribute("viewBox") !== box) frame.setAttribute("viewBox", box);
    const lying = view === "player";
    if (!table || lying === table.classList.contains("fp-strings-down")) return;
    table.classList.toggle("fp-strings-down", lying);
    lay(table, asBuilt ? cells : lying ? lyingDown(cells) : standing(cells));
  };
}

/** A row a string, the lowest string lowest, as the neck lies. @param {HTMLTableCellElement[][]} cells */
function lyingDown(cells) {
  const [heads, ...strings] = crossed(cells);
  return [heads, ...strings.reverse()];
}

/** A column a string, the lowest string first. @param {HTMLTableCellElement[][]} cells */
function standing([heads, ...strings]) {
  return crossed([heads, ...strings.reverse()]);
}

/** @param {HTMLTableCellElement[][]} cells @returns {HTMLTableCellElement[][]} */
function crossed(cells) {
  return cells[0].map((_, column) => cells.map((row) => row[column]));
}

/**
 * Puts the cells in the table, row by row. The heads of rows and of columns have changed places.
 * @param {HTMLTableElement} table @param {HTMLTableCellElement[][]} cells
 */
function lay(table, cells) {
  const [first, ...rest] = cells.map((row, at) => {
    const element = document.createElement("tr");
    element.append(...row);
    row.filter((cell) => cell.tagName === "TH").forEach((cell) => { cell.scope = at === 0 ? "col" : "row"; });
    return element;
  });
  table.tHead?.replaceChildren(first);
  table.tBodies[0].replaceChildren(...rest);
}
