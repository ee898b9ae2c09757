// Finds what is kept in a lesson as it is now: by the step's id, then by block and ordinal. Pure.
import { joined } from "./file.js";
import { between } from "./record.js";

/**
 * @typedef {import("./record.js").Kept} Kept
 * @typedef {import("./record.js").Change} Change
 * @typedef {import("./record.js").Stop} Stop
 * @typedef {{id: string, block: string, ordinal: number}} Stood where a step stood when something was kept of it
 *
 * @typedef {object} Match
 * @property {Kept} kept
 * @property {"same" | "moved" | "changed" | "gone"} place moved: other ids, the same shapes; gone: nothing in its place
 * @property {Change | null} now the change as it is now
 */

/** Steps that no hand changes to. */
const IDLE = ["rest", "passing"];

/**
 * Where the steps of these records stood; what is surest comes first. Before it was kept where a change begins, that is told by
 * the record of the way back, which is made in the same round; without one it was most likely the step before.
 * @param {Kept[]} kept @returns {Stood[]}
 */
export function stood(kept) {
  return [
    ...kept.map(({ to, block, ordinal }) => ({ id: to, block, ordinal })),
    ...kept.flatMap(({ from, block, fromOrdinal }) => (fromOrdinal === undefined ? [] : [{ id: from, block, ordinal: fromOrdinal }])),
    ...kept.flatMap(({ from, block, ordinal }) => (ordinal ? [{ id: from, block, ordinal: ordinal - 1 }] : [])),
  ];
}

/**
 * A step as it is now: by its id, else what stands in its place, unless that is known to have stood elsewhere.
 * @template {{id: string, block: string, ordinal: number, kind: string}} S
 * @param {string} id @param {S[]} steps of the lesson @param {Stood[]} places
 * @returns {S | undefined}
 */
export function stepNow(id, steps, places) {
  const exact = steps.find((step) => step.id === id);
  const was = exact ? null : places.find((place) => place.id === id);
  if (!was) return exact;
  const there = steps.find(({ block, ordinal }) => block === was.block && ordinal === was.ordinal);
  const own = places.find((place) => place.id === there?.id);
  return there && !IDLE.includes(there.kind) && (own?.ordinal ?? was.ordinal) === was.ordinal ? there : undefined;
}

/** @param {Kept} kept one of this lesson @param {Stop[]} steps of the lesson @param {Kept[]} [all] of this lesson @returns {Match} */
export function match(kept, steps, all = []) {
  const places = stood([kept, ...all]);
  const [from, to] = [kept.from, kept.to].map((id) => stepNow(id, steps, places));
  const exact = from?.id === kept.from && to?.id === kept.to;
  // What was gone is back when its own step is, not when another has come into its place.
  if (!from || !to || from === to || (kept.gone && !exact)) return { kept, place: "gone", now: null };
  const same = to.shape === kept.toShape && from.shape === kept.fromShape;
  return { kept, place: exact ? "same" : same ? "moved" : "changed", now: between(kept, from, to) };
}

/** @param {Match} match not of one that was moved @returns {Kept} */
function upToDate({ kept, place, now }) {
  if (place === "same") return { ...kept, ...now, gone: false };
  return { ...kept, ...(now && { fromOrdinal: kept.fromOrdinal ?? now.fromOrdinal }), gone: place === "gone" };
}

/**
 * The records after a lesson was looked at: moved ones under their new ids, those without a place marked, and each step's place
 * and name as they are now.
 * @param {Kept[]} all of the course @param {Match[]} matches of the lesson
 * @returns {Kept[]}
 */
export function settled(all, matches) {
  const found = new Map(matches.map((match) => [match.kept, match]));
  const moved = matches.filter(({ place }) => place === "moved").map(({ kept, now }) => ({ ...kept, ...now }));
  const others = all.filter((kept) => found.get(kept)?.place !== "moved").map((kept) => {
    const match = found.get(kept);
    return match ? upToDate(match) : kept;
  });
  // What was practised under the new ids already goes together with it.
  return joined({ steps: others, ticks: {} }, { steps: moved, ticks: {} }).steps;
}
