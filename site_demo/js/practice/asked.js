// What an address asks to practise, in the lesson as it is now: its steps may have been edited since. Pure.
import { stepNow } from "../kept/match.js";
import { pairOf } from "./walk.js";

/**
 * @typedef {object} Asked
 * @property {number} at the step to open
 * @property {import("./walk.js").Pair} pair
 * @property {"" | "edited" | "no-pair"} notice which words say what could not be done
 */

/**
 * @param {string[]} ids one step, or the two of a change; none: the first
 * @param {import("./steps.js").Step[]} steps
 * @param {import("../kept/match.js").Stood[]} places where they stood when something was kept of them
 * @returns {Asked}
 */
export function askedFor(ids, steps, places) {
  const found = new Set(ids.map((id) => stepNow(id, steps, places)));
  const there = steps.flatMap((step, at) => (found.has(step) ? [at] : []));
  const pair = there.length === 2 ? pairOf(there[0], there[1], steps) : null;
  const notice = there.length < new Set(ids).size ? "edited" : there.length === 2 && !pair ? "no-pair" : "";
  return { at: there.at(-1) ?? placeOf(ids[0] ?? "", steps), pair, notice };
}

/**
 * A step by its id; without it, where its block begins.
 * @param {string} id
 * @param {{id: string, block: string}[]} steps
 * @returns {number} its place among the steps; 0 where the lesson no longer has its block
 */
export function placeOf(id, steps) {
  const exact = steps.findIndex((step) => step.id === id);
  return exact >= 0 ? exact : Math.max(0, steps.findIndex(({ block }) => id.startsWith(`${block}--`)));
}
