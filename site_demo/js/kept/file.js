// Progress as a file of our own, to carry it to another device; and such a file read again, trusting nothing in it. Pure.
import { keyOf, recordIn } from "./record.js";

/**
 * @typedef {import("./record.js").Kept} Kept
 * @typedef {{steps: Kept[], ticks: Record<string, boolean>}} Progress
 * @typedef {"unreadable" | "foreign" | "newer" | "other-course"} Refusal
 */

const FORMAT = "fingerpost-progress";
const VERSION = 1;
/** The name under which tries of 200 lessons are saved is far smaller. */
export const LARGEST = 4_000_000;

/** @param {Progress} progress @param {string} course its name @param {Date} saved @returns {string} */
export function written({ steps, ticks }, course, saved) {
  return `${JSON.stringify({ format: FORMAT, version: VERSION, course, saved: saved.toISOString(), steps, ticks }, null, 1)}\n`;
}

/**
 * @param {string} text
 * @param {string} course the name of the course that is open
 * @returns {{progress: Progress} | {refused: Refusal, course?: string}}
 */
export function readFile(text, course) {
  /** @type {unknown} */
  let found;
  try {
    found = JSON.parse(text);
  } catch {
    return { refused: "unreadable" };
  }
  const { format, version, course: of, steps, ticks } = Object(found);
  if (format !== FORMAT) return { refused: "foreign" };
  if (version !== VERSION) return { refused: Number(version) > VERSION ? "newer" : "unreadable" };
  if (of !== course) return { refused: "other-course", course: String(of) };
  const read = Array.isArray(steps) ? steps.map(recordIn) : [null];
  const whole = read.filter((record) => record !== null);
  return whole.length === read.length && areTicks(ticks) ? { progress: { steps: whole, ticks } } : { refused: "unreadable" };
}

/** @param {unknown} ticks @returns {ticks is Record<string, boolean>} */
function areTicks(ticks) {
  return typeof ticks === "object" && ticks !== null && !Array.isArray(ticks) && Object.values(ticks).every((tick) => tick === true);
}

/**
 * Both together. Of the same change the record with more tries holds: the tries of the other are most likely among them.
 * @param {Progress} here @param {Progress} there @returns {Progress}
 */
export function joined(here, there) {
  const steps = new Map(here.steps.map((kept) => [keyOf(kept), kept]));
  for (const kept of there.steps) {
    const own = steps.get(keyOf(kept));
    if (!own || kept.tries > own.tries || (kept.tries === own.tries && kept.last > own.last)) steps.set(keyOf(kept), { ...kept, done: kept.done || own?.done === true });
    else if (kept.done) steps.set(keyOf(kept), { ...own, done: true });
  }
  return { steps: [...steps.values()], ticks: { ...here.ticks, ...there.ticks } };
}
