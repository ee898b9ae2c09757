// The beat to be seen: a row of marks, one of them lit; no more than three changes a second, and never the whole screen.
import { litMark } from "./beats.js";

/** More beats than this are shown in parts, since so many marks could not be told apart. */
const MOST = 16;
const PART = 8;

/**
 * @param {HTMLElement} row
 * @param {import("./beats.js").Beat} beat
 * @param {number} number counted from the first
 * @param {number} tempo beats a minute
 */
export function showBeat(row, beat, number, tempo) {
  if (beat.kind === "over") return;
  const counting = beat.kind === "count";
  row.hidden = false;
  row.classList.toggle("practice-counting", counting);
  const of = beat.of > MOST ? PART : beat.of;
  const marks = marksOf(row, Math.max(2, of), counting);
  const lit = litMark(number, counting ? beat.of - beat.left : beat.within, of, tempo);
  if (lit === null) return;
  marks.forEach((mark, at) => mark.classList.toggle("practice-now", at === lit));
}

/** @param {HTMLElement} row @param {number} count @param {boolean} numbered */
function marksOf(row, count, numbered) {
  if (row.children.length !== count) row.replaceChildren(...Array.from({ length: count }, () => document.createElement("li")));
  const marks = [...row.children];
  marks.forEach((mark, at) => { mark.textContent = numbered ? String(at + 1) : ""; });
  return marks;
}
