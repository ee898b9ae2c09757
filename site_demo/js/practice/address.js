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
