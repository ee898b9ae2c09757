// Clean or not: takes the student's word for each change, and shows the share of clean tries as it is.
import { between } from "../kept/record.js";
import { siteRoot } from "../store.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("../kept/record.js").Change} Change
 * @typedef {typeof import("../kept/tries.js")} Keeper
 */

/** Fetched with the view, not with the lesson. @returns {Promise<Keeper | null>} null: no tries can be kept here */
export async function triesKeeper() {
  try {
    return await import("../kept/tries.js");
  } catch {
    return null;
  }
}

/** What a try is kept under. @param {Step} from @param {Step} to @returns {Change} */
export function changeBetween(from, to) {
  const page = location.pathname.slice(siteRoot().length);
  return between({ page, title: document.querySelector("h1")?.textContent?.trim() ?? document.title }, from, to);
}
