// Shows one step: its name, the short form of the move, the picture, what stays, what moves, what is heard, the table.
import { part, parts, thePart } from "../parts.js";
import { bigPicture, plain } from "./picture.js";
import { wayOf } from "./scene.js";
import { plainText, put } from "./steps.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("./steps.js").Said} Said
 * @typedef {import("./scene.js").Scene} Scene
 * @typedef {import("./scene.js").Movement} Movement
 * @typedef {import("./sheets.js").Sheets} Sheets
 */

/** Lines of a step's words that are shown after its move, in their order. */
const MORE = ".fp-words > :is(.fp-strokes, .fp-note, .fp-say, .fp-cue)";
/** Signs of a short form that one line holds beside a chord's name. */
const ONE_LINE = 9;

/**
 * What one looks at first: name, short form, picture. Above the picture also what to tune, since it moves what is below.
 * @param {HTMLElement} view
 * @param {Sheets} sheets
 * @param {Scene} scene
 * @param {{how: Movement, duration: number}} movement duration in milliseconds
 * @param {import("../words.js").Say} say
 * @returns {Step | null} a step that is to be seen too, small, as the shape before the move
 */
export function show(view, sheets, scene, movement, say) {
  const { step } = scene;
  const arm = parts(step.element, ".fp-arm > :not(.fp-no)", HTMLElement).map((one) => one.cloneNode(true));
  thePart(view, "[data-chord]", HTMLElement).replaceChildren(...arm.flatMap((one) => [one, " "]));
  showShort(view, wayOf(scene, say("apart")).short);
  copies(view, "[data-setup]", scene.setUp ? setupOf(step) : []);
  return picture(view, sheets, scene, movement);
}

/**
 * What is read below the picture: the words, the shape before.
 * @param {HTMLElement} view
 * @param {Scene} scene
 * @param {Step | null} before as `show` gave it
 * @param {import("../words.js").Say} say
 */
export function explain(view, scene, before, say) {
  const { step, direction } = scene;
  const own = direction === "there";
  const way = wayOf(scene, say("apart"));
  tell(view, "[data-stays]", way.stays);
  tell(view, "[data-move]", way.move);
  thePart(view, "[data-move-label]", HTMLElement).textContent = (own && textOf(step, ".fp-move > b")) || say("move");
  put(thePart(view, "[data-sound]", HTMLElement), (own && part(step.element, ".fp-words > .fp-sound", HTMLElement)) || "");
  copies(view, "[data-more]", parts(step.element, MORE, HTMLElement));
  showBefore(view, before);
}

/** What each string sounds. @param {HTMLElement} view @param {Step} step */
export function table(view, step) {
  copies(view, "[data-table]", parts(step.element, ".fp-strings", HTMLElement));
  parts(view, "[data-table] table", HTMLTableElement).forEach(plainTable);
}

/** @param {Step} step @param {string} line */
function textOf(step, line) {
  return part(step.element, `.fp-words > ${line}`, HTMLElement)?.textContent ?? "";
}

/** @param {HTMLElement} view @param {Said} short */
function showShort(view, short) {
  const place = thePart(view, "[data-short]", HTMLElement);
  put(place, short);
  place.classList.toggle("practice-long", [...plainText(short)].length > ONE_LINE);
}

/** A line that says nothing is not shown. @param {HTMLElement} view @param {string} where @param {Said} words */
function tell(view, where, words) {
  const place = thePart(view, where, HTMLElement);
  put(place, words);
  if (place.parentElement) place.parentElement.hidden = !plainText(words);
}

/** @param {HTMLElement} view @param {string} where @param {HTMLElement[]} originals */
function copies(view, where, originals) {
  thePart(view, where, HTMLElement).replaceChildren(...originals.map((one) => one.cloneNode(true)));
}

/** What to tune, and the capo. @param {Step} step */
function setupOf(step) {
  const block = step.element.closest(".fp-block");
  return block ? parts(block, ":scope > :is(.fp-retune, .fp-capo)", HTMLElement) : [];
}

/**
 * The table apart from its picture: its columns need no longer be the strings of the picture, and what a script has made a
 * control of is plain again, since it is too small here to be one.
 * @param {HTMLTableElement} table
 */
function plainTable(table) {
  for (const control of parts(table, "button", HTMLButtonElement)) {
    parts(control, ".fp-hidden", HTMLElement).forEach((one) => one.remove());
    control.replaceWith(...control.childNodes);
  }
  table.className = table.classList.contains("fp-strings-down") ? "practice-table practice-table-down" : "practice-table";
}

/**
 * @param {HTMLElement} view @param {Sheets} sheets @param {Scene} scene @param {{how: Movement, duration: number}} movement
 * @returns {Step | null}
 */
function picture(view, sheets, scene, { how, duration }) {
  const sheet = sheets.show(scene);
  view.dataset.hand = document.documentElement.dataset.hand ?? sheet.svg.dataset.hand;
  if (how === "moving") sheets.move(sheet, duration);
  return how === "pictures" && sheet.moved ? scene.before : null;
}

/** Without movement, the shape before it, small. @param {HTMLElement} view @param {Step | null} before */
function showBefore(view, before) {
  const figure = thePart(view, "[data-before]", HTMLElement);
  parts(figure, "svg", SVGSVGElement).forEach((old) => old.remove());
  figure.hidden = !before;
  if (before) figure.append(plain(bigPicture(before.element, "practice-before")));
}
