// How long the hand has worked: minutes in the practice view, over all lessons, until it has rested. Pure.

/**
 * @typedef {{seconds: number, at: number}} Worked seconds of practice since the last rest; at: when that was noted, ms
 */

/**
 * What has been worked so far, or nothing where the time since was rest enough.
 * @param {unknown} kept
 * @param {number} now ms
 * @param {number} rest minutes of rest that count as one
 * @returns {Worked}
 */
export function workedSoFar(kept, now, rest) {
  const fresh = { seconds: 0, at: now };
  if (typeof kept !== "object" || kept === null) return fresh;
  const { seconds, at } = /** @type {Partial<Worked>} */ (kept);
  if (typeof seconds !== "number" || typeof at !== "number" || !(seconds >= 0) || !(at <= now)) return fresh;
  return now - at >= Math.max(1, rest) * 60000 ? fresh : { seconds, at };
}

/**
 * Adds the time since it was last noted. A gap longer than a tick was no practice: the device slept.
 * @param {Worked} worked
 * @param {number} now ms
 * @param {number} tick seconds between notes
 * @returns {Worked}
 */
export function workedOn(worked, now, tick) {
  return { seconds: worked.seconds + Math.min(tick, Math.max(0, (now - worked.at) / 1000)), at: now };
}

/**
 * Whether a rest is due.
 * @param {Worked} worked
 * @param {number} minutes the author's; 0: never
 */
export function restIsDue(worked, minutes) {
  return minutes > 0 && worked.seconds >= minutes * 60;
}
