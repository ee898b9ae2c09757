// What is said of a record: its share of clean tries and its day, in the page's own words (parts/kept.html).
import { nameOf } from "../names.js";
import { thePart } from "../parts.js";
import { sayFrom } from "../words.js";

/** @typedef {import("./record.js").Kept} Kept */

/** The words of what is kept. @returns {import("../words.js").Say} */
export function keptWords() {
  const { content } = thePart(document, "template[data-words=kept]", HTMLTemplateElement);
  return sayFrom(content);
}

/**
 * A sentence with names of chords in it, each marked as such, so that it is written as the reader chose (js/names.js).
 * @param {import("../words.js").Say} say @param {string} which @param {Record<string, Node>} names by the curly part that each is for
 * @returns {(string | Node)[]}
 */
export function saidWith(say, which, names) {
  const bare = say(which, Object.fromEntries(Object.keys(names).map((name) => [name, `{${name}}`])));
  return bare.split(/\{(\w+)\}/u).map((text, at) => (at % 2 ? names[text] : text));
}

/** "Am to C", in one piece. @param {import("./record.js").Change} change @param {import("../words.js").Say} say */
export function changeSaid(change, say) {
  const made = document.createElement("span");
  made.append(...saidWith(say, "change", { from: nameOf(change.fromName, change.fromNamed), to: nameOf(change.toName, change.toNamed) }));
  return made;
}

/** "5 of 6 clean, last on 24 November", or less where less is known. @param {Kept} kept @param {import("../words.js").Say} say */
export function shareSaid({ clean, tries, last, done }, say) {
  const which = tries ? "share" : done && last ? "ticked" : "";
  return which && say(which, { clean, tries, day: dayText(last) });
}

/** @param {number} time milliseconds since 1970 */
export function dayText(time) {
  const day = new Date(time);
  /** @type {Intl.DateTimeFormatOptions} */
  const form = { day: "numeric", month: "long", ...(day.getFullYear() === new Date().getFullYear() ? {} : { year: "numeric" }) };
  return day.toLocaleDateString(document.documentElement.lang, form);
}
