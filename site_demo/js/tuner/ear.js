// One button that starts and stops listening, and says in plain words why it can't.
import { sayFrom } from "../words.js";
import { listen } from "./microphone.js";
import { PitchFinder } from "./pitch.js";

/**
 * @typedef {object} Ear
 * @property {() => void} stop lets the microphone go, or no longer asks for it
 * @property {() => void} forget another string comes
 * @property {() => boolean} open whether it listens
 */

/**
 * @param {HTMLButtonElement} control
 * @param {HTMLElement} says
 * @param {ParentNode} words
 * @param {{lowest: () => number, hears: (finding: import("./pitch.js").Finding, time: number) => void, turned: (on: boolean) => void, asks?: () => void}} to
 *   lowest: Hz, of the lowest string; hears: each finding, and its time in seconds of sound; asks: told before the browser is asked
 * @returns {Ear}
 */
export function ear(control, says, words, { lowest, hears, turned, asks = () => undefined }) {
  const say = sayFrom(words);
  const shown = control.textContent ?? "";
  /** @type {import("./microphone.js").Listening | null} */
  let listening = null;
  /** @type {PitchFinder | null} */
  let finder = null;
  let heard = 0;
  let asking = false;
  let wanted = false;
  let leaving = new AbortController();
  const turn = (/** @type {boolean} */ on, /** @type {string} */ word) => {
    control.textContent = on ? say("stop") : shown;
    says.textContent = say(word);
    turned(on);
  };
  const over = (/** @type {string} */ word) => {
    listening = null;
    leaving.abort();
    turn(false, word);
  };
  const stop = () => {
    wanted = false;
    if (!listening) return;
    listening.stop();
    over("stopped");
  };
  // Out of sight, out of hearing.
  const mindLeaving = () => {
    leaving = new AbortController();
    const { signal } = leaving;
    document.addEventListener("visibilitychange", () => { if (document.hidden) stop(); }, { signal });
    addEventListener("pagehide", stop, { signal });
  };
  const take = (/** @type {Float32Array} */ samples) => {
    if (!listening) return;
    if (document.querySelector("[data-sounding]")) {
      finder?.forget();
      return;
    }
    finder ??= new PitchFinder(listening.rate, lowest());
    heard += samples.length / listening.rate;
    for (const finding of finder.push(samples)) hears(finding, heard);
  };
  // A control that is turned off would lose the focus, and the next key could not stop what the first began.
  const ask = (/** @type {boolean} */ on) => {
    asking = on;
    control.setAttribute("aria-disabled", String(on));
  };
  const start = async () => {
    if (asking) return;
    [finder, heard, wanted] = [null, 0, true];
    asks();
    ask(true);
    try {
      listening = await listen(take, () => over("gone"));
      mindLeaving();
      turn(true, "listening");
      // The browser may have asked for so long that nobody is here any more, or that something else listens.
      if (!wanted || document.hidden || !control.isConnected) stop();
    } catch (error) {
      says.textContent = say(error instanceof Error ? error.message : "unable");
    }
    ask(false);
  };
  control.addEventListener("click", () => (listening ? stop() : start()));
  return { stop, forget: () => finder?.forget(), open: () => listening !== null };
}
