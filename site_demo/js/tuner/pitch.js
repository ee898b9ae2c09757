// Finds the fundamental of a plucked string in a stream of samples: low-pass, decimation, the McLeod pitch method (2005),
// and the median of the last findings. Truth is the fundamental: on a stiff string the overtones are sharp and pull a
// plain detector with them, so the sound is filtered first.

/** Hz above which overtones are taken away; every so manieth sample is kept. */
const CORNER = 450;
const KEEP = 4;
/** Seconds: what one finding looks at, and from one finding to the next. */
const WINDOW = 0.085;
const HOP = 0.03;
/** Hz: no period longer than that of this one is looked for, unless the tuning goes lower. */
const LOWEST = 60;
/** A peak counts that is so high against the highest (McLeod); a finding is believed above this clearness. */
const NEAR_ENOUGH = 0.9;
const CLEAR = 0.85;
/** Below this mean square nothing is heard: about -62 dB of full scale. */
const SILENCE = 6e-7;
/** So many findings make a median. */
const MEDIAN = 7;

/** @typedef {{hertz: number | null, power: number}} Finding hertz: null where no pitch is clear; power: mean square */

export class PitchFinder {
  #at = 0;
  #phase = 0;
  /** @type {number[]} */
  #last = [];

  /** @param {number} rate samples a second @param {number} [lowest] Hz, of the lowest string that may be heard */
  constructor(rate, lowest = LOWEST) {
    this.rate = rate / KEEP;
    this.longest = Math.ceil((this.rate / Math.min(LOWEST, lowest * 0.94)) + 2);
    this.window = new Float32Array(Math.max(Math.round(WINDOW * this.rate), Math.round(this.longest * 2.5)));
    this.filters = [lowPass(CORNER, rate, 0.5412), lowPass(CORNER, rate, 1.3066)];
    this.hop = Math.round(HOP * this.rate);
  }

  /** @param {ArrayLike<number>} samples the next ones @returns {Finding[]} a median for every hop that they complete */
  push(samples) {
    const found = [];
    for (let at = 0; at < samples.length; at++) {
      const smooth = this.filters.reduce((sample, filter) => filter(sample), samples[at]);
      this.#phase = (this.#phase + 1) % KEEP;
      if (this.#phase === 0 && this.#keep(smooth)) found.push(this.#find());
    }
    return found;
  }

  /** Forgets what was found: another string comes. */
  forget() {
    this.#last = [];
  }

  /** @param {number} sample @returns {boolean} whether a hop is complete */
  #keep(sample) {
    this.window[this.#at % this.window.length] = sample;
    this.#at += 1;
    return this.#at >= this.window.length && this.#at % this.hop === 0;
  }

  /** @returns {Finding} */
  #find() {
    const start = this.#at % this.window.length;
    const samples = Float64Array.from({ length: this.window.length }, (_, at) => this.window[(start + at) % this.window.length]);
    const power = samples.reduce((sum, one) => sum + one * one, 0) / samples.length;
    const period = power > SILENCE ? periodOf(samples, this.longest) : null;
    if (period === null) this.#last = [];
    else this.#last = [...this.#last, this.rate / period].slice(-MEDIAN);
    return { hertz: this.#last.length ? median(this.#last) : null, power };
  }
}

/**
 * The period by the McLeod pitch method: the first peak of the normalised square difference that is nearly as high as the
 * highest one, its place between the samples by a parabola.
 * @param {Float64Array} samples
 * @param {number} longest lag
 * @returns {number | null} in samples; null where nothing repeats clearly
 */
export function periodOf(samples, longest) {
  const likeness = likenessOf(samples, longest);
  const peaks = peaksOf(likeness);
  const highest = peaks.reduce((most, at) => Math.max(most, likeness[at]), 0);
  if (highest < CLEAR) return null;
  const first = peaks.find((at) => likeness[at] >= NEAR_ENOUGH * highest) ?? peaks[0];
  const [before, peak, after] = [likeness[first - 1], likeness[first], likeness[first + 1]];
  return first + (before - after) / (2 * (before - 2 * peak + after));
}

/** Normalised square difference for every lag, 1 where the sound repeats itself. @param {Float64Array} samples @param {number} longest */
function likenessOf(samples, longest) {
  const out = new Float64Array(longest + 1);
  let energy = 2 * samples.reduce((sum, one) => sum + one * one, 0);
  for (let lag = 0; lag <= longest; lag++) {
    let product = 0;
    for (let at = 0; at < samples.length - lag; at++) product += samples[at] * samples[at + lag];
    out[lag] = energy > 0 ? (2 * product) / energy : 0;
    energy -= samples[lag] ** 2 + samples[samples.length - 1 - lag] ** 2;
  }
  return out;
}

/** The highest place of each hill above zero, the first hill (about lag 0) left out. @param {Float64Array} likeness @returns {number[]} */
function peaksOf(likeness) {
  const peaks = [];
  let at = 1;
  while (at < likeness.length && likeness[at] > 0) at += 1;
  while (at < likeness.length - 1) {
    while (at < likeness.length && likeness[at] <= 0) at += 1;
    let peak = 0;
    for (; at < likeness.length - 1 && likeness[at] > 0; at++) {
      const top = likeness[at] > likeness[at - 1] && likeness[at] >= likeness[at + 1];
      if (top && (!peak || likeness[at] > likeness[peak])) peak = at;
    }
    if (peak) peaks.push(peak);
    if (at === likeness.length - 1) break;
  }
  return peaks;
}

/** Second-order low-pass by the bilinear transform. @param {number} corner Hz @param {number} rate @param {number} q @returns {(sample: number) => number} */
function lowPass(corner, rate, q) {
  const w = (2 * Math.PI * corner) / rate;
  const alpha = Math.sin(w) / (2 * q);
  const [b, a1, a2] = [(1 - Math.cos(w)) / 2, -2 * Math.cos(w), 1 - alpha].map((one) => one / (1 + alpha));
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  return (x) => {
    const y = b * (x + 2 * x1 + x2) - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y;
  };
}

/** @param {number[]} values */
function median(values) {
  const sorted = [...values].sort((one, other) => one - other);
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
