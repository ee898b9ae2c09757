// Shows what can be heard: the controls of steps and blocks, a control for each string, the volume. The sounds themselves
// are fetched when one is asked for.
import { part, parts } from "../parts.js";
import { hasAudio, wake } from "./audio.js";
import { keepVolume, volume } from "./volume.js";

/** Shows the controls that a page has use for, and listens to them. */
export function bindSound() {
  const words = part(document, "template[data-sound-words]", HTMLTemplateElement);
  if (!words || !hasAudio()) return;
  parts(document, ".fp-step", HTMLElement).forEach(showControls);
  for (const control of parts(document, "[data-hear=block]", HTMLButtonElement)) control.hidden = false;
  for (const panel of parts(document, "[data-sound-panel]", HTMLDetailsElement)) panel.hidden = false;
  giveStringsControls(part(words.content, "[data-word=string]", HTMLElement)?.textContent ?? "");
  bindVolume();
  document.addEventListener("click", ({ target }) => {
    const control = target instanceof Element ? target.closest("[data-hear]") : null;
    if (control instanceof HTMLButtonElement) hear(control, words);
  });
  document.addEventListener("keydown", goAlongStrings);
}

/** @param {HTMLElement} step */
function showControls(step) {
  if (step.dataset.kind === "rest" || !step.dataset.pitches) return;
  const show = (/** @type {string} */ which) => {
    const control = part(step, `.hear > ${which}`, HTMLButtonElement);
    if (control) control.hidden = false;
  };
  show("[data-hear=step]");
  // A changed note is marked in the step's table; a start has no step before it in its block.
  if (step.dataset.kind !== "start" && part(step, ".fp-row-note .fp-new, .fp-strings-down .fp-new", HTMLElement)) show("[data-hear=change]");
}

/** The head of a string's column becomes a control, where the string sounds. @param {string} verb for who listens */
function giveStringsControls(verb) {
  for (const table of parts(document, ".fp-step .fp-strings", HTMLTableElement)) {
    for (const head of parts(table, "th[aria-label]", HTMLTableCellElement)) {
      const number = /(\d+)\s*$/u.exec(head.textContent ?? "")?.[1];
      if (number && !isSilent(head)) head.replaceChildren(controlOf(number, verb, [...head.childNodes]));
    }
    const [first] = parts(table, "th > button", HTMLButtonElement);
    if (first) first.tabIndex = 0;
  }
}

/** @param {HTMLTableCellElement} head of a column, or of a row where the neck lies */
function isSilent(head) {
  const table = head.closest("table");
  const fret = head.scope === "col" ? table?.tBodies[0]?.rows[0]?.cells[head.cellIndex] : head.nextElementSibling;
  return fret?.classList.contains("fp-quiet") ?? true;
}

/** @param {string} number @param {string} verb @param {Node[]} shown */
function controlOf(number, verb, shown) {
  const control = document.createElement("button");
  const hidden = document.createElement("span");
  hidden.className = "fp-hidden";
  hidden.textContent = `${verb} `;
  control.type = "button";
  control.dataset.hear = "string";
  control.dataset.string = number;
  // One stop for the tab key in each table; arrows go on from there.
  control.tabIndex = -1;
  control.append(hidden, ...shown);
  return control;
}

/** @param {KeyboardEvent} event */
function goAlongStrings(event) {
  const control = event.target instanceof Element ? event.target.closest("[data-hear=string]") : null;
  const table = control?.closest("table");
  if (!(control instanceof HTMLButtonElement) || !table) return;
  const onward = getComputedStyle(table).direction === "rtl" ? -1 : 1;
  const by = { ArrowRight: onward, ArrowLeft: -onward, ArrowDown: 1, ArrowUp: -1 }[event.key];
  const controls = parts(table, "[data-hear=string]", HTMLButtonElement);
  const next = by && controls[controls.indexOf(control) + by];
  if (!next) return;
  event.preventDefault();
  [control.tabIndex, next.tabIndex] = [-1, 0];
  next.focus();
}

/** @param {HTMLButtonElement} control @param {HTMLTemplateElement} words */
function hear(control, words) {
  // Within the tap itself: some browsers let sound begin only then. Where it may not, playing says so.
  wake().catch(() => undefined);
  import("./hearing.js").then((hearing) => hearing.hear(control, words.content));
}

/** Shows how loud it is on the controls of it in a part of the page; all that the page has then follow one another. @param {ParentNode} [within] */
export function bindVolume(within = document) {
  for (const control of parts(within, "[data-volume]", HTMLInputElement)) {
    control.value = String(volume());
    if (control.parentElement) control.parentElement.hidden = !hasAudio();
    control.addEventListener("input", () => {
      keepVolume(Number(control.value));
      for (const other of parts(document, "[data-volume]", HTMLInputElement)) other.value = control.value;
      import("./player.js").then((player) => player.setVolume(Number(control.value)));
    });
  }
}
