// The picture of a step for reading from two metres away: its marks and numerals grown, its empty edge cut off.
import { parts, thePart } from "../parts.js";

/** Size of a finger's numeral in the picture's own units, whose columns are 46 wide. */
const NUMERAL = 42;
/** The same where there are more strings than this, since such a picture is shown smaller. */
const WIDE_NUMERAL = 45;
const STRINGS = 6;
const FRET_NUMBER = 29;
/** A text stands on its line: so much of its size below the middle (render/svg.py). */
const BASELINE = 0.36;
/** Half the side of a mark once grown: a disc, a square's edge and its filling, one behind another finger. */
const HALF = { disc: 21, edge: 21, filling: 17.5, behind: 20 };
/** Units at the side of the fret numbers that hold nothing. */
const EDGE = 27;

/**
 * A copy of a step's picture, grown. Its ids are its own.
 * @param {Element} step
 * @param {string} ident
 * @returns {SVGSVGElement}
 */
export function bigPicture(step, ident) {
  const copy = thePart(step, ".fp-figure > .fp-frame", SVGSVGElement).cloneNode(true);
  if (!(copy instanceof SVGSVGElement)) throw new Error("A picture has no copy");
  copy.removeAttribute("width");
  named(copy, ident);
  cutEdge(copy);
  copy.classList.toggle("practice-wide", isWide(copy));
  grow(copy);
  return copy;
}

/** @param {SVGSVGElement} svg @param {string} ident */
function named(svg, ident) {
  const [title, words] = ["title", "desc"].map((name) => thePart(svg, name, SVGElement));
  title.id = `${ident}-title`;
  words.id = `${ident}-words`;
  svg.setAttribute("aria-labelledby", `${title.id} ${words.id}`);
}

/** The fret numbers stand left of the strings; right for a left hand; below in the player's view. @param {SVGSVGElement} svg */
function cutEdge(svg) {
  const [x, y, width, height] = (svg.getAttribute("viewBox") ?? "").split(" ").map(Number);
  const player = (document.documentElement.dataset.view ?? svg.dataset.view) === "player";
  const box = player
    ? [x, y, width, height - EDGE]
    : [svg.dataset.hand === "left" ? x : x + EDGE, y, width - EDGE, height];
  svg.setAttribute("viewBox", box.join(" "));
  svg.classList.toggle("practice-lying", player);
}

/** @param {SVGSVGElement} svg */
function isWide(svg) {
  return parts(svg, ".fp-string", SVGElement).length > STRINGS;
}

/** @param {SVGSVGElement} svg */
function grow(svg) {
  const numeral = isWide(svg) ? WIDE_NUMERAL : NUMERAL;
  for (const disc of parts(svg, "circle.fp-stays", SVGCircleElement)) disc.setAttribute("r", String(HALF.disc));
  for (const box of parts(svg, "rect:is(.fp-stays, .fp-edge, .fp-arrives, .fp-behind)", SVGRectElement)) growBox(box, halfOf(box));
  for (const text of parts(svg, ":is(.fp-num, .fp-num-new, .fp-num-behind)", SVGTextElement)) growText(text, numeral);
  for (const text of parts(svg, ".fp-fretno", SVGTextElement)) growText(text, FRET_NUMBER);
}

/** @param {SVGRectElement} box */
function halfOf(box) {
  if (box.matches(".fp-arrives")) return HALF.filling;
  if (box.matches(".fp-behind, .fp-edge:not(:has(+ .fp-arrives))")) return HALF.behind;
  return box.matches(".fp-edge") ? HALF.edge : HALF.disc;
}

/** Makes the shorter side of a box twice `half`, and its ends as far out. @param {SVGRectElement} box @param {number} half */
function growBox(box, half) {
  const [width, height] = ["width", "height"].map((name) => numberOf(box, name));
  const by = half - Math.min(width, height) / 2;
  const round = numberOf(box, "rx") >= Math.min(width, height) / 2 ? half : numberOf(box, "rx") + by / 2;
  put(box, { x: numberOf(box, "x") - by, y: numberOf(box, "y") - by, width: width + 2 * by, height: height + 2 * by, rx: round });
}

/** @param {SVGTextElement} text @param {number} size */
function growText(text, size) {
  const old = numberOf(text, "font-size");
  put(text, { "font-size": size, y: numberOf(text, "y") + BASELINE * (size - old) });
}

/**
 * Takes from a picture what tells of a change: every finger it shows now stays.
 * @param {SVGSVGElement} svg a grown picture
 * @returns {SVGSVGElement} the same
 */
export function plain(svg) {
  parts(svg, ":is(.fp-was, .fp-freed, .fp-travel, .fp-tip, .fp-mark-new)", SVGElement).forEach((mark) => mark.remove());
  for (const edge of parts(svg, ".fp-edge", SVGRectElement)) {
    const filling = edge.nextElementSibling?.matches(".fp-arrives") ? edge.nextElementSibling : null;
    filling?.nextElementSibling?.setAttribute("class", "fp-num");
    filling?.remove();
    edge.setAttribute("class", filling ? "fp-stays" : "fp-behind");
    put(edge, { rx: Math.min(numberOf(edge, "width"), numberOf(edge, "height")) / 2 });
  }
  return svg;
}

/**
 * Makes the mark of a finger that stays one that arrives.
 * @param {SVGGElement} mark a group of the mark's parts, as `markAt` makes it
 */
export function arriving(mark) {
  const body = mark.firstElementChild;
  if (!(body instanceof SVGGraphicsElement) || !body.matches(".fp-stays")) return;
  const box = body.getBBox();
  const middle = { x: box.x + HALF.disc, y: box.y + HALF.disc, width: box.width - 2 * HALF.disc, height: box.height - 2 * HALF.disc };
  body.replaceWith(square("fp-edge", middle, HALF.edge, 8), square("fp-arrives", middle, HALF.filling, 5));
  mark.querySelector("text")?.setAttribute("class", "fp-num-new");
}

/** @param {string} role @param {{x: number, y: number, width: number, height: number}} core @param {number} half @param {number} rx */
function square(role, core, half, rx) {
  const place = { x: core.x - half, y: core.y - half, width: core.width + 2 * half, height: core.height + 2 * half, rx };
  return put(made("rect", role), { ...place, "stroke-width": role === "fp-edge" ? 3.5 : 0 });
}

/**
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} name @param {string} role @returns {SVGElementTagNameMap[K]}
 */
export function made(name, role) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", name);
  element.setAttribute("class", role);
  return element;
}

/**
 * @template {Element} T
 * @param {T} element @param {Record<string, number | string>} values @returns {T}
 */
export function put(element, values) {
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, String(value));
  return element;
}

/** @param {Element} element @param {string} name */
export function numberOf(element, name) {
  return Number(element.getAttribute(name) ?? 0);
}
