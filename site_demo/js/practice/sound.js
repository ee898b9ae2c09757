// The course's sounds, fetched only when they are asked for: the metronome's click, a step's chord or its own strokes.
import { hasAudio, wake } from "../sound/audio.js";

/**
 * @typedef {typeof import("../sound/player.js")} Player
 *
 * @typedef {object} Sounds
 * @property {() => void} ready fetches what is needed, within the tap or key that asked for sound
 * @property {(strong: boolean, inSeconds: number) => void} click
 * @property {(step: import("./steps.js").Step, tempo: number) => void} hear one strum, or the author's strokes
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
  /** Takes back what is sounding, or is about to. */
  let takeBack = () => undefined;
  const stop = () => {
    takeBack();
    player?.stop();
  };
  const ready = () => {
    // Within the tap or key itself: some browsers let sound begin only then.
    if (hasAudio()) wake().catch(() => undefined);
    fetched ??= fetchPlayer().then((found) => { player = found; return found; });
    return fetched.then((found) => { if (!found) failed(); return found; });
  };
  return {
    ready,
    click: (strong, inSeconds) => player?.click(strong, player.now() + Math.max(0, inSeconds)),
    hear: (step, tempo) => {
      stop();
      const gone = new AbortController();
      takeBack = () => { gone.abort(); };
      ready().then((found) => {
        if (!found || gone.signal.aborted) return undefined;
        return step.pattern ? strokes(step, tempo, gone.signal) : found.strum(step.pitches);
      }).catch(failed);
    },
    stop,
  };
}

/**
 * The author's strokes, as long as the step lasts.
 * @param {import("./steps.js").Step} step @param {number} tempo beats a minute @param {AbortSignal} gone
 */
async function strokes({ element }, tempo, gone) {
  const [{ play }, { musicOf }] = await Promise.all([import("../sound/performance.js"), import("../sound/score.js")]);
  if (gone.aborted) return;
  const playing = play(musicOf([element], tempo));
  gone.addEventListener("abort", playing.stop);
  await playing.over;
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
