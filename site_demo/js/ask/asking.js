// Asks the questions: one at a time, answered by a tap or a key, the reason shown with each answer. Nothing is kept.
import { Afterwards } from "../afterwards.js";
import { part, parts, thePart } from "../parts.js";
import { plain } from "../practice/picture.js";
import { knownSteps, soundingOf } from "./known.js";
import { round } from "./questions.js";
import { fromTheRoot } from "./tones.js";

/** @typedef {import("./questions.js").Question} Question */

/** @param {HTMLElement} section the section of parts/ask.html */
export function ask(section) {
  const place = thePart(section, "[data-ask-place]", HTMLElement);
  const begin = thePart(section, "[data-ask-begin]", HTMLButtonElement);
  const questions = round(knownSteps(document), Math.random);
  if (!questions.length) return;
  begin.hidden = true;
  askNext(section, place, questions, 0, 0);
}

/**
 * @param {HTMLElement} section @param {HTMLElement} place @param {Question[]} questions
 * @param {number} at which question @param {number} right how many were answered rightly so far
 */
function askNext(section, place, questions, at, right) {
  if (at === questions.length) {
    finish(section, place, questions.length, right);
    return;
  }
  const question = questions[at];
  const asked = copy(section, `template[data-ask-kind=${question.kind}]`);
  fill(asked, "from", named(question.from));
  fill(asked, "to", named(question.to));
  fill(asked, "picture", picture(question));
  const buttons = question.options.map((option) => {
    const button = copy(section, "template[data-ask-part=option]");
    fill(button, "name", question.kind === "note" ? noted(option) : named(option));
    button.dataset.option = option;
    button.addEventListener("click", () => answer(section, place, question, option, at + 1 === questions.length, (isRight) =>
      askNext(section, place, questions, at + 1, right + Number(isRight))));
    return button;
  });
  slot(asked, "options")?.append(...buttons);
  place.replaceChildren(asked);
  asked.tabIndex = -1;
  asked.focus();
}

/**
 * @param {HTMLElement} section @param {HTMLElement} place @param {Question} question @param {string} chosen
 * @param {boolean} last @param {(isRight: boolean) => void} goOn
 */
function answer(section, place, question, chosen, last, goOn) {
  const words = thePart(section, "template[data-ask-part=words]", HTMLElement).dataset;
  const isRight = chosen === question.right;
  for (const button of parts(place, "button[data-option]", HTMLButtonElement)) {
    const option = button.dataset.option;
    button.disabled = true;
    if (option === question.right) fill(button, "verdict", words.isRight ?? "");
    else if (option === chosen) fill(button, "verdict", words.isWrong ?? "");
    button.dataset.verdict = option === question.right ? "right" : option === chosen ? "wrong" : "";
  }
  // Right or wrong is shown at once; why, and the way on, right after.
  new Afterwards().put(() => showReason(section, place, question, isRight, last, () => goOn(isRight)));
}

/**
 * @param {HTMLElement} section @param {HTMLElement} place @param {Question} question @param {boolean} isRight
 * @param {boolean} last @param {() => void} goOn
 */
function showReason(section, place, question, isRight, last, goOn) {
  const words = thePart(section, "template[data-ask-part=words]", HTMLElement).dataset;
  const reason = copy(section, "template[data-ask-part=reason]");
  fill(reason, "verdict", (isRight ? words.right : words.wrong) ?? "");
  explain(reason, question);
  const on = slot(reason, "on");
  if (on) on.textContent = (last ? words.end : words.next) ?? "";
  on?.addEventListener("click", goOn);
  place.append(reason);
  reason.focus();
}

/** What is new is told by the step's own sentence about its sound, a name by the tones of the chord; its table shows them. @param {HTMLElement} reason @param {Question} question */
function explain(reason, question) {
  const step = thePart(document, `[id="${CSS.escape(question.step)}"]`, HTMLElement);
  const sound = part(step, ".fp-sound", HTMLElement);
  const said = question.kind === "note" && sound ? [...sound.cloneNode(true).childNodes] : tonesOf(step, question.right);
  fill(reason, "reason", ...said);
  const table = /** @type {HTMLTableElement | undefined} */ (part(step, ".fp-strings", HTMLTableElement)?.cloneNode(true));
  if (table) fill(reason, "table", toRead(table));
  const link = slot(reason, "step");
  if (link instanceof HTMLAnchorElement) link.href = `#${encodeURIComponent(question.step)}`;
}

/** Away from its step a string's letter is no control. @param {HTMLTableElement} table @returns {HTMLTableElement} the same */
function toRead(table) {
  for (const control of parts(table, "th > button", HTMLButtonElement)) {
    part(control, ".fp-hidden", HTMLElement)?.remove();
    control.replaceWith(...control.childNodes);
  }
  return table;
}

/** `F: F (the root), A (the third), C (the fifth).` @param {HTMLElement} step @param {string} name @returns {(Node | string)[]} */
function tonesOf(step, name) {
  const tones = fromTheRoot(soundingOf(step)).flatMap(({ note, words }) => [", ", noted(note), ` (${words})`]);
  return [named(name), ": ", ...tones.slice(1), "."];
}

/** @param {HTMLElement} section @param {HTMLElement} place @param {number} asked @param {number} right */
function finish(section, place, asked, right) {
  const end = copy(section, "template[data-ask-part=end]");
  fill(end, "right", String(right));
  fill(end, "asked", String(asked));
  const on = slot(end, "on");
  if (on) on.textContent = thePart(section, "template[data-ask-part=words]", HTMLElement).dataset.again ?? "";
  on?.addEventListener("click", () => ask(section));
  place.replaceChildren(end);
  end.focus();
}

/** The step's picture, without its name; where the name is asked for also without what moved. @param {Question} question */
function picture({ kind, step }) {
  const shown = thePart(document, `[id="${CSS.escape(step)}"] .fp-figure > .fp-frame`, SVGSVGElement);
  const copied = /** @type {SVGSVGElement} */ (shown.cloneNode(true));
  const words = part(copied, "desc", SVGElement)?.textContent ?? "";
  parts(copied, "title, desc", SVGElement).forEach((one) => one.remove());
  copied.removeAttribute("aria-labelledby");
  copied.setAttribute("aria-label", words);
  return kind === "name" ? plain(copied) : copied;
}

/** A chord's name as its step writes it. @param {string} name */
const named = (name) => written(".fp-arm", name);
/** A note's. `F` may be either, and is read aloud by what it is. @param {string} name */
const noted = (name) => written(".fp-strings td", name);

/** In the size of the words around it; "" has none. @param {string} where @param {string} name @returns {Node | string} */
function written(where, name) {
  const copied = part(document, `main .fp-step ${where} [data-name="${CSS.escape(name)}"]`, HTMLElement)?.cloneNode(true);
  if (copied instanceof Element) copied.removeAttribute("class");
  return copied ?? "";
}

/** @param {ParentNode} within @param {string} selector @returns {HTMLElement} */
function copy(within, selector) {
  const made = thePart(within, selector, HTMLTemplateElement).content.firstElementChild?.cloneNode(true);
  if (!(made instanceof HTMLElement)) throw new Error(`${selector} is empty`);
  return made;
}

/** @param {ParentNode} within @param {string} name */
function slot(within, name) {
  return part(within, `[data-slot="${name}"]`, HTMLElement);
}

/** @param {ParentNode} within @param {string} name @param {...(Node | string)} content */
function fill(within, name, ...content) {
  slot(within, name)?.replaceChildren(...content);
}
