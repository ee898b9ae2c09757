// A trial: listens to one strum of a shape and names one fault, or says that it can't tell. It never says that all is well.
import { thePart } from "../parts.js";
import { heldOf } from "../sound/score.js";
import { listen } from "../tuner/microphone.js";
import { sayFrom } from "../words.js";
import { StrumCatcher } from "./catch.js";
import { covered, fault } from "./fault.js";

/** Seconds after which nobody is waited for any longer. */
const PATIENCE = 15;

/**
 * @param {HTMLElement} place the trial's own part of the view
 * @param {HTMLElement} step
 * @param {{asks: () => void, mark: (strings: number[]) => void}} to asks: told before it listens, so that nothing else does;
 *   mark: told the strings that can't be heard in a strum
 * @returns {() => void} no longer waits for a strum
 */
export function tryStrum(place, step, { asks, mark }) {
  const say = sayFrom(place);
  const says = thePart(place, "[data-strum-says]", HTMLElement);
  const control = thePart(place, "button[data-strum]", HTMLButtonElement);
  const chord = heldOf(step);
  const hidden = covered(chord);
  thePart(place, "[data-strum-covered]", HTMLElement).textContent = hidden.length ? say("covered", { strings: hidden.join(", ") }) : say("none-covered");
  mark(hidden);
  control.hidden = hidden.length > chord.length - 2;
  const sayOfMicrophone = sayFrom(place.closest("dialog") ?? document);
  const shown = control.textContent ?? "";
  /** @type {AbortController | null} while a strum is waited for */
  let waiting = null;
  const wait = async () => {
    const mine = waiting = new AbortController();
    asks();
    // Turned off, it would lose the focus; and the next key gives up.
    control.setAttribute("aria-busy", "true");
    control.textContent = sayOfMicrophone("stop");
    try {
      says.textContent = say("wait");
      const heard = await oneStrum(place, mine.signal);
      says.textContent = heard ? told(fault(heard.sound, heard.rate, chord), say) : say("nothing");
    } catch (error) {
      says.textContent = sayOfMicrophone(error instanceof Error ? error.message : "unable");
    }
    control.textContent = shown;
    control.setAttribute("aria-busy", "false");
    waiting = null;
  };
  control.addEventListener("click", () => (waiting ? waiting.abort() : wait()));
  return () => waiting?.abort();
}

/**
 * @param {HTMLElement} place @param {AbortSignal} givenUp
 * @returns {Promise<{sound: Float32Array, rate: number} | null>} null where nothing was struck, or who struck has left
 */
async function oneStrum(place, givenUp) {
  /** @type {(heard: {sound: Float32Array, rate: number} | null) => void} */
  let finish = () => undefined;
  const heard = new Promise((/** @type {typeof finish} */ resolve) => { finish = resolve; });
  /** @type {StrumCatcher | null} */
  let catcher = null;
  const listening = await listen((samples) => {
    catcher ??= new StrumCatcher(listening.rate);
    const sound = catcher.push(samples);
    if (sound) finish({ sound, rate: catcher.rate });
  }, () => finish(null));
  const leave = () => finish(null);
  const tired = setTimeout(leave, 1000 * PATIENCE);
  const over = new AbortController();
  addEventListener("pagehide", leave, { signal: over.signal });
  document.addEventListener("visibilitychange", leave, { signal: over.signal });
  place.closest("dialog")?.addEventListener("close", leave, { signal: over.signal });
  // The browser may have asked for so long that nobody is here any more.
  if (document.hidden || !place.isConnected || givenUp.aborted) leave();
  givenUp.addEventListener("abort", leave, { signal: over.signal });
  try {
    return /** @type {{sound: Float32Array, rate: number} | null} */ (await heard);
  } finally {
    clearTimeout(tired);
    over.abort();
    listening.stop();
  }
}

/** @param {import("./fault.js").Named | null} named @param {import("../words.js").Say} say */
function told(named, say) {
  if (!named) return say("cant-tell");
  if (named.fault === "silent") return say("silent-string", { n: named.string });
  return named.fret ? say("other-fret", { n: named.string, fret: named.fret }) : say("other-open", { n: named.string });
}
