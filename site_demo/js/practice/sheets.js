// Pictures of steps, each on a sheet of its own; one lies on top. Those that are likely next lie ready beneath it, drawn
// already and not to be seen, so that a tap only turns the sheet.
import { parts } from "../parts.js";
import { animate, drawMoves, markAt, moversOf } from "./movement.js";
import { movesIn, undone } from "./moves.js";
import { arriving, bigPicture, plain } from "./picture.js";

/**
 * @typedef {import("./scene.js").Scene} Scene
 * @typedef {object} Sheet
 * @property {Scene} scene
 * @property {HTMLElement} element
 * @property {SVGSVGElement} svg
 * @property {boolean} moved whether the picture tells of a move
 * @property {import("./movement.js").Mover[]} movers
 */

export class Sheets {
  /** @type {Sheet[]} */
  #sheets = [];
  /** @type {Animation[]} */
  #moving = [];
  #made = 0;

  /** @param {HTMLElement} pile where the sheets lie */
  constructor(pile) {
    this.pile = pile;
  }

  /** Lays the picture of a scene on top. @param {Scene} scene @returns {Sheet} */
  show(scene) {
    const top = this.#of(scene) ?? this.#make(scene);
    this.#rest();
    this.#sheets.forEach((sheet) => turn(sheet, sheet === top));
    const { width, height } = top.svg.viewBox.baseVal;
    this.pile.classList.toggle("practice-to-edge", top.svg.matches(".practice-wide"));
    this.pile.style.aspectRatio = `${width} / ${height}`;
    return top;
  }

  /** Sets the fingers of the sheet on top moving. @param {Sheet} sheet @param {number} duration milliseconds */
  move({ movers }, duration) {
    this.#moving = animate(movers, duration);
  }

  /** Every finger is where its picture has it. */
  #rest() {
    this.#moving.forEach((one) => one.cancel());
    this.#moving = [];
  }

  /** Makes the picture of a scene, if there is none yet, to lie ready. @param {Scene} scene */
  prepare(scene) {
    if (!this.#of(scene)) turn(this.#make(scene), false);
  }

  /** Takes away what is none of these. @param {Scene[]} scenes */
  keep(scenes) {
    const kept = this.#sheets.filter((sheet) => scenes.some((scene) => isOf(sheet, scene)));
    this.#sheets.filter((sheet) => !kept.includes(sheet)).forEach(({ element }) => element.remove());
    this.#sheets = kept;
  }

  /** @param {Scene} scene */
  #of(scene) {
    return this.#sheets.find((sheet) => isOf(sheet, scene));
  }

  /** @param {Scene} scene @returns {Sheet} */
  #make(scene) {
    const element = document.createElement("div");
    element.className = "practice-sheet";
    this.#made += 1;
    const svg = bigPicture(scene.step.element, `practice-picture-${this.#made}`);
    const moves = movesOf(scene, svg);
    if (scene.direction !== "there") plain(svg);
    element.append(svg);
    this.pile.append(element);
    if (scene.direction === "back") showWayBack(svg, moves);
    const sheet = { scene, element, svg, moved: moves.length > 0, movers: moversOf(svg, moves, scene) };
    this.#sheets.push(sheet);
    return sheet;
  }
}

/** @param {Sheet} sheet @param {Scene} scene */
function isOf({ scene: { step, before, direction } }, scene) {
  return step === scene.step && before === scene.before && direction === scene.direction;
}

/** @param {Sheet} sheet @param {boolean} up whether it lies on top, to be seen and heard of */
function turn({ element }, up) {
  element.toggleAttribute("data-picture", up);
  if (up) element.removeAttribute("aria-hidden");
  else element.setAttribute("aria-hidden", "true");
}

/** @param {Scene} scene @param {SVGSVGElement} svg */
function movesOf({ before, direction }, svg) {
  if (direction === "there") return movesIn(svg);
  if (direction !== "back" || !before) return [];
  const forth = bigPicture(before.element, "practice-forth");
  return sameNeck(forth, svg) ? undone(movesIn(forth)) : [];
}

/** Whether two pictures show the same stretch of the neck. @param {SVGSVGElement} one @param {SVGSVGElement} other */
function sameNeck(one, other) {
  const frets = (/** @type {SVGSVGElement} */ svg) =>
    parts(svg, ".fp-fretno", SVGTextElement).map((text) => `${text.textContent} ${text.getAttribute("y")}`).join();
  return one.getAttribute("viewBox") === other.getAttribute("viewBox") && frets(one) === frets(other);
}

/** @param {SVGSVGElement} svg @param {import("./moves.js").Move[]} moves */
function showWayBack(svg, moves) {
  drawMoves(svg, moves);
  for (const { to } of moves) {
    const mark = to && markAt(svg, to);
    if (mark) arriving(mark);
    mark?.replaceWith(...mark.childNodes);
  }
}
