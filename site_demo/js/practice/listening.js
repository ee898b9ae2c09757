// Listens to the keyboard while the practice view is open; what a key means is keys.js's to say.
import { actionOf } from "./keys.js";

/** @typedef {import("./keys.js").Action} Action @typedef {import("./keys.js").Focus} Focus */

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
    if (event.key !== "Tab") event.preventDefault();
    taken = event.key;
    act(action);
  };
  // A button with the focus would be pressed by the same key when it comes up.
  const up = (/** @type {KeyboardEvent} */ event) => {
    if (event.key === taken && event.key !== "Tab") event.preventDefault();
    taken = "";
  };
  document.addEventListener("keydown", down);
  document.addEventListener("keyup", up);
  return () => {
    document.removeEventListener("keydown", down);
    document.removeEventListener("keyup", up);
  };
}

/** @param {HTMLElement} view @returns {Focus} */
function focusOf(view) {
  const focused = document.activeElement;
  if (!focused || !view.contains(focused)) return "none";
  if (focused.matches("input, select, textarea")) return "field";
  if (focused.matches("button, a, summary")) return "control";
  return focused.matches("[data-words-of-step]") ? "words" : "none";
}

/** @param {HTMLElement} view @returns {import("./keys.js").Letters} */
function lettersOf(view) {
  const pairs = (view.dataset.letters ?? "").split(",").map((pair) => pair.trim().split(":"));
  return Object.fromEntries(pairs);
}
