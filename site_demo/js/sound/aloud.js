// Reads a step aloud, with a voice that is on the device: a voice from elsewhere would send the words away.
import { part, parts } from "../parts.js";
import { gainOf, volume } from "./volume.js";

const LINES = ".fp-words > :is(.fp-stays, .fp-move, .fp-sound, .fp-note, .fp-say)";

/** Ends what is said. */
let end = () => {};

/** Shows the controls where the device has a voice for the page's language. */
export function bindAloud() {
  const speech = window.speechSynthesis;
  const controls = parts(document, "button[data-aloud]", HTMLButtonElement);
  if (!speech || !controls.length) return;
  // Voices come late in some browsers.
  const show = () => { for (const control of controls) control.hidden = !ownVoice(speech); };
  speech.addEventListener?.("voiceschanged", show);
  show();
  // Nothing else that is asked for is talked over.
  document.addEventListener("click", ({ target }) => {
    const control = target instanceof Element ? target.closest("button") : null;
    if (!control) return;
    const speaks = control.matches("[data-aloud]:not([data-sounding])");
    end();
    if (speaks) speak(speech, control);
  });
  document.addEventListener("keydown", ({ key }) => { if (key === "Escape") end(); });
  for (const leaving of ["pagehide", "popstate"]) addEventListener(leaving, () => end());
}

/** A voice on the device that speaks the page's language. @param {SpeechSynthesis} speech */
function ownVoice(speech) {
  const language = document.documentElement.lang.split("-")[0];
  const own = speech.getVoices().filter((voice) => voice.localService && voice.lang.split(/[-_]/u)[0] === language);
  return own.find((voice) => voice.default) ?? own[0] ?? null;
}

/** @param {SpeechSynthesis} speech @param {Element} control which stops it meanwhile */
function speak(speech, control) {
  const voice = ownVoice(speech);
  const step = control.closest(".fp-step");
  if (!voice || !step) return;
  const said = new SpeechSynthesisUtterance(wordsOf(step));
  [said.voice, said.lang, said.volume] = [voice, voice.lang, gainOf(volume())];
  const words = part(document, "template[data-sound-words]", HTMLTemplateElement);
  const shown = control.textContent;
  control.textContent = words && (part(words.content, "[data-word=stop]", HTMLElement)?.textContent ?? null);
  control.toggleAttribute("data-sounding", true);
  end = said.onend = said.onerror = () => {
    [said.onend, said.onerror, end] = [null, null, () => {}];
    speech.cancel();
    control.textContent = shown;
    control.removeAttribute("data-sounding");
  };
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
