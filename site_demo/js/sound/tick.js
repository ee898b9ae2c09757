// The metronome's sound as samples, computed: a short tone that dies away, higher where the beat is strong.

/** Seconds, Hz, and how loud against a string. */
const LENGTH = 0.04;
const PITCH = { strong: 1568, weak: 1047 };
const LEVEL = { strong: 0.9, weak: 0.6 };

/** @param {boolean} strong @param {number} rate samples a second @returns {Float32Array<ArrayBuffer>} from silence to silence */
export function tick(strong, rate) {
  const kind = strong ? "strong" : "weak";
  const length = Math.round(LENGTH * rate);
  return Float32Array.from({ length }, (_, at) => {
    const rise = Math.min(1, at / (0.001 * rate));
    const fall = Math.exp((-7 * at) / length) * Math.min(1, (length - 1 - at) / (0.005 * rate));
    return LEVEL[kind] * rise * fall * Math.sin((2 * Math.PI * PITCH[kind] * at) / rate);
  });
}
