// The search: opens over the page, fetches the built index the first time it is asked for, lists what the matcher finds.
import { excerpt, find, prepare } from "./matcher.js";

/** Results shown; the words say how many there are in all. */
const SHOWN = 20;

/** Shows the search control, which does nothing without scripts, and binds it. */
export function bindSearch() {
  const opener = document.querySelector("button[data-search]");
  const dialog = document.querySelector("dialog[data-search]");
  if (!opener || !dialog || !dialog.showModal) return;
  opener.hidden = false;
  const index = indexOnce(dialog);
  opener.addEventListener("click", () => {
    dialog.showModal();
    index();
  });
  bindField(dialog, index);
  dialog.querySelector("button[data-close]").addEventListener("click", () => dialog.close());
}

/** @param {HTMLDialogElement} dialog @returns {() => Promise<ReturnType<typeof prepare>>} */
function indexOnce(dialog) {
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

/** @param {HTMLDialogElement} dialog @param {() => Promise<ReturnType<typeof prepare>>} index */
function bindField(dialog, index) {
  const field = dialog.querySelector("input");
  const show = async () => {
    const asked = field.value.trim();
    const places = await index().catch(() => null);
    if (places && asked === field.value.trim()) list(dialog, asked, find(places, asked));
  };
  field.addEventListener("input", show);
  field.addEventListener("keydown", (event) => {
    const results = [...dialog.querySelectorAll("ol a")];
    if (event.key === "Enter") results[0]?.click();
    else if (event.key === "ArrowDown") results[0]?.focus();
    else if (event.key === "Escape") dialog.close();
    else return;
    event.preventDefault();
  });
  dialog.querySelector("ol").addEventListener("keydown", (event) => stepThrough(event, field, dialog));
}

/** Arrow keys go from result to result, and from the first back to the field. */
function stepThrough(event, field, dialog) {
  const ways = { ArrowDown: 1, ArrowUp: -1 };
  const results = [...dialog.querySelectorAll("ol a")];
  const at = results.indexOf(document.activeElement);
  if (!(event.key in ways) || at < 0) return;
  event.preventDefault();
  (results[at + ways[event.key]] ?? (event.key === "ArrowUp" ? field : results[at])).focus();
}

/** @param {HTMLDialogElement} dialog @param {string} asked @param {import("./matcher.js").Found[]} found */
function list(dialog, asked, found) {
  dialog.querySelector("ol").replaceChildren(...found.slice(0, SHOWN).map((one) => result(dialog.dataset.base, one, asked)));
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

function element(tag, className = "", text = "") {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.textContent = text;
  return made;
}

/** Announces how many were found, in the page's own words (parts/search.html). */
function say(dialog, which, values = {}) {
  const status = dialog.querySelector("[role=status]");
  const words = which ? status.dataset[which] : "";
  status.textContent = words.replace(/\{(\w+)\}/gu, (_, name) => values[name]);
}
