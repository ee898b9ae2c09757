// The switches of the View panel: which hand, how the neck lies, light or dark, size of the text.
import { Afterwards } from "./afterwards.js";
import { part } from "./parts.js";
import { keep, recall } from "./store.js";
import { Waiting } from "./waiting.js";

const STORE = "fingerpost:view";
const root = document.documentElement;
/** Binds the panel's radio buttons to the attributes of <html>, and remembers them. */
export function bindView() {
  const panel = part(document, "[data-panel=view]", HTMLElement);
  if (!panel) return;
  panel.hidden = false;
  showCurrent(panel);
  followChoices(panel);
  const details = panel.closest("details");
  if (!details) return;
  closeOnLeaving(details);
  hastenTaps(details);
}

/** The tap is answered by its button; the page, most of which the panel covers, follows right after. @param {HTMLElement} panel */
function followChoices(panel) {
  const later = new Afterwards();
  /** @type {Record<string, string>} */
  let chosen = {};
  panel.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    chosen[target.name] = target.value;
    later.put(() => {
      choose(chosen);
      chosen = {};
    });
  });
}

/**
 * While the panel is open, what it changes is drawn only where it can be seen. Laid out beforehand, it opens at once.
 * @param {HTMLDetailsElement} details
 */
function hastenTaps(details) {
  const later = new Afterwards();
  const waiting = new Waiting();
  details.addEventListener("toggle", () => later.put(() => (details.open ? waiting.begin() : waiting.endByAndBy())));
  globalThis.requestIdleCallback?.(() => details.lastElementChild?.getBoundingClientRect());
}

/**
 * @param {Record<string, string>} chosen by its name: hand, view, light, text, or what of the names (js/names.js). Empty: as
 *   the page was built, or as the device says
 */
function choose(chosen) {
  for (const [name, value] of Object.entries(chosen)) {
    if (value) root.dataset[name] = value;
    else delete root.dataset[name];
  }
  keep(STORE, { ...recall(STORE, {}), ...chosen });
  root.dispatchEvent(new CustomEvent("viewchange"));
}

/** @param {Element} panel */
function showCurrent(panel) {
  const [notes, sevenths, diminished, minor] = (root.dataset.builtNames ?? "").split(" ");
  /** @type {Record<string, string | undefined>} */
  const built = { hand: root.dataset.builtHand, view: root.dataset.builtView, notes, sevenths, diminished, minor };
  for (const input of panel.querySelectorAll("input")) {
    input.checked = input.value === (root.dataset[input.name] ?? built[input.name] ?? "");
  }
}

/** Escape and a press elsewhere close the panel. @param {HTMLDetailsElement} details */
function closeOnLeaving(details) {
  details.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !details.open) return;
    details.open = false;
    details.querySelector("summary")?.focus();
  });
  document.addEventListener("pointerdown", ({ target }) => {
    if (target instanceof Node && !details.contains(target)) details.open = false;
  });
}
