// The course's sounds: strings computed in the browser, and the metronome's tick. Nothing is made before it is asked for.
//
// Call from within a tap or a key: browsers let no page sound before one. Times are seconds of the audio clock (`now`).
// Where no sound can be made, `available` is false, or a promise is rejected.
import { audio, hasAudio, release, use, wake } from "./audio.js";
import { Bank } from "./bank.js";
import { Voices } from "./voices.js";
import { gainOf, keepVolume, volume } from "./volume.js";

/** Seconds: from string to string of a strum; the least between asking and sounding. */
const SPREAD = 0.028;
const SOON = 0.02;

class Player {
  /** Whatever was asked for before the last stop no longer sounds. */
  #stops = 0;

  constructor() {
    this.context = audio();
    this.voices = new Voices(this.context, () => release(this));
    this.bank = new Bank(this.context);
    this.voices.level = gainOf(volume());
  }

  /** @param {number[]} pitches @param {number | undefined} at @param {number} spread @returns {Promise<void>} */
  async strings(pitches, at, spread) {
    const stops = this.#stops;
    const [buffers] = await Promise.all([Promise.all(pitches.map((pitch) => this.bank.string(pitch))), wake()]);
    if (stops !== this.#stops) return;
    use(this);
    this.voices.strings(buffers, this.#soon(at), spread);
  }

  /** @param {boolean} strong @param {number | undefined} at */
  tick(strong, at) {
    wake().catch(() => undefined);
    use(this);
    this.voices.tick(this.bank.tick(strong), this.#soon(at));
  }

  stop() {
    this.#stops += 1;
    this.voices.stop();
  }

  /** @param {number | undefined} at */
  #soon(at) {
    return Math.max(at ?? 0, this.context.currentTime + SOON);
  }
}

/** @type {Player | null} */
let player = null;

/** @returns {Player} the page's one; made when it is first asked for */
function thePlayer() {
  player ??= new Player();
  return player;
}

/** Whether this browser can make sounds. Makes none. @returns {boolean} */
export function available() {
  return hasAudio();
}

/** @returns {number} seconds on the audio clock */
export function now() {
  return thePlayer().context.currentTime;
}

/**
 * The metronome's tick.
 * @param {boolean} strong
 * @param {number} [at] seconds on the audio clock; at once without it
 */
export function click(strong, at) {
  thePlayer().tick(strong, at);
}

/**
 * Strums strings and damps what rang before.
 * @param {number[]} pitches MIDI numbers, lowest string first; fractions are parts of a semitone
 * @param {{at?: number, spread?: number, up?: boolean}} [options] at: seconds on the audio clock, at once without it;
 *   spread: seconds from string to string; up: from the highest string to the lowest
 * @returns {Promise<void>} once its strings are put on the clock; the first time, each has to be computed
 * @throws {Error} (rejects) where the browser lets no sound begin
 */
export async function strum(pitches, { at, spread = SPREAD, up = false } = {}) {
  if (pitches.length) await thePlayer().strings(up ? [...pitches].reverse() : pitches, at, spread);
}

/**
 * One string alone; damps what rang before.
 * @param {number} midi MIDI number, may be fractional
 * @param {number} [at] seconds on the audio clock; at once without it
 * @returns {Promise<void>} as of `strum`
 */
export async function pluck(midi, at) {
  await thePlayer().strings([midi], at, 0);
}

/** Computes strings beforehand, one a task, so that they can be played on time. @param {number[]} pitches @returns {Promise<void>} */
export async function prepare(pitches) {
  const { bank } = thePlayer();
  await Promise.all([...new Set(pitches)].map((pitch) => bank.string(pitch)));
}

/** Silence, soon after; what was asked for but has not begun never begins. */
export function stop() {
  player?.stop();
}

/** Sets how loud everything is, now and from now on. @param {number} value from 0 to 1 */
export function setVolume(value) {
  keepVolume(value);
  if (player) player.voices.level = gainOf(value);
}
