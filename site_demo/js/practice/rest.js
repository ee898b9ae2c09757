// A quiet word after the author's number of minutes: let the hand hang. It covers nothing and stops nothing.
import { thePart } from "../parts.js";
import { restIsDue, workedOn, workedSoFar } from "./rested.js";

/** @typedef {import("./rested.js").Worked} Worked */

const STORE = "fingerpost:worked";
/** Seconds from one look at the clock to the next. */
const TICK = 5;

/**
 * Counts the minutes while the view is open and seen, and shows the prompt when they are over.
 * @param {HTMLElement} view its data-rest-after and data-rest-for are minutes
 * @param {import("../words.js").Say} say
 * @returns {() => void} stops counting
 */
export function mindRest(view, say) {
  const [after, rest] = [Number(view.dataset.restAfter), Number(view.dataset.restFor)];
  const prompt = thePart(view, "[data-rest]", HTMLElement);
  let worked = { ...workedSoFar(kept(), Date.now(), rest), at: Date.now() };
  const look = () => {
    const now = Date.now();
    worked = document.visibilityState === "visible" ? workedOn(worked, now, TICK * 2) : worked;
    worked = workedSoFar(worked, now, rest);
    keep(worked);
    if (restIsDue(worked, after) && prompt.hidden) show(view, prompt, say, after, rest);
  };
  const timer = window.setInterval(look, TICK * 1000);
  thePart(view, "[data-rested]", HTMLButtonElement).addEventListener("click", () => {
    worked = { seconds: 0, at: Date.now() };
    keep(worked);
    prompt.hidden = true;
    thePart(view, "h2", HTMLElement).focus();
  });
  look();
  return () => window.clearInterval(timer);
}

/** @param {HTMLElement} view @param {HTMLElement} prompt @param {import("../words.js").Say} say @param {number} after @param {number} rest */
function show(view, prompt, say, after, rest) {
  prompt.hidden = false;
  const minutes = (/** @type {number} */ n) => say(n === 1 ? "minute" : "minutes", { n });
  const words = say("rest", { minutes: minutes(after), for: rest ? say("rest-for", { minutes: minutes(rest) }) : "" });
  thePart(view, "[data-rest-says]", HTMLElement).textContent = words;
}

/** @returns {unknown} */
function kept() {
  try {
    return JSON.parse(sessionStorage.getItem(STORE) ?? "null");
  } catch {
    return null;
  }
}

/** @param {Worked} worked */
function keep(worked) {
  try {
    sessionStorage.setItem(STORE, JSON.stringify(worked));
  } catch {
    // The minutes of this page are counted all the same.
  }
}
