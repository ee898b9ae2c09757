// The tuner: a panel above the tunings of the course; tones by ear, and by microphone how far off each string is.
import { parts, thePart } from "../parts.js";
import { frequency } from "../sound/string.js";
import { bindVolume } from "../sound/controls.js";
import { sayFrom } from "../words.js";
import { ear } from "./ear.js";
import { midiOf, reading } from "./reading.js";
import { styles } from "./styles.js";

/** Seconds: without a sound the last reading stays so long; a verdict has to last so long to be said aloud. */
const STAYS = 2;
const LASTS = 0.8;

/** @typedef {{section: HTMLElement, rows: HTMLTableRowElement[], midi: number[]}} Tuning */

/** @param {HTMLTemplateElement} template */
export async function showTuner(template) {
  await styles();
  const view = /** @type {HTMLElement} */ (thePart(template.content, ".tuner", HTMLElement).cloneNode(true));
  const tunings = parts(document, ".fp-tuning", HTMLElement).map(read);
  if (!tunings.length) return;
  tunings[0].section.before(view);
  bindVolume(view);
  const chosen = chooser(view, tunings);
  const display = displayOf(view, chosen);
  const shown = thePart(view, "[data-reading]", HTMLElement);
  // Both hands are on the guitar: nobody scrolls.
  const look = () => shown.scrollIntoView({ block: "nearest" });
  const hearing = ear(thePart(view, "[data-listen]", HTMLButtonElement), thePart(view, "[data-says]", HTMLElement), view, {
    lowest: () => frequency(Math.min(...tunings.flatMap(({ midi }) => midi))),
    hears: display.show,
    turned: (on) => {
      shown.hidden = !on;
      display.clear();
      if (on) look();
    },
  });
  view.addEventListener("change", () => {
    hearing.forget();
    display.clear();
    if (hearing.open()) look();
  });
}

/** @param {HTMLElement} section @returns {Tuning} */
function read(section) {
  const rows = parts(section, "tr[data-midi]", HTMLTableRowElement);
  return { section, rows, midi: rows.map((row) => Number(row.dataset.midi)) };
}

/** @typedef {{tuning: () => Tuning, wanted: () => number | null}} Chosen */

/** Which tuning, and whether one string only. @param {HTMLElement} view @param {Tuning[]} tunings @returns {Chosen} */
function chooser(view, tunings) {
  const say = sayFrom(view);
  let tuning = tunings.find(({ section }) => `#${section.id}` === location.hash) ?? tunings[0];
  /** @type {HTMLTableRowElement | null} */
  let only = null;
  const mark = () => {
    for (const { rows } of tunings) {
      for (const row of rows) {
        row.classList.toggle("tuner-only", row === only);
        thePart(row, "[data-only]", HTMLButtonElement).setAttribute("aria-pressed", String(row === only));
      }
    }
  };
  const choose = (/** @type {Tuning} */ next, /** @type {HTMLTableRowElement | null} */ row) => {
    [tuning, only] = [next, row];
    for (const input of parts(view, "[data-tunings] input", HTMLInputElement)) input.checked = input.value === next.section.id;
    mark();
    view.dispatchEvent(new Event("change"));
  };
  for (const one of tunings) giveControls(one, say, (row) => choose(one, row === only ? null : row));
  if (tunings.length > 1) offer(view, tunings, tuning, (next) => choose(next, null));
  mark();
  return { tuning: () => tuning, wanted: () => (only ? tuning.rows.indexOf(only) : null) };
}

/** A tone and a choice for each string. @param {Tuning} tuning @param {import("../words.js").Say} say @param {(row: HTMLTableRowElement) => void} chose */
function giveControls({ section, rows }, say, chose) {
  const head = document.createElement("th");
  head.scope = "col";
  head.append(Object.assign(document.createElement("span"), { className: "fp-hidden", textContent: say("tools") }));
  thePart(section, "thead tr", HTMLTableRowElement).append(head);
  for (const row of rows) {
    const cell = row.insertCell();
    cell.className = "tuner-tools";
    const tone = control(say("tone"), { hear: "tone", midi: row.dataset.midi ?? "" });
    const only = control(say("only"), { only: "" });
    only.addEventListener("click", () => chose(row));
    cell.append(tone, only);
    for (const one of [tone, only]) one.setAttribute("aria-label", `${one.textContent}, ${say("which", { n: row.dataset.string ?? "" })}`);
  }
}

