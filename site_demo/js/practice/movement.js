// Shows a move as a movement: one animation for each finger that moves, along its arrow's own path. What stays is not touched.
import { part, parts } from "../parts.js";
import { overlay, spanOf, stretching } from "./bars.js";
import { fingersLifted, fingersStretched } from "./fingers.js";
import { middle, near } from "./moves.js";
import { made, numberOf, put } from "./picture.js";

/** @typedef {import("./moves.js").Move} Move @typedef {import("./moves.js").Point} Point */

/** How far from the middle of a mark a move may end, in units of the picture. */
const CLOSE = 10;

/** A finger that comes down or goes up is so many units larger each way while it is in the air. */
const IN_THE_AIR = 5;

/** @typedef {{mark: SVGElement, frames: Keyframe[]}} Mover a finger's mark or a part of it, and how it moves */

/**
 * The marks of the fingers that come or leave, each in a group of its own above what else lies there, where it ends.
 * @param {SVGSVGElement} svg @param {Move[]} moves @param {import("./scene.js").Scene} scene
 * @returns {Mover[]}
 */
export function moversOf(svg, moves, { before, step }) {
  const lifted = fingersLifted(before?.shape ?? "", step.shape);
  const stretched = stretchedIn(svg, before?.shape ?? "", step.shape);
  const theirs = stretched.flatMap(({ points }) => points);
  const other = moves.filter(({ from, to }) => !theirs.some((point) => [from, to].some((end) => end && near(point, end, CLOSE))));
  return [...stretched.flatMap(({ movers }) => movers), ...other.flatMap(({ from, to, path }) => {
    const mark = to ? onTop(markAt(svg, to)) : from && lifted.length ? leaving(svg, from, lifted) : null;
    return mark ? [{ mark, frames: from && to ? travelling(path, to) : inTheAir(mark, to !== null) }] : [];
  })];
}

/** Sets fingers moving. @param {Mover[]} movers @param {number} duration milliseconds @returns {Animation[]} */
export function animate(movers, duration) {
  return movers.map(({ mark, frames }) => mark.animate(frames, { duration, easing: "ease-in-out", fill: "both" }));
}

/** @param {Point[]} path @param {Point} end where the mark stands in the picture @returns {Keyframe[]} */
function travelling(path, end) {
  const steps = path.map((point, at) => (at === 0 ? 0 : Math.hypot(point.x - path[at - 1].x, point.y - path[at - 1].y)));
  const whole = steps.reduce((sum, step) => sum + step, 0) || 1;
  let gone = 0;
  return path.map(({ x, y }, at) => {
    gone += steps[at];
    return { offset: Math.min(1, gone / whole), transform: `translate(${x - end.x}px, ${y - end.y}px)` };
  });
}

/** @param {SVGGElement} mark @param {boolean} lands else it is lifted @returns {Keyframe[]} */
function inTheAir(mark, lands) {
  const body = mark.firstElementChild;
  const long = body ? Math.max(numberOf(body, "width"), numberOf(body, "height"), 2 * numberOf(body, "r")) : 0;
  const air = { opacity: 0, transform: `scale(${1 + (2 * IN_THE_AIR) / (long || 42)})` };
  const down = { opacity: 1, transform: "scale(1)" };
  return lands ? [air, down] : [down, air];
}

/**
 * What fingers do that lie down into a bar or roll up out of one: no move of theirs is out of the air, or into it.
 * @param {SVGSVGElement} svg @param {string} before @param {string} after
 * @returns {{movers: Mover[], points: Point[]}[]} points: the middles of the mark, as it was and as it is
 */
function stretchedIn(svg, before, after) {
  return fingersStretched(before, after).flatMap((stretch) => {
    const body = bodyOf(svg, stretch.finger);
    if (!body) return [];
    const [was, now] = [spanOf(svg, stretch.was), spanOf(svg, stretch.now)];
    const end = middle(body);
    const begin = { ...end, [was.axis]: (was.from + was.to) / 2 };
    const drawn = body.matches(".fp-edge") ? onTop(markAt(svg, end)) : null;
    const mark = drawn ?? overlay(body, now);
    if (!drawn) part(svg, ".fp-neck", SVGGElement)?.append(mark);
    const seen = drawn ? [] : [{ mark, frames: [{ opacity: 1 }, { opacity: 1 }] }];
    return [{ movers: [...seen, ...stretching(mark, was, now)], points: [begin, end] }];
  });
}

