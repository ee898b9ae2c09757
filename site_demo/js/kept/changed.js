// At a step that is no longer what it was when it was practised: says so, says what changed, and lets the tries begin anew.
import { nameOf } from "../names.js";
import { part, thePart } from "../parts.js";
import { differences } from "./difference.js";
import { keyOf } from "./record.js";
import { keepRecords, records } from "./shelf.js";
import { keptWords, saidWith, shareSaid } from "./words.js";

/**
 * @typedef {import("./match.js").Match} Match
 * @typedef {import("./difference.js").Stopped} Stopped
 */

/** One note at each step, whichever way it was changed to. @param {Match[]} changed */
export function showChanges(changed) {
  const ids = new Set(changed.map(({ now }) => now?.to));
  for (const id of ids) showAt(id ?? "", changed.filter(({ now }) => now?.to === id));
}

/** @param {string} id @param {Match[]} changes the latest is told */
function showAt(id, changes) {
  const step = document.getElementById(id);
  const note = thePart(document, "template[data-words=step-changed]", HTMLTemplateElement).content.cloneNode(true);
  if (!step || !(note instanceof DocumentFragment)) return;
  const latest = changes.reduce((one, other) => (other.kept.last > one.kept.last ? other : one));
  const box = thePart(note, ".kept-changed", HTMLElement);
  if (startChanged(latest)) thePart(box, "b", HTMLElement).textContent = keptWords()("start-changed");
  thePart(box, "[data-said]", HTMLElement).textContent = shareSaid(latest.kept, keptWords());
  thePart(box, "ul", HTMLUListElement).append(...told(latest).map(line));
  thePart(box, "button", HTMLButtonElement).addEventListener("click", () => {
    const keys = changes.map(({ kept }) => keyOf(kept));
    // Tries of the old shape are no tries of the new.
    if (keepRecords(records().filter((kept) => !keys.includes(keyOf(kept))))) box.remove();
  });
  (part(step, ".fp-arm", HTMLElement) ?? step).after(note);
}

/** Whether only what it is changed from is another now. @param {Pick<Match, "kept" | "now">} match */
function startChanged({ kept, now }) {
  return !differences(kept.toShape, now?.toShape ?? "").length && differences(kept.fromShape, now?.fromShape ?? "").length > 0;
}

/** @param {Pick<Match, "kept" | "now">} match @returns {(string | Node)[][]} */
function told({ kept, now }) {
  const say = keptWords();
  if (startChanged({ kept, now })) {
    const was = nameOf(kept.fromName, kept.fromNamed);
    if (kept.fromName === now?.fromName) return [saidWith(say, "held-otherwise", { name: was })];
    return [saidWith(say, "other-start", { name: was, now: nameOf(now?.fromName ?? "", now?.fromNamed) })];
  }
  const stopped = (/** @type {Stopped} */ { fret, finger }) =>
    say(fret === null ? "silent" : fret === 0 ? "open" : finger === "T" ? "thumb" : finger ? "pressed" : "at-fret", { fret: fret ?? 0, finger });
  return differences(kept.toShape, now?.toShape ?? "").map(({ string, was, now: is }) => [say("string", { n: string, was: stopped(was), now: stopped(is) })]);
}

/** @param {(string | Node)[]} said */
function line(said) {
  const item = document.createElement("li");
  item.append(...said);
  return item;
}
