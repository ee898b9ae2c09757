// Sounds that have been computed, kept for the next time. One string is computed a task, so that no tap has to wait.
import { pluckedString } from "./string.js";
import { tick } from "./tick.js";

/** So many strings are kept; the one not used for longest goes first. About 700 KB each. */
const KEPT = 40;

export class Bank {
  /** @type {Map<string, AudioBuffer>} */
  #kept = new Map();
  /** @type {Promise<unknown>} the end of the queue: never two strings in one task */
  #queue = Promise.resolve();

  /** @param {BaseAudioContext} context whose rate the sounds are computed for */
  constructor(context) {
    this.context = context;
  }

  /** @param {number} midi @returns {Promise<AudioBuffer>} one that is kept waits for no other */
  async string(midi) {
    const key = midi.toFixed(3);
    if (!this.#kept.has(key)) {
      this.#queue = this.#queue.then(() => this.#compute(key, midi));
      await this.#queue;
    }
    return this.#found(key);
  }

  /** @param {string} key @param {number} midi */
  async #compute(key, midi) {
    if (this.#kept.has(key)) return;
    await nextTask();
    this.#keep(key, pluckedString(midi, this.context.sampleRate));
  }

  /** @param {boolean} strong @returns {AudioBuffer} at once: it is short */
  tick(strong) {
    const key = strong ? "strong" : "weak";
    if (!this.#kept.has(key)) this.#keep(key, tick(strong, this.context.sampleRate));
    return this.#found(key);
  }

  /** @param {string} key @returns {AudioBuffer} */
  #found(key) {
    const buffer = /** @type {AudioBuffer} */ (this.#kept.get(key));
    this.#kept.delete(key);
    this.#kept.set(key, buffer);
    return buffer;
  }

  /** @param {string} key @param {Float32Array<ArrayBuffer>} samples */
  #keep(key, samples) {
    const buffer = this.context.createBuffer(1, samples.length, this.context.sampleRate);
    buffer.copyToChannel(samples, 0);
    this.#kept.set(key, buffer);
    const [oldest] = this.#kept.keys();
    if (this.#kept.size > KEPT) this.#kept.delete(oldest);
  }
}

/** @returns {Promise<void>} in a task of its own, after the browser could draw and take taps */
function nextTask() {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
