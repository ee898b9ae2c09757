// Catches one strum out of a stream of samples: from a moment before it is struck until it has rung long enough. Pure.

/** Seconds kept before a strum, and after it. */
const BEFORE = 0.15;
const AFTER = 1.1;
/** A strum is so much louder than what went before, and louder than a quiet room. */
const LOUDER = 5;
const LEAST = 0.004;
/** Every second sample is left out: nothing above 3 kHz is looked at, and half the samples take half the time. */
const EVERY = 2;

/** Give it samples; it gives the strum when it has one. */
export class StrumCatcher {
  /** @type {number[]} */
  #kept = [];
  #room = LEAST;
  /** @type {number | null} */
  #struckAt = null;

  /** @param {number} rate samples a second of what comes in */
  constructor(rate) {
    this.rate = rate / EVERY;
  }

  /** @param {Float32Array} samples @returns {Float32Array | null} the strum, at `rate` */
  push(samples) {
    const thinned = Array.from({ length: Math.floor(samples.length / EVERY) }, (_, at) => (samples[EVERY * at] + samples[EVERY * at + 1]) / EVERY);
    this.#kept.push(...thinned);
    const loud = Math.sqrt(thinned.reduce((sum, one) => sum + one * one, 0) / Math.max(thinned.length, 1));
    if (this.#struckAt === null && loud > Math.max(LEAST, LOUDER * this.#room)) this.#struckAt = Math.max(0, this.#kept.length - thinned.length);
    if (this.#struckAt === null) {
      this.#room = Math.max(LEAST / LOUDER, 0.9 * this.#room + 0.1 * loud);
      const most = Math.round(BEFORE * this.rate);
      if (this.#kept.length > most) this.#kept.splice(0, this.#kept.length - most);
      return null;
    }
    return this.#kept.length - this.#struckAt >= AFTER * this.rate ? Float32Array.from(this.#kept) : null;
  }
}
