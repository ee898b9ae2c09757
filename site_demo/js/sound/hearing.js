// Plays what a control asks for. While it sounds the control stops it; one thing sounds at a time.
import { part, parts } from "../parts.js";
import { recall } from "../store.js";
import { sayFrom } from "../words.js";
import { follow } from "./following.js";
import { play } from "./performance.js";
import { changeOf, musicOf, noteOf, stringsOf, strumOf } from "./score.js";

/** @typedef {{control: HTMLButtonElement, shown: Node[], stop: () => void}} Now */

/** A string in the middle of the neck, to try the volume with: D3. */
const LEVEL = 50;
const TEMPO = 60;

/** @type {Now | null} */
let now = null;

/** @type {Record<string, (control: HTMLButtonElement) => import("./score.js").Score>} */
const SCORES = {
  step: (control) => strumOf(stepOf(control)),
  change: (control) => changeOf(stepOf(control)),
  string: (control) => noteOf(pitchOf(control), stepOf(control)),
  block: (control) => musicOf(parts(control.closest(".fp-block") ?? document, ".fp-step", HTMLElement), tempo()),
  level: () => ({ sounds: [{ at: 0, pitches: [LEVEL], up: false, step: null }], length: 2 }),
  tone: (control) => ({ sounds: [{ at: 0, pitches: [Number(control.dataset.midi)], up: false, step: null }], length: 3 }),
};

/** @param {HTMLButtonElement} control @param {ParentNode} words */
export async function hear(control, words) {
  const again = now?.control === control;
  stop();
  if (again && control.dataset.hear !== "string") return;
  const bar = control.dataset.hear === "block" ? control.parentElement : null;
  const following = bar && follow(bar);
  const playing = play(SCORES[control.dataset.hear ?? ""](control), (step) => {
    showStep(step);
    if (step) following?.show(step);
  });
  const mine = { control, shown: [...control.childNodes], stop: () => { following?.end(); playing.stop(); } };
  now = mine;
  // What has a name of its own keeps it; every other control becomes the one that stops the sound.
  if (control.dataset.hear !== "string") control.replaceChildren(sayFrom(words)("stop"));
  control.dataset.sounding = "";
  const failed = await playing.over.then(() => false, () => true);
  following?.end();
  if (now === mine) settle();
  if (failed) tell(control, sayFrom(words)("silent"));
}

/** Silence. */
export function stop() {
  now?.stop();
  settle();
}

function settle() {
  if (!now) return;
  if (now.control.dataset.hear !== "string") now.control.replaceChildren(...now.shown);
  delete now.control.dataset.sounding;
  now = null;
}

/** @param {Element | null} step the one that sounds now */
function showStep(step) {
  for (const other of parts(document, ".fp-step[data-sounding]", HTMLElement)) delete other.dataset.sounding;
  if (step instanceof HTMLElement) step.dataset.sounding = "";
}

/** @param {HTMLButtonElement} control @param {string} text */
function tell(control, text) {
  const place = control.closest(".fp-figure, .hear, p, div") ?? control;
  const old = part(document, ".hear-says", HTMLElement);
  const says = old ?? Object.assign(document.createElement("p"), { className: "hear-says" });
  says.setAttribute("role", "status");
  place.after(says);
  says.textContent = text;
}

/** @param {HTMLButtonElement} control @returns {HTMLElement} */
function stepOf(control) {
  return /** @type {HTMLElement} */ (control.closest(".fp-step"));
}

/** @param {HTMLButtonElement} control */
function pitchOf(control) {
  const strings = stringsOf(stepOf(control));
  return Number(strings[strings.length - Number(control.dataset.string)]);
}

/** Beats a minute, as the student has set them for practice. */
function tempo() {
  /** @type {unknown} */
  const kept = Object(recall("fingerpost:practice", {})).tempo;
  return typeof kept === "number" && kept >= 30 && kept <= 208 ? kept : TEMPO;
}

document.addEventListener("keydown", ({ key }) => { if (key === "Escape") stop(); });
addEventListener("pagehide", stop);
// The practice view has sounds of its own.
addEventListener("popstate", stop);
document.addEventListener("click", ({ target }) => {
  if (target instanceof Element && target.closest("[data-practise], [data-ring], [data-aloud]")) stop();
});
