// Clean or not: takes the student's word for each change, and shows the share of clean tries as it is.
import { siteRoot } from "../store.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {object} Change what a try is kept under
 * @property {string} page address of the lesson, from the site's folder
 * @property {string} title the lesson's title
 * @property {string} block
 * @property {number} ordinal of the step that is changed to
 * @property {string} from stable id; to: the same
 * @property {string} to
 * @property {string} fromShape
 * @property {string} toShape
 * @property {string} fromName
 * @property {string} toName
 *
 * @typedef {object} Keeper what js/kept/tries.js gives
 * @property {(change: Change, clean: boolean, now: number) => void} noteTry
 * @property {(change: Change) => {clean: number, tries: number}} tally
 */

/** @returns {Promise<Keeper | null>} null: no tries can be kept here */
export async function triesKeeper() {
  try {
    return await import(new URL("../kept/tries.js", import.meta.url).href);
  } catch {
    return null;
  }
}

/** @param {Step} from @param {Step} to @returns {Change} */
export function changeBetween(from, to) {
  return {
    page: location.pathname.slice(siteRoot().length),
    title: document.querySelector("h1")?.textContent?.trim() ?? document.title,
    block: to.block,
    ordinal: to.ordinal,
    from: from.id,
    to: to.id,
    fromShape: from.shape,
    toShape: to.shape,
    fromName: from.name,
    toName: to.name,
  };
}
