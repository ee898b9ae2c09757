// How strongly a stretch of sound holds single frequencies: a windowed Fourier sum at just those that are asked for.

/** Cents around a partial in which it is looked for: a guitar is never quite in tune. */
const SEARCHED = [-30, -20, -10, 0, 10, 20, 30];

/**
 * @param {Float32Array} sound @param {number} from sample @param {number} length samples @param {number} rate samples a second
 */
export function spectrum(sound, from, length, rate) {
  const windowed = new Float32Array(length);
  // Hann: what lies further off than a few Hz is hardly heard through it.
  for (let at = 0; at < length; at += 1) windowed[at] = (sound[from + at] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / length));
  const known = new Map();

  /** Amplitude at one frequency; 1 for a steady sine of amplitude 1. @param {number} hertz @returns {number} */
  function at(hertz) {
    const found = known.get(hertz);
    if (found !== undefined) return found;
    const amount = goertzel(windowed, hertz, rate) * (4 / length);
    known.set(hertz, amount);
    return amount;
  }

  return {
    at,
    /** The most that is found near a frequency. @param {number} hertz @returns {number} */
    near: (hertz) => Math.max(...SEARCHED.map((cents) => at(hertz * 2 ** (cents / 1200)))),
  };
}

/** Goertzel's recurrence (1958). @param {Float32Array} samples @param {number} hertz @param {number} rate @returns {number} */
function goertzel(samples, hertz, rate) {
  const turn = (2 * Math.PI * hertz) / rate;
  const twice = 2 * Math.cos(turn);
  let one = 0;
  let two = 0;
  for (let at = 0; at < samples.length; at += 1) {
    const next = samples[at] + twice * one - two;
    two = one;
    one = next;
  }
  return Math.sqrt(Math.max(one * one + two * two - twice * one * two, 0));
}
