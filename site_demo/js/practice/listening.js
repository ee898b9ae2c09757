// Listens to the keyboard while the practice view is open; what a key means is keys.js's to say.
import { actionOf } from "./keys.js";

/** @typedef {import("./keys.js").Action} Action @typedef {import("./keys.js").Focus} Focus */

const WORDS = "[data-words-of-step]";
/** Keys that pause and still do what the browser has them do: to go on by tab, to reload. */
const BROWSERS = /^(Tab|F\d+)$/u;

/**
 * @param {HTMLElement} view its data-letters are the letters of actions: `run:p, clean:c`
 * @param {() => boolean} running
 * @param {() => import("./keys.js").Groups} groups
 * @param {(action: Action) => void} act
 * @returns {() => void} stops listening
 */
export function listen(view, running, groups, act) {
  const letters = lettersOf(view);
  let taken = "";
  const down = (/** @type {KeyboardEvent} */ event) => {
    const action = actionOf(event, { running: running(), focus: focusOf(view) }, groups(), letters);
    if (!action || (event.repeat && action !== "next" && action !== "back")) return;
    if (!BROWSERS.test(event.key)) event.preventDefault();
    taken = event.key;
    act(action);
  };
  // A button with the focus would be pressed by the same key when it comes up.
  const up = (/** @type {KeyboardEvent} */ event) => {
    if (event.key === taken && !BROWSERS.test(event.key)) event.preventDefault();
    taken = "";
  };
  const handsOff = letGo(view);
  document.addEventListener("keydown", down);
  document.addEventListener("keyup", up);
  return () => {
    handsOff();
    document.removeEventListener("keydown", down);
    document.removeEventListener("keyup", up);
  };
}

/**
 * What a finger or a mouse has been on keeps no keys: a foot on a page-turner would turn nothing from then on. The tab key
 * goes on from there all the same.
 * @param {HTMLElement} view @returns {() => void} stops it
 */
function letGo(view) {
  let pointed = false;
  const pointer = () => { pointed = true; };
  const key = () => { pointed = false; };
  const drop = (/** @type {Event} */ { type }) => {
    const focused = document.activeElement;
    // A list that has just been opened is let go when something is chosen.
    const done = `input, ${WORDS}${type === "change" ? ", select" : ""}`;
    if (pointed && focused instanceof HTMLElement && focused.matches(done)) focused.blur();
  };
  view.addEventListener("pointerdown", pointer);
  view.addEventListener("click", drop);
  view.addEventListener("change", drop);
  document.addEventListener("keydown", key);
  return () => document.removeEventListener("keydown", key);
}

/** @param {HTMLElement} view @returns {Focus} */
function focusOf(view) {
  const focused = document.activeElement;
  if (!focused || !view.contains(focused)) return "none";
  if (focused.matches("button, a, summary, input[type=checkbox]")) return "control";
  if (focused.matches("input, select, textarea")) return "field";
  return focused.matches(WORDS) ? "words" : "none";
}

/** @param {HTMLElement} view @returns {import("./keys.js").Letters} */
function lettersOf(view) {
  const pairs = (view.dataset.letters ?? "").split(",").map((pair) => pair.trim().split(":"));
  return Object.fromEntries(pairs);
}
