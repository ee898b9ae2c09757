// The course's sounds, fetched only when they are asked for: the metronome's click, and the chord of a step.
import { hasAudio, wake } from "../sound/audio.js";

/**
 * @typedef {typeof import("../sound/player.js")} Player
 *
 * @typedef {object} Sounds
 * @property {() => void} ready fetches what is needed, within the tap or key that asked for sound
 * @property {(strong: boolean, inSeconds: number) => void} click
 * @property {(pitches: number[]) => void} strum
 * @property {() => void} stop
 */

/**
 * @param {() => void} failed told where no sound can be made
 * @returns {Sounds}
 */
export function sounds(failed) {
  /** @type {Promise<Player | null> | null} */
  let fetched = null;
  /** @type {Player | null} */
  let player = null;
  const ready = () => {
    // Within the tap or key itself: some browsers let sound begin only then.
    if (hasAudio()) wake().catch(() => undefined);
    fetched ??= fetchPlayer().then((found) => { player = found; return found; });
    return fetched.then((found) => { if (!found) failed(); return found; });
  };
  return {
    ready,
    click: (strong, inSeconds) => player?.click(strong, player.now() + Math.max(0, inSeconds)),
    strum: (pitches) => { ready().then((found) => found?.strum(pitches)).catch(failed); },
    stop: () => player?.stop(),
  };
}

/** @returns {Promise<Player | null>} */
async function fetchPlayer() {
  try {
    const found = await import("../sound/player.js");
    return found.available() ? found : null;
  } catch {
    return null;
  }
}
