// The page "Your progress": lists what is kept on this device, saves it as a file, takes such a file, forgets everything.
import { part, thePart } from "../parts.js";
import { practiseAddress } from "../practice/address.js";
import { keep, recall, siteRoot } from "../store.js";
import { sayFrom } from "../words.js";
import { LARGEST, joined, readFile, written } from "./file.js";
import { keepRecords, records } from "./shelf.js";
import { changeSaid, keptWords, shareSaid } from "./words.js";

/** @typedef {import("./record.js").Kept} Kept @typedef {import("../words.js").Say} Say */

/** Binds the page's parts, where this is that page. */
export function bindKeptPage() {
  const page = part(document, "[data-your-progress]", HTMLElement);
  if (!page) return;
  page.hidden = false;
  list(page);
  thePart(page, "[data-save]", HTMLButtonElement).addEventListener("click", () => save(page));
  thePart(page, "[data-take]", HTMLInputElement).addEventListener("change", ({ target }) => {
    if (target instanceof HTMLInputElement) take(page, target);
  });
  bindForgetting(page);
}

/** @returns {import("./file.js").Progress} */
function progress() {
  return { steps: records(), ticks: recall(ticksName(), {}) };
}

function ticksName() {
  return `fingerpost:ticks:${siteRoot()}`;
}

/** Lessons in the order in which they were last practised, the latest first. @param {HTMLElement} page */
function list(page) {
  const all = records().sort((one, other) => other.last - one.last);
  const lessons = [...new Set(all.map((kept) => kept.page))];
  const made = lessons.flatMap((lesson) => lessonRows(all.filter((kept) => kept.page === lesson), sayFrom(page)));
  thePart(page, "[data-kept-steps]", HTMLElement).replaceChildren(...made);
  thePart(page, "[data-no-steps]", HTMLElement).hidden = all.length > 0;
  thePart(page, "[data-save]", HTMLButtonElement).disabled = !all.length && !Object.keys(progress().ticks).length;
}

/** @param {Kept[]} all of one lesson @param {Say} say the page's words */
function lessonRows(all, say) {
  const [{ page, title }] = all;
  const lesson = document.createElement("h3");
  lesson.append(link(siteRoot() + page, title));
  const rows = document.createElement("ul");
  rows.append(...all.toSorted((one, other) => one.ordinal - other.ordinal).map((kept) => row(kept, say)));
  return [lesson, rows];
}

/** @param {Kept} kept @param {Say} say */
function row(kept, say) {
  const made = document.createElement("li");
  const name = changeSaid(kept, keptWords());
  made.append(kept.gone ? name : link(siteRoot() + kept.page + practiseAddress([kept.from, kept.to]), name), " ");
  const about = document.createElement("small");
  about.textContent = [shareSaid(kept, keptWords()), kept.done && kept.tries ? say("done") : "", kept.gone ? say("gone") : ""].filter(Boolean).join(" · ");
  made.append(about);
  return made;
}

/** @param {string} href @param {string | Node} text */
function link(href, text) {
  const made = document.createElement("a");
  made.href = href;
  made.append(text);
  return made;
}

/** @param {HTMLElement} page */
function save(page) {
  const text = written(progress(), page.dataset.course ?? "", new Date());
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const day = new Date().toISOString().slice(0, 10);
  const saving = Object.assign(link(address, ""), { download: `${thePart(page, "[data-save]", HTMLElement).dataset.save}-${day}.json` });
  saving.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  say(page, "saved");
}

/** @param {HTMLElement} page @param {HTMLInputElement} input */
async function take(page, input) {
  const [file] = input.files ?? [];
  if (!file) return;
  const text = file.size > LARGEST ? "" : await file.text().catch(() => "");
  input.value = "";
  const found = readFile(text, page.dataset.course ?? "");
  if ("refused" in found) say(page, found.refused, { name: file.name, course: found.course ?? "" });
  else takeOver(page, found.progress);
}

/** All or nothing: where there is room for one part only, the first is put back. @param {HTMLElement} page @param {import("./file.js").Progress} taken */
function takeOver(page, taken) {
  const before = progress();
  const { steps, ticks } = joined(before, taken);
  const done = keepRecords(steps) && keep(ticksName(), Object.keys(ticks).length ? ticks : null);
  if (!done) keepRecords(before.steps);
  list(page);
  const { length: n } = taken.steps;
  say(page, !done ? "no-room" : n === 1 ? "taken-one" : "taken", { n });
}

/** Asks once more before anything is lost. @param {HTMLElement} page */
function bindForgetting(page) {
  const [opener, sure] = [thePart(page, "[data-forget]", HTMLButtonElement), thePart(page, "[data-sure]", HTMLElement)];
  const ask = (/** @type {boolean} */ asking) => {
    sure.hidden = !asking;
    opener.hidden = asking;
    (asking ? thePart(sure, "[data-no]", HTMLButtonElement) : opener).focus();
  };
  opener.addEventListener("click", () => {
    thePart(page, "[data-forgotten]", HTMLElement).textContent = "";
    ask(true);
  });
  thePart(sure, "[data-no]", HTMLButtonElement).addEventListener("click", () => ask(false));
  thePart(sure, "[data-yes]", HTMLButtonElement).addEventListener("click", () => {
    forgetAll();
    ask(false);
    list(page);
    // What was said of a file before is no longer so.
    thePart(page, "[data-says]", HTMLElement).textContent = "";
    thePart(page, "[data-forgotten]", HTMLElement).textContent = sayFrom(page)("forgotten");
    document.documentElement.dispatchEvent(new CustomEvent("forgotten"));
  });
}

/** What this course keeps, and what it shares with other courses of the same host; nothing of another course. */
function forgetAll() {
  const ours = (/** @type {string} */ name) => /^fingerpost:[^:]+$/u.test(name) || (name.startsWith("fingerpost:") && name.endsWith(`:${siteRoot()}`));
  for (const store of /** @type {const} */ (["localStorage", "sessionStorage"])) {
    try {
      Object.keys(window[store]).filter(ours).forEach((name) => window[store].removeItem(name));
    } catch {
      // A browser that keeps nothing has nothing to forget.
    }
  }
}

/** @param {HTMLElement} page @param {string} which @param {Record<string, string | number>} [values] */
function say(page, which, values = {}) {
  thePart(page, "[data-says]", HTMLElement).textContent = sayFrom(page)(which, values);
}
