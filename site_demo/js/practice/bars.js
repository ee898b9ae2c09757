// A finger that lies down into a bar, or rolls up out of one, stays where it is: its mark grows or shrinks along the fret.
import { parts } from "../parts.js";
import { made, numberOf, put } from "./picture.js";

/**
 * @typedef {import("./movement.js").Mover} Mover
 * @typedef {import("./fingers.js").Strings} Strings
 * @typedef {{axis: "x" | "y", from: number, to: number}} Span from string to string, in units of the picture
 */

/** Half of a mark's thickness. */
const HALF = 21;

/** @param {SVGSVGElement} svg @param {Strings} strings @returns {Span} */
export function spanOf(svg, [high, low]) {
  const lines = parts(svg, ".fp-string", SVGElement);
  const [one, other] = [high, low].map((string) => endsOf(lines[lines.length - string]));
  const axis = one.x === one.toX ? "x" : "y";
  return { axis, from: Math.min(one[axis], other[axis]), to: Math.max(one[axis], other[axis]) };
}

/** A line, or the first of several where the neck is shown with a gap. @param {Element} line */
function endsOf(line) {
  const path = line.getAttribute("d")?.match(/-?[\d.]+/gu)?.map(Number);
  const [x, y, toX] = path ?? ["x1", "y1", "x2"].map((name) => numberOf(line, name));
  return { x, y, toX };
}

/**
 * A mark that grows or shrinks from one span to where it stands now.
 * @param {SVGGElement} mark boxes and a numeral @param {Span} was @param {Span} now @returns {Mover[]}
 */
export function stretching(mark, was, now) {
  const boxes = parts(mark, "rect", SVGRectElement).map((box) => ({ mark: box, frames: [boxOver(was, box), boxOver(now, box)] }));
  const numerals = parts(mark, "text", SVGTextElement).map((text) => ({ mark: inGroup(text), frames: travelling(was, now) }));
  return [...boxes, ...numerals];
}

/** @param {Span} span @param {SVGRectElement} box whose thickness it keeps @returns {Keyframe} */
function boxOver({ axis, from, to }, box) {
  const half = Math.min(numberOf(box, "width"), numberOf(box, "height")) / 2;
  return { [axis]: `${from - half}px`, [axis === "x" ? "width" : "height"]: `${to - from + 2 * half}px` };
}

/** @param {Span} was @param {Span} now @returns {Keyframe[]} */
function travelling(was, now) {
  const far = (was.from + was.to - now.from - now.to) / 2;
  return [{ transform: `translate${now.axis.toUpperCase()}(${far}px)` }, { transform: "none" }];
}

/** A text has a turn of its own where the neck is turned. @param {SVGTextElement} text */
function inGroup(text) {
  const group = made("g", "fp-numeral");
  text.before(group);
  group.append(text);
  return group;
}

/**
 * What is to shrink to a mark that is drawn as one that stays: over it, and to be seen only while it does.
 * @param {SVGElement} body of the mark that stays @param {Span} now
 */
export function overlay(body, { axis, from, to }) {
  const across = body.tagName === "circle" ? numberOf(body, axis === "x" ? "cy" : "cx")
    : axis === "x" ? numberOf(body, "y") + HALF : numberOf(body, "x") + HALF;
  const [along, thick] = [{ at: from - HALF, size: to - from + 2 * HALF }, { at: across - HALF, size: 2 * HALF }];
  const [x, y] = axis === "x" ? [along, thick] : [thick, along];
  const group = made("g", "fp-mover fp-leaving");
  const numeral = body.nextElementSibling?.matches(".fp-num") ? [body.nextElementSibling.cloneNode(true)] : [];
  group.append(put(made("rect", "fp-stays"), { x: x.at, y: y.at, width: x.size, height: y.size, rx: HALF }), ...numeral);
  return group;
}
