// Which fingers a shape uses, read from its text: `x32010/-32-1-`. Pure.

/** @param {string} shape @returns {Set<string>} 1 to 4, and T for the thumb */
function fingersOf(shape) {
  return new Set((shape.split("/")[1] ?? "").match(/[1-4T]/gu) ?? []);
}

/**
 * The fingers that are down before and up after.
 * @param {string} before
 * @param {string} after
 * @returns {string[]}
 */
export function fingersLifted(before, after) {
  const now = fingersOf(after);
  return [...fingersOf(before)].filter((finger) => !now.has(finger));
}
