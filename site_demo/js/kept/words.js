// What is said of a record: its share of clean tries and its day, in the page's own words (parts/kept.html).
import { thePart } from "../parts.js";
import { sayFrom } from "../words.js";

/** @typedef {import("./record.js").Kept} Kept */

/** The words of what is kept. @returns {import("../words.js").Say} */
export function keptWords() {
  const { content } = thePart(document, "template[data-words=kept]", HTMLTemplateElement);
  return sayFrom(content);
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
