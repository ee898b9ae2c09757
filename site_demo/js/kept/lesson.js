// A lesson's own progress: the share of clean tries beside each item of its practice lists, and what has changed since.
import { part, parts } from "../parts.js";
import { askedToPractise, practiseAddress } from "../practice/address.js";
import { readSteps } from "../practice/steps.js";
import { siteRoot } from "../store.js";
import { showChanges } from "./changed.js";
import { match, settled } from "./match.js";
import { between } from "./record.js";
import { keepRecords, records } from "./shelf.js";
import { noteDone, recordOf } from "./tries.js";
import { keptWords, shareSaid } from "./words.js";

/** @typedef {import("./record.js").Change} Change */

/** Binds the practice lists of a lesson; shows what is kept of its changes. */
export function bindKeptLesson() {
  const boxes = parts(document, "main input[data-key*='/change/']", HTMLInputElement);
  if (!boxes.length) return;
  const items = itemsOf(boxes);
  for (const { box, change } of items) {
    // Ticked before such records were kept: when is not known.
    if (box.checked && !recordOf(change)) noteDone(change, true, 0);
  }
  lookAtLesson();
  const show = () => items.forEach(({ box, change }) => showShare(box, change));
  show();
  document.documentElement.addEventListener("trieschange", show);
  document.documentElement.addEventListener("tickschange", () => takeTicks(items));
}

/** @param {HTMLInputElement[]} boxes */
function itemsOf(boxes) {
  const steps = readSteps(document);
  const lesson = { page: location.pathname.slice(siteRoot().length), title: document.querySelector("h1")?.textContent?.trim() ?? "" };
  return boxes.flatMap((box) => {
    const [from, to] = (box.dataset.key ?? "").split("/").slice(-2).map((id) => steps.find((step) => step.id === id));
    return from && to ? [{ box, change: between(lesson, from, to) }] : [];
  });
}

/** Ticks set, taken back, or cleared all at once. @param {{box: HTMLInputElement, change: Change}[]} items */
function takeTicks(items) {
  for (const { box, change } of items) {
    if (box.checked !== Boolean(recordOf(change)?.done)) noteDone(change, box.checked, Date.now());
  }
}

/** @param {HTMLInputElement} box @param {Change} change */
function showShare(box, change) {
  const item = box.closest("li");
  const kept = recordOf(change);
  const said = kept ? shareSaid(kept, keptWords()) : "";
  if (!item || (!said && !part(item, ".kept-share", HTMLElement))) return;
  const place = part(item, ".kept-share", HTMLElement) ?? document.createElement("p");
  place.className = "kept-share";
  place.textContent = said;
  item.append(place);
}

/** Finds every record's place in the lesson as it is now. */
function lookAtLesson() {
  const page = location.pathname.slice(siteRoot().length);
  const steps = readSteps(document);
  const all = records();
  const ofLesson = all.filter((kept) => kept.page === page);
  const matches = ofLesson.map((kept) => match(kept, steps, ofLesson));
  const now = settled(all, matches);
  if (JSON.stringify(now) !== JSON.stringify(all)) keepRecords(now);
  rename(matches);
  showChanges(matches.filter(({ place }) => place === "changed"));
}

/** An address that asks for what was moved is looked up when the view is there, which may be later. @param {import("./match.js").Match[]} matches */
function rename(matches) {
  const moved = matches.filter(({ place }) => place === "moved");
  const ids = new Map(moved.flatMap(({ kept, now }) => (now ? [[kept.from, now.from], [kept.to, now.to]] : [])));
  const asked = askedToPractise(location.hash);
  if (asked?.some((id) => ids.has(id))) history.replaceState(history.state, "", practiseAddress(asked.map((id) => ids.get(id) ?? id)));
}
