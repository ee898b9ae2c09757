// What is sounding and what is about to: strings and ticks put on a context's clock, damped, and stopped.

/** Seconds that a damped string takes to fall silent; and one that is stopped. */
const DAMPED = 0.09;
const STOPPED = 0.03;
/** How loud one string is alone. Of n strings each has 1/sqrt(n) of it, so eight together stay below 1 whatever they do. */
const ALONE = 0.34;

/**
 * @typedef {object} Voice
 * @property {AudioBufferSourceNode} source
 * @property {GainNode} gain
 * @property {number} from seconds on the context's clock
 * @property {boolean} string a string is damped by the next one; a tick is not
 * @property {number} until when it is damped
 */

export class Voices {
  /** @type {Set<Voice>} */
  #sounding = new Set();

  /** @param {BaseAudioContext} context @param {() => void} [ended] told when nothing sounds any more */
  constructor(context, ended = () => undefined) {
    this.context = context;
    this.ended = ended;
    this.out = context.createGain();
    this.out.connect(context.destination);
  }

  /** @param {number} gain from 0 to 1 */
  set level(gain) {
    this.out.gain.value = gain;
  }

  get quiet() {
    return this.#sounding.size === 0;
  }

  /**
   * Plays strings one after another, and damps what rang before.
   * @param {AudioBuffer[]} strings in the order in which they are struck
   * @param {number} at seconds on the context's clock
   * @param {number} spread seconds from each string to the next
   */
  strings(strings, at, spread) {
    this.#damp([...this.#sounding].filter((voice) => voice.string), at, DAMPED);
    const loud = ALONE / Math.sqrt(Math.max(1, strings.length));
    strings.forEach((buffer, place) => this.#play(buffer, at + place * spread, loud, true));
  }

  /** @param {AudioBuffer} buffer @param {number} at */
  tick(buffer, at) {
    this.#play(buffer, at, ALONE, false);
  }

  /** Whatever sounds, or would begin to, is silent soon after. */
  stop() {
    this.#damp(this.#sounding, this.context.currentTime, STOPPED);
  }

  /** @param {Iterable<Voice>} voices @param {number} at @param {number} during seconds */
  #damp(voices, at, during) {
    for (const voice of voices) {
      if (voice.until <= at) continue;
      voice.until = at;
      voice.gain.gain.cancelScheduledValues(at);
      voice.gain.gain.setTargetAtTime(0, at, during / 5);
      // What has not begun by then never begins.
      voice.source.stop(voice.from >= at ? voice.from : at + during);
    }
  }

  /** @param {AudioBuffer} buffer @param {number} from @param {number} loud @param {boolean} string */
  #play(buffer, from, loud, string) {
    const [source, gain] = [this.context.createBufferSource(), this.context.createGain()];
    const voice = { source, gain, from, string, until: Infinity };
    source.buffer = buffer;
    gain.gain.value = loud;
    source.connect(gain).connect(this.out);
    source.addEventListener("ended", () => {
      gain.disconnect();
      this.#sounding.delete(voice);
      if (this.quiet) this.ended();
    });
    source.start(from);
    this.#sounding.add(voice);
  }
}
