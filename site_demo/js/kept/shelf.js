// Where the records of a course are kept in this browser, and whether the browser let us.
import { keep, recall, siteRoot } from "../store.js";
import { recordIn } from "./record.js";

/** @typedef {import("./record.js").Kept} Kept */

/** What a store of another version holds is left alone. */
const VERSION = 1;

/** One course's records. @returns {string} */
export function shelfName() {
  return `fingerpost:steps:${siteRoot()}`;
}

/** Every record of the course that can be read. @returns {Kept[]} */
export function records() {
  const { version, steps } = Object(recall(shelfName(), null));
  if (version !== VERSION || !Array.isArray(steps)) return [];
  return steps.map(recordIn).filter((record) => record !== null);
}

/** Keeps these in place of all; one that says nothing is let go. @param {Kept[]} all @returns {boolean} whether the browser kept them */
export function keepRecords(all) {
  const steps = all.filter(({ tries, done }) => tries > 0 || done);
  return keep(shelfName(), steps.length ? { version: VERSION, steps } : null);
}
