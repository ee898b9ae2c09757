// Strums of the course's own computed strings, on which the listening's limits were set. It is measured on another (steel.js).
import { pluckedString } from "../../../theme/js/sound/string.js";

/**
 * @param {{midi: number, muted?: boolean}[]} strings lowest first @param {() => number} chance @param {number} rate @param {number} seconds
 * @returns {Float32Array}
 */
export function strum(strings, chance, rate, seconds = 1.6) {
  const out = new Float32Array(Math.round(seconds * rate));
  const between = (/** @type {number} */ low, /** @type {number} */ high) => low + (high - low) * chance();
  const spread = between(0.008, 0.03);
  strings.forEach(({ midi, muted }, order) => {
    const sound = pluckedString(midi + between(-0.08, 0.08), rate);
    const level = 10 ** (between(-8, 0) / 20);
    const from = Math.round((0.12 + order * spread) * rate);
    const fall = muted ? 1 / (between(0.02, 0.05) * rate) : 0;
    for (let at = 0; at < sound.length && from + at < out.length; at += 1) out[from + at] += level * sound[at] * Math.exp(-at * fall);
  });
  const noise = 10 ** (-between(30, 55) / 20);
  return out.map((one) => one + noise * (2 * chance() - 1));
}
