// The search: opens over the page, fetches the built index the first time it is asked for, lists what the matcher finds.
import { excerpt, find, prepare } from "./matcher.js";
import { part, parts, thePart } from "./parts.js";

/** @typedef {ReturnType<typeof prepare>} Prepared */

/** Results shown; the words say how many there are in all. */
const SHOWN = 20;

/** Shows the search control, which does nothing without scripts, and binds it. */
export function bindSearch() {
  const opener = part(document, "button[data-search]", HTMLButtonElement);
  const dialog = part(document, "dialog[data-search]", HTMLDialogElement);
  if (!opener || !dialog || !dialog.showModal) return;
  opener.hidden = false;
  const index = indexOnce(dialog);
  opener.addEventListener("click", () => {
    dialog.showModal();
    index();
  });
  bindField(dialog, index);
  thePart(dialog, "button[data-close]", HTMLButtonElement).addEventListener("click", () => dialog.close());
}

/** @param {HTMLDialogElement} dialog @returns {() => Promise<Prepared>} */
function indexOnce(dialog) {
  /** @type {Promise<Prepared> | null} */
  let index = null;
  const load = async () => {
    const answer = await fetch(`${dialog.dataset.base}/search/search_index.json`);
    if (!answer.ok) throw new Error(`The search index answered ${answer.status}`);
    return prepare(await answer.json(), dialog.dataset.chords);
  };
  return () => {
    index ??= load().catch((error) => { index = null; throw error; });
    index.catch(() => say(dialog, "unreachable"));
    return index;
  };
}

/** @param {HTMLDialogElement} dialog @param {() => Promise<Prepared>} index */
function bindField(dialog, index) {
  const field = thePart(dialog, "input", HTMLInputElement);
  const show = async () => {
    const asked = field.value.trim();
    const places = await index().catch(() => null);
    if (places && asked === field.value.trim()) list(dialog, asked, find(places, asked));
  };
  field.addEventListener("input", show);
  field.addEventListener("keydown", (event) => {
    const results = parts(dialog, "ol a", HTMLAnchorElement);
    if (event.key === "Enter") results[0]?.click();
    else if (event.key === "ArrowDown") results[0]?.focus();
    else if (event.key === "Escape") dialog.close();
    else return;
    event.preventDefault();
  });
  thePart(dialog, "ol", HTMLOListElement).addEventListener("keydown", (event) => stepThrough(event, field, dialog));
}

/**
 * Arrow keys go from result to result, and from the first back to the field.
 * @param {KeyboardEvent} event @param {HTMLInputElement} field @param {HTMLDialogElement} dialog
 */
function stepThrough(event, field, dialog) {
  /** @type {Record<string, number>} */
  const ways = { ArrowDown: 1, ArrowUp: -1 };
  const results = parts(dialog, "ol a", HTMLAnchorElement);
  const at = results.findIndex((result) => result === document.activeElement);
  if (!(event.key in ways) || at < 0) return;
  event.preventDefault();
  (results[at + ways[event.key]] ?? (event.key === "ArrowUp" ? field : results[at])).focus();
}

/** @param {HTMLDialogElement} dialog @param {string} asked @param {import("./matcher.js").Found[]} found */
function list(dialog, asked, found) {
  thePart(dialog, "ol", HTMLOListElement).replaceChildren(...found.slice(0, SHOWN).map((one) => result(dialog.dataset.base ?? ".", one, asked)));
  if (!asked) say(dialog, null);
  else say(dialog, found.length > SHOWN ? "more" : found.length > 1 ? "many" : found.length ? "one" : "none", { n: found.length, asked });
}

/** @param {string} base @param {import("./matcher.js").Found} found @param {string} asked */
function result(base, { entry, page }, asked) {
  const link = element("a", "found", entry.title);
  link.href = `${base}/${entry.location}`;
  const item = element("li");
  item.append(link);
  if (page && page !== entry.title) item.append(element("span", "found-page", page));
  const words = element("p", "found-words");
  words.append(...excerpt(entry.text, asked).map((part) => (part.hit ? element("mark", "", part.text) : part.text)));
  if (words.hasChildNodes()) item.append(words);
  return item;
}

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {string} [className] @param {string} [text] @returns {HTMLElementTagNameMap[K]}
 */
function element(tag, className = "", text = "") {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.textContent = text;
  return made;
}

/**
 * Announces how many were found, in the page's own words (parts/search.html).
 * @param {HTMLDialogElement} dialog @param {string | null} which @param {Record<string, string | number>} [values]
 */
function say(dialog, which, values = {}) {
  const status = thePart(dialog, "[role=status]", HTMLElement);
  const words = (which && status.dataset[which]) || "";
  status.textContent = words.replace(/\{(\w+)\}/gu, (_, name) => String(values[name]));
}
