// The names of notes, strings and chords in the style that the reader chose: German, Do Re Mi, other signs. The build has
// computed every form (names.json); this module only puts them in, now and in whatever a script adds to the page later.
import { siteRoot } from "./store.js";

/** @typedef {{styles: string[], names: Record<string, string[]>}} Forms as render/name_styles.py writes them */

const root = document.documentElement;
/** What the reader can choose, in the order of names.json. */
const CHOICES = ["notes", "sevenths", "diminished", "minor"];

/** Shows the names as the reader chose, now and whenever the choice changes, or a script adds the first one. */
export function bindNames() {
  const show = showing();
  root.addEventListener("viewchange", show);
  root.addEventListener("namesadded", show);
  show();
}

/**
 * A name that a script adds; one that it only has as text stays as it is.
 * @param {string} text as the course was built @param {string} [name] which name it is
 */
export function nameOf(text, name) {
  if (!name) return document.createTextNode(text);
  const made = document.createElement("span");
  made.dataset.name = name;
  made.textContent = text;
  // Once it is in the page.
  queueMicrotask(() => root.dispatchEvent(new CustomEvent("namesadded")));
  return made;
}

/** @returns {string} the chosen style as names.json calls it; what is not chosen is as the course was built */
function chosen() {
  const built = (root.dataset.builtNames ?? "").split(" ");
  return CHOICES.map((name, at) => root.dataset[name] ?? built[at]).join(" ");
}

/** @returns {() => void} shows the chosen style; the forms are fetched when the first one is asked for */
function showing() {
  let shown = root.dataset.builtNames ?? "";
  let wanted = shown;
  /** @type {Promise<Forms> | null} */
  let forms = null;
  const watcher = new MutationObserver((changes) => {
    for (const { addedNodes } of changes) forms?.then((all) => addedNodes.forEach((node) => restyleIn(node, all, shown)));
  });
  return () => {
    const style = chosen();
    if (style === wanted || !document.querySelector("[data-name]")) return;
    wanted = style;
    forms ??= fetchForms().catch((error) => { forms = null; throw error; });
    forms.then((all) => {
      if (wanted !== style) return;
      shown = style;
      restyleIn(document.body, all, style);
      watcher.observe(document.body, { childList: true, subtree: true });
    }).catch(() => { wanted = shown; /* Out of reach: the names stay as they were built. */ });
  };
}

/** @returns {Promise<Forms>} */
async function fetchForms() {
  const answer = await fetch(`${siteRoot()}names.json`);
  if (!answer.ok) throw new Error(`names.json answered ${answer.status}`);
  return answer.json();
}

/** @param {Node} within @param {Forms} forms @param {string} style */
function restyleIn(within, { styles, names }, style) {
  if (!(within instanceof Element)) return;
  const at = styles.indexOf(style);
  for (const element of [within, ...within.querySelectorAll("[data-name]")]) {
    if (!(element instanceof HTMLElement || element instanceof SVGElement)) continue;
    const form = names[element.dataset.name ?? ""]?.[at];
    if (form !== undefined && form !== element.textContent) restyle(element, form);
  }
}

/** Writes a form; read aloud it is spelled as it is written, but in the built style, whose words the build knows.
 * @param {HTMLElement | SVGElement} element @param {string} form */
function restyle(element, form) {
  element.dataset.built ??= element.textContent ?? "";
  const aloud = element.getAttribute("aria-label") ?? element.dataset.aloud;
  element.textContent = form;
  if (aloud === undefined || aloud === null) return;
  element.dataset.aloud ??= aloud;
  const back = form === element.dataset.built;
  element.setAttribute("aria-label", back ? element.dataset.aloud : inWords(form));
}

/** The signs as words, since voices skip them. @param {string} form */
function inWords(form) {
  const words = /** @type {Record<string, string>} */ ({ "♯": " sharp ", "♭": " flat ", "Δ": " major ", "°": " diminished " });
  return form.replace(/[♯♭Δ°]/gu, (sign) => words[sign]).replace(/\s+/gu, " ").trim();
}
