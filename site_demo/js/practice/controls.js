// What the large areas say: back, keep time, next; and, when a round is over, not clean and clean in their places.
import { part, parts, thePart } from "../parts.js";
import { write } from "../write.js";

/**
 * @typedef {import("./steps.js").Step} Step
 * @typedef {object} Shown
 * @property {Step | null} back the step that Back leads to
 * @property {Step | null} next
 * @property {string} nextShort the short form of the move to it
 * @property {boolean} running
 * @property {string} tempo as it is said
 * @property {string} stopped why time is no longer kept, "" where it is, or never was here
 * @property {string} asking the question after a round, "" while none is asked
 * @property {string} tally what is said of clean tries of this change; "" where it is no change
 */

/**
 * Whether Back and Next lead anywhere.
 * @param {HTMLElement} view @param {boolean} back @param {boolean} next
 */
export function lead(view, back, next) {
  can(view, "[data-back]", back);
  can(view, "[data-next]", next);
}

/**
 * A control that is turned off would lose the focus; one that does nothing keeps it.
 * @param {HTMLElement} view @param {string} which @param {boolean} does
 */
export function can(view, which, does) {
  thePart(view, which, HTMLButtonElement).setAttribute("aria-disabled", String(!does));
}

/** @param {HTMLElement} view @param {import("../words.js").Say} say @param {Shown} shown */
export function label(view, say, shown) {
  const asking = shown.asking !== "";
  lead(view, asking || shown.back !== null, asking || shown.next !== null);
  control(view, "[data-back]", say(asking ? "unclean" : "back"), asking ? "" : shown.back?.name ?? "");
  control(view, "[data-next]", say(asking ? "clean" : "next"), asking ? "" : toNext(shown));
  control(view, "[data-run]", say(shown.running ? "pause" : "keep"), shown.tempo);
  view.toggleAttribute("data-running", shown.running);
  view.toggleAttribute("data-asking", asking);
  tries(view, shown);
}

/** @param {Shown} shown */
function toNext({ next, nextShort }) {
  return [next?.name, nextShort].filter(Boolean).join(" · ");
}

/** @param {HTMLElement} view @param {string} which @param {string} text @param {string} beside */
function control(view, which, text, beside) {
  const button = thePart(view, which, HTMLButtonElement);
  write(thePart(button, "[data-label]", HTMLElement), text);
  const small = part(button, "[data-to]", HTMLElement);
  if (small) write(small, beside);
}

/** @param {HTMLElement} view @param {Shown} shown */
function tries(view, { asking, tally, stopped }) {
  const row = thePart(view, "[data-tries]", HTMLElement);
  row.hidden = !asking && !tally && !stopped;
  write(thePart(row, "[data-stopped]", HTMLElement), stopped);
  write(thePart(row, "[data-tally]", HTMLElement), asking || tally);
  for (const answer of parts(row, "button", HTMLButtonElement)) answer.hidden = !tally;
}
