// Where practice goes next: through the steps, or back and forth between two of them; and which change that was. Pure.

/**
 * @typedef {{block: string, kind: string, shape: string, wayBack: unknown}} Stop what a walk needs to know of a step
 * @typedef {[number, number] | null} Pair the places of two steps to change between, the earlier first
 * @typedef {"there" | "back" | "apart"} Direction there: from the step right before; back: to the step right before
 */

/**
 * The place after this one, or before it; null at either end.
 * @param {number} at
 * @param {1 | -1} by
 * @param {number} count how many steps there are
 * @param {Pair} pair
 * @returns {number | null}
 */
export function neighbour(at, by, count, pair) {
  if (pair) return at === pair[0] ? pair[1] : pair[0];
  const next = at + by;
  return next >= 0 && next < count ? next : null;
}

/**
 * Where a timed walk goes: as `neighbour`, but it ends with the block, since the next may be tuned otherwise.
 * @param {number} at
 * @param {Stop[]} steps
 * @param {Pair} pair
 * @returns {number | null}
 */
export function timedNext(at, steps, pair) {
  const next = neighbour(at, 1, steps.length, pair);
  return next !== null && (pair || steps[next].block === steps[at].block) ? next : null;
}

/**
 * How two steps lie to each other.
 * @param {number} from
 * @param {number} to
 * @param {Stop[]} steps
 * @returns {Direction}
 */
export function direction(from, to, steps) {
  if (steps[from].block !== steps[to].block) return "apart";
  if (to === from + 1) return "there";
  return to === from - 1 && steps[from].wayBack ? "back" : "apart";
}

/**
 * The change that going from one step to another is a try of: a way-point is passed through, so the change begins at the
 * step before it. null where there is none: from another block, out of or into a rest, with the same shape, or onto a
 * way-point.
 * @param {number | null} from
 * @param {number} to
 * @param {Stop[]} steps
 * @returns {[number, number] | null}
 */
export function changeOf(from, to, steps) {
  let begins = from;
  while (begins !== null && begins > 0 && begins < to && steps[begins].kind === "passing") begins -= 1;
  if (begins === null || steps[to].kind === "passing") return null;
  const ends = [steps[begins], steps[to]];
  const idle = ends.some((step) => step.kind === "rest") || ends[0].kind === "passing";
  return idle || ends[0].block !== ends[1].block || ends[0].shape === ends[1].shape ? null : [begins, to];
}

/**
 * Two places as a pair to change between; null where they are no such pair.
 * @param {number} one
 * @param {number} other
 * @param {Stop[]} steps
 * @returns {Pair}
 */
export function pairOf(one, other, steps) {
  const [first, last] = one < other ? [one, other] : [other, one];
  return steps[first] && steps[last] && changeOf(first, last, steps) ? [first, last] : null;
}

/**
 * The pair that a step makes with the one before it that can be changed from.
 * @param {number} at
 * @param {Stop[]} steps
 * @returns {Pair}
 */
export function pairInto(at, steps) {
  const change = at > 0 ? changeOf(at - 1, at, steps) : null;
  return change ? pairOf(change[0], change[1], steps) : null;
}