/** @param {string} text @param {Record<string, string>} data */
function control(text, data) {
  const made = Object.assign(document.createElement("button"), { type: "button", className: "quiet-control", textContent: text });
  Object.assign(made.dataset, data);
  return made;
}

/** @param {HTMLElement} view @param {Tuning[]} tunings @param {Tuning} chosen @param {(tuning: Tuning) => void} chose */
function offer(view, tunings, chosen, chose) {
  const place = thePart(view, "[data-tunings]", HTMLFieldSetElement);
  place.hidden = false;
  for (const tuning of tunings) {
    const input = Object.assign(document.createElement("input"), { type: "radio", name: "tuning", value: tuning.section.id });
    input.checked = tuning === chosen;
    input.addEventListener("change", () => chose(tuning));
    const label = document.createElement("label");
    const name = document.createElement("span");
    name.append(...thePart(tuning.section, ".fp-title", HTMLElement).cloneNode(true).childNodes);
    label.append(input, " ", name);
    place.append(label);
  }
}

/**
 * Words of a number: those that end with its plural form in the page's language (`-one`, `-few`), where there are such.
 * @param {import("../words.js").Say} say @param {string} language
 * @returns {(which: string, count: number, values: Record<string, number>) => string}
 */
function countedFrom(say, language) {
  const forms = new Intl.PluralRules(language || "en");
  return (which, count, values) => say(`${which}-${forms.select(count)}`, values) || say(which, values);
}

/** What the reading shows. @param {HTMLElement} view @param {Chosen} chosen */
export function displayOf(view, chosen) {
  const say = sayFrom(view);
  const counted = countedFrom(say, document.documentElement.lang);
  const place = (/** @type {string} */ which) => thePart(view, `[data-${which}]`, HTMLElement);
  const [mark, scale] = [place("mark"), place("scale")];
  let last = -Infinity;
  let said = "";
  let since = 0;
  const clear = () => {
    mark.hidden = true;
    delete scale.dataset.heard;
    place("note").textContent = "–";
    for (const which of ["which", "cents"]) place(which).textContent = "";
    place("verdict").textContent = say("pluck");
    [last, said] = [-Infinity, ""];
  };
  const show = (/** @type {import("./pitch.js").Finding} */ { hertz }, /** @type {number} */ time) => {
    if (hertz === null) {
      if (last > -Infinity && time - last > STAYS) clear();
      return;
    }
    last = time;
    const { rows, midi } = chosen.tuning();
    const { string, cents, verdict, place: at } = reading(hertz, midi, chosen.wanted());
    const row = rows[string];
    const [off, semitones] = [Math.abs(Math.round(cents)), Math.round(Math.abs(midiOf(hertz) - midi[string]))];
    put(place("note"), thePart(row, ".fp-tuning-note", HTMLElement));
    const n = row.dataset.string ?? "";
    const words = { verdict: say(verdict), cents: counted(`cents-${verdict}`, verdict.startsWith("far") ? semitones : off, { n: off, semitones }) };
    place("which").textContent = say("which", { n });
    place("verdict").textContent = words.verdict;
    place("cents").textContent = words.cents;
    [mark.hidden, mark.style.left, scale.dataset.heard] = [false, `${at * 100}%`, verdict];
    const now = `${n} ${verdict}`;
    if (now !== said) [said, since] = [now, time];
    else if (time - since > LASTS) {
      since = Infinity;
      place("aloud").textContent = say("aloud", { n, ...words });
    }
  };
  return { show, clear };
}

/** The note as the page shows it, once. @param {HTMLElement} place @param {HTMLElement} from */
function put(place, from) {
  if (place.textContent !== from.textContent) place.replaceChildren(...from.cloneNode(true).childNodes);
}
