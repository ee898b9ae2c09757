// What the student sets for practice, kept in this browser: tempo, beats, sound, movement, and which keys are listened to.
import { part, parts, thePart } from "../parts.js";
import { keep, recall } from "../store.js";

const STORE = "fingerpost:practice";

/** What holds until something else is chosen. */
const BUILT = {
  tempo: 60, beats: 4, countIn: 4, sound: false, movement: true, arrows: true, pages: true, space: true, letters: true,
};

/** @typedef {typeof BUILT} Settings tempo in beats a minute; beats of a step without its own; countIn in beats */

/**
 * Fills the form with what is kept, and keeps what is changed.
 * @param {HTMLFormElement} form
 * @param {(settings: Settings) => void} changed
 * @returns {Settings} always the current ones
 */
export function bindSettings(form, changed) {
  const settings = read();
  for (const field of parts(form, "input", HTMLInputElement)) {
    fill(form, field, settings);
    take(field, settings);
  }
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", ({ target }) => {
    if (!(target instanceof HTMLInputElement)) return;
    take(target, settings);
    fill(form, target, settings);
    keep(STORE, settings);
    changed(settings);
  });
  return settings;
}

/** What is kept, where it is of the kind that it should be. @returns {Settings} */
function read() {
  /** @type {Record<string, unknown>} */
  const kept = Object(recall(STORE, {}));
  const entries = Object.entries(BUILT).map(([name, built]) => [name, typeof kept[name] === typeof built ? kept[name] : built]);
  return Object.fromEntries(entries);
}

/** @param {HTMLFormElement} form @param {HTMLInputElement} field @param {Settings} settings */
function fill(form, field, settings) {
  const value = settings[/** @type {keyof Settings} */ (field.name)];
  if (typeof value === "boolean") field.checked = value;
  else field.value = String(value);
  const shown = part(form, `[data-shown="${field.name}"]`, HTMLOutputElement);
  if (shown) shown.textContent = field.value;
}

/** A field takes only what its limits allow, so what it says is what is kept. @param {HTMLInputElement} field @param {Settings} settings */
function take(field, settings) {
  const value = field.type === "checkbox" ? field.checked : Number(field.value);
  Object.assign(settings, { [field.name]: value });
}

/**
 * Offers the steps to choose two of.
 * @param {HTMLFormElement} form
 * @param {{value: number, text: string}[]} choices value: the step's place
 */
export function offerSteps(form, choices) {
  for (const [at, name] of ["one", "other"].entries()) {
    const options = choices.map(({ value, text }) => new Option(text, String(value)));
    const select = thePart(form, `select[name=${name}]`, HTMLSelectElement);
    select.replaceChildren(...options);
    select.selectedIndex = Math.min(at, options.length - 1);
  }
}
