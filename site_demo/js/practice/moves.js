// What moves in a picture, read from its marks: dashed ring, arrow, square. And the same the other way round.
import { parts } from "../parts.js";
import { numberOf } from "./picture.js";

/**
 * @typedef {{x: number, y: number}} Point in the units of the picture
 * @typedef {{from: Point | null, to: Point | null, path: Point[], arrow: string}} Move one finger's: from null: out of the
 *   air; to null: into it. path: points along its arrow, the ends included; arrow: the arrow's own line, "" for none
 */

/** Points taken of an arrow. */
const SAMPLES = 24;

/** @param {SVGSVGElement} svg @returns {Move[]} */
export function movesIn(svg) {
  const rings = middles(svg, ":is(.fp-was, .fp-freed)");
  const squares = middles(svg, ".fp-arrives, .fp-edge:not(:has(+ .fp-arrives))");
  const travelled = parts(svg, ".fp-travel", SVGPathElement).map((line) => travel(line, rings, squares));
  const free = (/** @type {Point} */ point) => !travelled.some((move) => move.from === point || move.to === point);
  // A square within a wide ring has taken another finger's place: the ring is no finger's way out.
  const left = rings.filter(free).filter((ring) => !squares.some((square) => near(ring, square, 8)));
  return [
    ...travelled,
    ...squares.filter(free).map((to) => ({ from: null, to, path: [], arrow: "" })),
    ...left.map((from) => ({ from, to: null, path: [], arrow: "" })),
  ];
}

/** @param {SVGPathElement} line @param {Point[]} rings @param {Point[]} squares @returns {Move} */
function travel(line, rings, squares) {
  const length = line.getTotalLength();
  const along = Array.from({ length: SAMPLES + 1 }, (_, at) => line.getPointAtLength((length * at) / SAMPLES)).map(({ x, y }) => ({ x, y }));
  const from = nearest(along[0], rings);
  const to = nearest(along[SAMPLES], squares);
  return { from, to, path: [...(from ? [from] : []), ...along, ...(to ? [to] : [])], arrow: line.getAttribute("d") ?? "" };
}

/**
 * The same moves undone.
 * @param {Move[]} moves
 * @returns {Move[]}
 */
export function undone(moves) {
  return moves.map(({ from, to, path, arrow }) => ({ from: to, to: from, path: path.toReversed(), arrow }));
}

/**
 * The point that is nearest, the very same object; null where there is none.
 * @param {Point} point @param {Point[]} points @returns {Point | null}
 */
function nearest(point, points) {
  return points.reduce((/** @type {Point | null} */ best, one) => (!best || distance(point, one) < distance(point, best) ? one : best), null);
}

/** @param {Point} one @param {Point} other @param {number} within */
export function near(one, other, within) {
  return distance(one, other) <= within;
}

/** @param {Point} one @param {Point} other */
export function distance(one, other) {
  return Math.hypot(one.x - other.x, one.y - other.y);
}

/** @param {SVGSVGElement} svg @param {string} selector @returns {Point[]} */
function middles(svg, selector) {
  return parts(svg, selector, SVGElement).map(middle);
}

/** The middle of a circle or a box, by what it says of itself. @param {Element} mark @returns {Point} */
export function middle(mark) {
  if (mark.tagName === "circle") return { x: numberOf(mark, "cx"), y: numberOf(mark, "cy") };
  return { x: numberOf(mark, "x") + numberOf(mark, "width") / 2, y: numberOf(mark, "y") + numberOf(mark, "height") / 2 };
}
