// "Keep the whole course": says how large it is beforehand, how far it has come, and what stood in its way.
import { part, thePart } from "../parts.js";
import { sayFrom } from "../words.js";
import { listen, wish } from "./link.js";

/** @typedef {import("./link.js").Standing} Standing */

/** Binds the section, where the page has one and the browser can keep a course. */
export async function bindWhole() {
  const section = part(document, "[data-whole]", HTMLElement);
  const serving = part(document, "[data-notices]", HTMLElement)?.dataset.serving !== undefined;
  if (!section || serving || !navigator.serviceWorker) return;
  const control = thePart(section, "[data-keep-whole]", HTMLButtonElement);
  bindSaid(section);
  control.addEventListener("click", () => {
    if (keeps(control)) return;
    // Turned off altogether it would lose the focus.
    control.setAttribute("aria-disabled", "true");
    // The browser then doesn't clear the course away when room gets short.
    navigator.storage?.persist?.().catch(() => undefined);
    wish({ kind: "keep", whole: true });
  });
  document.documentElement.addEventListener("forgotten", () => { wish({ kind: "forget" }); });
  await wish({ kind: "ask" });
}

/** @param {HTMLElement} section */
function bindSaid(section) {
  const bar = thePart(section, "progress", HTMLProgressElement);
  const say = sayFrom(section);
  const tell = (/** @type {string} */ text) => { thePart(section, "[data-says]", HTMLElement).textContent = text; };
  let whole = false;
  // What was still on its way when all was forgotten is no news of the course any more.
  let forgotten = false;
  document.documentElement.addEventListener("forgotten", () => {
    forgotten = true;
    bar.hidden = true;
    tell("");
  });
  thePart(section, "[data-keep-whole]", HTMLButtonElement).addEventListener("click", () => { forgotten = false; });
  listen((said) => {
    if (said.kind === "standing") {
      whole = said.whole;
      showStanding(section, said);
    } else if (forgotten) {
      return;
    } else if (said.kind === "progress" && (whole || keeps(thePart(section, "[data-keep-whole]", HTMLButtonElement)))) {
      Object.assign(bar, { max: said.all, value: said.done, hidden: said.done === said.all });
      tell(say("progress", { done: megabytes(said.done), all: megabytes(said.all) }));
    } else if (said.kind === "end" && said.whole) {
      bar.hidden = true;
      tell(said.end === "kept" ? "" : say(said.end));
      wish({ kind: "ask" });
    }
  });
}

/** @param {HTMLElement} section @param {Standing} standing */
function showStanding(section, { reachable, whole, all, missing }) {
  const say = sayFrom(section);
  const control = thePart(section, "[data-keep-whole]", HTMLButtonElement);
  const complete = reachable ? missing === 0 : whole;
  const which = !reachable ? "no-size" : complete ? "complete" : missing < all ? "rest" : "size";
  const size = thePart(section, "[data-size]", HTMLElement);
  size.textContent = whole && !reachable ? "" : say(which, { all: megabytes(all), missing: megabytes(missing) });
  control.setAttribute("aria-disabled", "false");
  const focused = document.activeElement === control;
  control.hidden = !reachable || complete;
  section.hidden = false;
  // What the control did is told where it stood.
  if (focused && control.hidden) focusOn(size);
}

/** @param {HTMLButtonElement} control @returns {boolean} whether the whole course is being fetched */
function keeps(control) {
  return control.getAttribute("aria-disabled") === "true";
}

/** @param {HTMLElement} place */
function focusOn(place) {
  place.tabIndex = -1;
  place.focus();
}

/** @param {number} bytes */
function megabytes(bytes) {
  const digits = { minimumFractionDigits: 1, maximumFractionDigits: 1 };
  return Math.max(0.1, bytes / 1_000_000).toLocaleString(document.documentElement.lang, digits);
}