/** The body of a finger's mark, where it is no small one behind another. @param {SVGSVGElement} svg @param {string} finger */
function bodyOf(svg, finger) {
  const numeral = parts(svg, ":is(.fp-num, .fp-num-new)", SVGTextElement).find((text) => text.textContent === finger);
  const mark = numeral?.previousElementSibling;
  const body = mark?.matches(".fp-arrives") ? mark.previousElementSibling : mark;
  return body instanceof SVGElement && body.matches(".fp-edge, .fp-stays") ? body : null;
}

/**
 * The finger's mark that stands on a point, its parts in one group.
 * @param {SVGSVGElement} svg @param {Point} point @returns {SVGGElement | null}
 */
export function markAt(svg, point) {
  const bodies = parts(svg, ":is(.fp-edge, .fp-stays, .fp-behind)", SVGElement);
  const body = bodies.find((one) => near(middle(one), point, CLOSE));
  if (!body) return null;
  const group = made("g", "fp-mover");
  const whole = [body, ...following(body)];
  body.before(group);
  group.append(...whole);
  return group;
}

/** A finger on its way passes over what lies there, its arrow too. @param {SVGGElement | null} mark */
function onTop(mark) {
  mark?.parentNode?.append(mark);
  return mark;
}

/** What belongs to a mark's body: its filling and its numeral. @param {Element} body */
function following(body) {
  const found = [];
  for (let next = body.nextElementSibling; next?.matches(".fp-arrives, .fp-num, .fp-num-new, .fp-num-behind"); next = next.nextElementSibling) {
    found.push(next);
  }
  return found;
}

/**
 * A disc over the ring of a finger that leaves; it is gone when the movement is over. Of two that leave, no ring tells which.
 * @param {SVGSVGElement} svg @param {Point} from @param {string[]} lifted
 */
function leaving(svg, from, lifted) {
  const neck = part(svg, ".fp-neck", SVGGElement);
  if (!neck) return null;
  const group = made("g", "fp-mover fp-leaving");
  const text = put(made("text", "fp-num"), { x: from.x, y: from.y + 0.36 * 42, "font-size": 42, "font-weight": 700 });
  text.textContent = lifted.length === 1 ? lifted[0] : "";
  group.append(put(made("circle", "fp-stays"), { cx: from.x, cy: from.y, r: 21 }), text);
  neck.append(group);
  return group;
}

/**
 * Draws where fingers were and the way they took into a plain picture.
 * @param {SVGSVGElement} svg @param {Move[]} moves undone
 */
export function drawMoves(svg, moves) {
  const first = part(svg, ":is(.fp-stays, .fp-behind)", SVGElement);
  for (const { from, path, to, arrow } of moves) {
    if (from) {
      const ring = put(made("circle", "fp-was"), { cx: from.x, cy: from.y, r: 17.5, "stroke-width": 3, "stroke-dasharray": "6 4.5" });
      if (first) first.before(ring);
      else part(svg, ".fp-neck", SVGGElement)?.append(ring);
    }
    if (from && to && arrow) part(svg, ".fp-neck", SVGGElement)?.append(...arrowOf(path, arrow));
  }
}

/** The line, and its tip at the end now come to; the last point is the mark's middle. @param {Point[]} path @param {string} arrow */
function arrowOf(path, arrow) {
  const [base, end] = [path[path.length - 3], path[path.length - 2]];
  const angle = Math.atan2(end.y - base.y, end.x - base.x);
  const at = (/** @type {number} */ turn, /** @type {number} */ far) => `${end.x + Math.cos(angle + turn) * far},${end.y + Math.sin(angle + turn) * far}`;
  const tip = [at(0, 4), at(2.4, 12), at(-2.4, 12)].join(" ");
  const line = put(made("path", "fp-travel"), { d: arrow, fill: "none", "stroke-width": 4 });
  return [line, put(made("polygon", "fp-tip"), { points: tip })];
}
