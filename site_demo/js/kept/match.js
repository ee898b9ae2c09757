// Finds what is kept in a lesson as it is now: by the step's id, then by block and ordinal. Pure.
/**
 * @typedef {import("./record.js").Kept} Kept
 * @typedef {import("./record.js").Change} Change
 * @typedef {{id: string, block: string, ordinal: number, kind: string, shape: string, name: string}} Stop what is asked of a step
 *
 * @typedef {object} Match
 * @property {Kept} kept
 * @property {"same" | "moved" | "changed" | "gone"} place moved: other ids, the same shapes; gone: nothing in its place
 * @property {Change | null} now the change as it is now
 */

/** Steps that no hand changes to. */
const IDLE = ["rest", "passing"];

/** @param {Kept} kept one of this lesson @param {Stop[]} steps of the lesson @returns {Match} */
export function match(kept, steps) {
  const [from, to] = [kept.from, kept.to].map((id) => steps.find((step) => step.id === id));
  if (from && to) return { kept, place: "same", now: between(kept, from, to) };
  const block = steps.filter((step) => step.block === kept.block);
  const there = to ?? block[kept.ordinal];
  const before = from ?? block[block.indexOf(there) - 1];
  if (!there || !before || there === before || IDLE.includes(there.kind)) return { kept, place: "gone", now: null };
  const same = there.shape === kept.toShape && before.shape === kept.fromShape;
  return { kept, place: same ? "moved" : "changed", now: between(kept, before, there) };
}

/** @param {{page: string, title: string}} lesson @param {Stop} from @param {Stop} to @returns {Change} */
export function between({ page, title }, from, to) {
  return {
    page, title, block: to.block, ordinal: to.ordinal, from: from.id, to: to.id,
    fromShape: from.shape, toShape: to.shape, fromName: from.name, toName: to.name,
  };
}

/**
 * The records after a lesson was looked at: moved ones under their new ids, those without a place marked.
 * @param {Kept[]} all of the course @param {Match[]} matches of the lesson
 * @returns {Kept[]}
 */
export function settled(all, matches) {
  const after = new Map(matches.map(({ kept, place, now }) => [kept, place === "moved" && now ? { ...kept, ...now } : { ...kept, gone: place === "gone" }]));
  return all.map((kept) => after.get(kept) ?? kept);
}
