// What is shown of a step: from which step it is reached, as the lesson tells it or as one end of a pair. Pure.
import { direction } from "./walk.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {import("./steps.js").Way} Way
 * @typedef {object} Scene
 * @property {Step} step
 * @property {Step | null} before the step that was shown before, or the one before it in its block
 * @property {import("./walk.js").Direction} direction how the two lie to each other
 * @property {boolean} setUp whether what to tune, and the capo, are to be said first
 *
 * @typedef {"moving" | "pictures" | "still"} Movement how a move is shown: as a movement, as before and after, or not
 */

/**
 * @param {Step[]} steps
 * @param {number} at
 * @param {number | null} from the step come from by a change; null where the step was only opened or gone back to
 * @param {import("./walk.js").Pair} pair
 * @param {boolean} opened whether practice has just been opened here
 * @returns {Scene}
 */
export function sceneOf(steps, at, from, pair, opened = false) {
  const step = steps[at];
  // Between two steps it is said but once, or the picture would jump with every other change.
  const setUp = step.ordinal === 0 && (opened || !pair);
  if (!pair) return { step, before: step.ordinal > 0 ? steps[at - 1] : null, direction: "there", setUp };
  if (from === null) return { step, before: null, direction: "apart", setUp };
  return { step, before: steps[from], direction: direction(from, at, steps), setUp };
}

/**
 * The words of the way here.
 * @param {Scene} scene
 * @param {string} apart what to say where the lesson has no words for it
 * @returns {Way}
 */
export function wayOf({ step, before, direction: lies }, apart) {
  if (lies === "there") return step.way;
  if (lies === "back" && before?.wayBack) return before.wayBack;
  return { short: "", stays: "", move: apart };
}
