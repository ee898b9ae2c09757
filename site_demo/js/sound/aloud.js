// Reads a step aloud, with a voice that is on the device: a voice from elsewhere would send the words away.
import { parts } from "../parts.js";
import { gainOf, volume } from "./volume.js";

const LINES = ".fp-words > :is(.fp-stays, .fp-move, .fp-sound, .fp-note, .fp-say)";

/** Shows the controls where the device has a voice for the page's language. */
export function bindAloud() {
  const speech = window.speechSynthesis;
  const controls = parts(document, "button[data-aloud]", HTMLButtonElement);
  if (!speech || !controls.length) return;
  // Voices come late in some browsers.
  const show = () => { for (const control of controls) control.hidden = !ownVoice(speech); };
  speech.addEventListener?.("voiceschanged", show);
  show();
  for (const control of controls) control.addEventListener("click", () => toggle(speech, control));
  addEventListener("pagehide", () => speech.cancel());
}

/** A voice on the device that speaks the page's language. @param {SpeechSynthesis} speech */
function ownVoice(speech) {
  const language = document.documentElement.lang.split("-")[0];
  const own = speech.getVoices().filter((voice) => voice.localService && voice.lang.split(/[-_]/u)[0] === language);
  return own.find((voice) => voice.default) ?? own[0] ?? null;
}

/** @param {SpeechSynthesis} speech @param {HTMLButtonElement} control */
function toggle(speech, control) {
  const speaking = control.getAttribute("aria-pressed") === "true";
  speech.cancel();
  const voice = ownVoice(speech);
  const step = control.closest(".fp-step");
  if (speaking || !voice || !step) return;
  const said = new SpeechSynthesisUtterance(wordsOf(step));
  [said.voice, said.lang, said.volume] = [voice, voice.lang, gainOf(volume())];
  said.onend = said.onerror = () => control.setAttribute("aria-pressed", "false");
  control.setAttribute("aria-pressed", "true");
  speech.speak(said);
}

/** The name of the step, then its lines. @param {Element} step */
function wordsOf(step) {
  const name = step.querySelector(".fp-arm > .fp-chord");
  const lines = parts(step, LINES, HTMLElement).map(spoken);
  return [name ? spoken(name) : "", ...lines].filter(Boolean).map((line) => (/[.!?:]$/u.test(line) ? line : `${line}.`)).join(" ");
}

/** Text as it is read: signs by their words, labels with a stop behind them. @param {Node} node @returns {string} */
function spoken(node) {
  if (!(node instanceof Element)) return node.textContent ?? "";
  const label = node.getAttribute("aria-label");
  if (label) return label;
  if (node.getAttribute("aria-hidden") === "true") return "";
  const text = [...node.childNodes].map(spoken).join("").replace(/\s+/gu, " ").trim();
  return node.tagName === "B" ? `${text}: ` : node.tagName === "SPAN" ? ` ${text} ` : text;
}
