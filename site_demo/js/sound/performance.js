// Plays a score from its beginning until it ends or is stopped, and tells which step sounds.
import { wake } from "./audio.js";
import * as player from "./player.js";

/** Seconds: the first sound comes so soon after its strings are computed; others are put on the clock so early. */
const LEAD = 0.1;
const EARLY = 1.2;

/**
 * @typedef {object} Playing
 * @property {() => void} stop
 * @property {Promise<void>} over when it has ended or been stopped; rejected where no sound can be made
 */

/**
 * @param {import("./score.js").Score} score
 * @param {(step: Element | null) => void} [shows] told the step as it begins to sound, and null at the end
 * @returns {Playing}
 */
export function play(score, shows = () => undefined) {
  const gone = new AbortController();
  const over = perform(score, shows, gone.signal).finally(() => shows(null));
  return { stop: () => { gone.abort(); player.stop(); }, over };
}

/** @param {import("./score.js").Score} score @param {(step: Element | null) => void} shows @param {AbortSignal} gone @returns {Promise<void>} */
async function perform({ sounds, length }, shows, gone) {
  player.stop();
  const [first] = sounds;
  if (!first) return;
  await Promise.all([wake(), player.prepare(first.pitches)]);
  const rest = player.prepare(sounds.flatMap((sound) => sound.pitches));
  if (gone.aborted) return;
  const begin = player.now() + LEAD;
  for (const sound of sounds) {
    await reached(begin + sound.at - EARLY, gone);
    if (sound !== first) await rest;
    if (gone.aborted) return;
    await player.strum(sound.pitches, { at: begin + sound.at, up: sound.up });
    reached(begin + sound.at, gone).then(() => { if (!gone.aborted) shows(sound.step); });
  }
  await reached(begin + length, gone);
}

/** Waits for a time of the audio clock. @param {number} time @param {AbortSignal} gone @returns {Promise<void>} */
async function reached(time, gone) {
  while (!gone.aborted && player.now() < time) {
    const wait = Math.min(250, Math.max(4, (time - player.now()) * 1000));
    await new Promise((resolve) => setTimeout(resolve, wait));
  }
}
