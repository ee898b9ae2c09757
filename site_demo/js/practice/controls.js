// What the large areas say: back, keep time, next; and, when a round is over, not clean and clean in their places.
import { part, thePart } from "../parts.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {object} Shown
 * @property {Step | null} back the step that Back leads to
 * @property {Step | null} next
 * @property {string} nextShort the short form of the move to it
 * @property {boolean} running
 * @property {string} tempo as it is said
 * @property {string} asking the question after a round, "" while none is asked
 * @property {string} tally what is said of clean tries of this change; "" where it is no change
 */

/** @param {HTMLElement} view @param {import("../words.js").Say} say @param {Shown} shown */
export function label(view, say, shown) {
  const asking = shown.asking !== "";
  control(view, "[data-back]", say(asking ? "unclean" : "back"), asking ? "" : shown.back?.name ?? "", !asking && !shown.back);
  control(view, "[data-next]", say(asking ? "clean" : "next"), asking ? "" : toNext(shown), !asking && !shown.next);
  control(view, "[data-run]", say(shown.running ? "pause" : "keep"), shown.tempo, false);
  view.toggleAttribute("data-running", shown.running);
  view.toggleAttribute("data-asking", asking);
  tries(view, shown);
}

/** @param {Shown} shown */
function toNext({ next, nextShort }) {
  return [next?.name, nextShort].filter(Boolean).join(" · ");
}

/** @param {HTMLElement} view @param {string} which @param {string} text @param {string} beside @param {boolean} off */
function control(view, which, text, beside, off) {
  const button = thePart(view, which, HTMLButtonElement);
  thePart(button, "[data-label]", HTMLElement).textContent = text;
  const small = part(button, "[data-to]", HTMLElement);
  if (small) small.textContent = beside;
  // A control that is turned off would lose the focus; one that does nothing keeps it.
  button.setAttribute("aria-disabled", String(off));
}

/** @param {HTMLElement} view @param {Shown} shown */
function tries(view, { asking, tally }) {
  const row = thePart(view, "[data-tries]", HTMLElement);
  row.hidden = !asking && !tally;
  const words = thePart(row, "[data-tally]", HTMLElement);
  if (words.textContent !== (asking || tally)) words.textContent = asking || tally;
}
