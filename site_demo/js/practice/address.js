// The address of the practice view: `#practise=STEP`, or `#practise=FROM,TO` for a change back and forth. Pure.

const MARK = "#practise=";

/**
 * The part of an address that opens the practice view.
 * @param {string[]} steps ids: one step, or the two of a change
 * @returns {string}
 */
export function practiseAddress(steps) {
  return MARK + steps.map(encodeURIComponent).join(",");
}

/**
 * The ids that an address asks to practise; null where it does not ask.
 * @param {string} hash
 * @returns {string[] | null}
 */
export function askedToPractise(hash) {
  if (!hash.startsWith(MARK)) return null;
  return hash.slice(MARK.length).split(",").map(decoded).filter(Boolean);
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/**
 * Where a step is now. A step whose shape has changed since has another id; its block then begins.
 * @param {string} id
 * @param {{id: string, block: string}[]} steps
 * @returns {number} its place among the steps; 0 where the page no longer has its block
 */
export function placeOf(id, steps) {
  const exact = steps.findIndex((step) => step.id === id);
  return exact >= 0 ? exact : Math.max(0, steps.findIndex((step) => id.startsWith(`${step.block}--`)));
}
