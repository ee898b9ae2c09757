// The switches of the View panel: which hand, how the neck lies, light or dark, size of the text.
import { part } from "./parts.js";
import { keep, recall } from "./store.js";
import { waitFarOff } from "./waiting.js";

const STORE = "fingerpost:view";
const root = document.documentElement;
/** Milliseconds after which a panel that was shut has gone from the screen. */
const SHUT = 100;

/** Binds the panel's radio buttons to the attributes of <html>, and remembers them. */
export function bindView() {
  const panel = part(document, "[data-panel=view]", HTMLElement);
  if (!panel) return;
  panel.hidden = false;
  showCurrent(panel);
  panel.addEventListener("change", ({ target }) => {
    if (target instanceof HTMLInputElement) choose(target.name, target.value);
  });
  const details = panel.closest("details");
  if (!details) return;
  closeOnLeaving(details);
  hastenTaps(details);
}

/** While the panel is open, what it changes is drawn only where it can be seen. @param {HTMLDetailsElement} details */
function hastenTaps(details) {
  let end = () => {};
  details.addEventListener("toggle", () => {
    if (details.open) end = waitFarOff();
    else setTimeout(end, SHUT);
  });
}

/**
 * @param {string} name hand, view, light, text, or what of the names (js/names.js)
 * @param {string} value empty: as the page was built, or as the device says
 */
function choose(name, value) {
  if (value) root.dataset[name] = value;
  else delete root.dataset[name];
  keep(STORE, { ...recall(STORE, {}), [name]: value });
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
