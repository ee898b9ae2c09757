// The check that each string of a shape rings: string by string, the student plucks, the page says what it heard.
import { thePart } from "../parts.js";
import { bigPicture } from "../practice/picture.js";
import { stop as silence } from "../sound/hearing.js";
import { heldOf } from "../sound/score.js";
import { frequency } from "../sound/string.js";
import { sayFrom } from "../words.js";
import { ear } from "./ear.js";
import { styles } from "./styles.js";
import { Pluck } from "./verdict.js";

/** Seconds: after a verdict nothing is listened to. */
const PAUSE = 0.4;

/** @typedef {import("../sound/score.js").Held & {item: HTMLElement, verdict: import("./verdict.js").Verdict | null, covered: boolean}} Row */

/** @param {HTMLTemplateElement} template @param {HTMLElement} step */
export async function openRing(template, step) {
  await styles();
  const view = /** @type {HTMLDialogElement} */ (thePart(template.content, "dialog", HTMLDialogElement).cloneNode(true));
  document.body.append(view);
  const name = thePart(step, ".fp-arm .fp-chord", HTMLElement);
  thePart(view, "[data-name]", HTMLElement).append(name.cloneNode(true));
  thePart(view, "[data-picture]", HTMLElement).append(bigPicture(step, "ring-picture"));
  const check = new RingCheck(view, step);
  thePart(view, "[data-close]", HTMLButtonElement).addEventListener("click", () => view.close());
  const left = new AbortController();
  // Who goes back leaves the check.
  addEventListener("popstate", () => view.close(), { signal: left.signal });
  view.addEventListener("close", () => {
    left.abort();
    check.stop();
    view.remove();
  });
  offerTrial(thePart(view, "[data-strum-trial]", HTMLDetailsElement), step, check);
  view.showModal();
  thePart(view, "h2", HTMLElement).focus();
}

/** What listens to a whole strum is fetched when its own part is opened. @param {HTMLDetailsElement} trial @param {HTMLElement} step @param {RingCheck} check */
function offerTrial(trial, step, check) {
  trial.addEventListener("toggle", async () => {
    const { tryStrum } = await import("../listening/strum.js");
    check.besides = tryStrum(trial, step, { asks: () => check.ear.stop(), mark: (strings) => check.mark(strings) });
  }, { once: true });
}

class RingCheck {
  #at = 0;
  /** @type {Pluck | null} */
  #pluck = null;
  #deafUntil = 0;
  /** Ends what else listens: one strum would be taken for a pluck of one string. */
  besides = () => {};

  /** @param {HTMLDialogElement} view @param {HTMLElement} step */
  constructor(view, step) {
    this.view = view;
    this.say = sayFrom(view);
    this.says = thePart(view, "[data-says]", HTMLElement);
    this.rows = rowsOf(step, thePart(view, "[data-strings]", HTMLElement));
    this.ear = ear(this.#control("listen"), this.says, view, {
      lowest: () => frequency(Math.min(...this.rows.map(({ midi }) => midi))),
      hears: (finding, time) => this.#hear(finding, time),
      turned: (on) => this.#turned(on),
      asks: () => this.besides(),
    });
    this.#control("next").addEventListener("click", () => this.#ask(this.#at + 1));
    this.#control("again").addEventListener("click", () => this.#begin());
    this.rows.forEach((row) => this.#write(row));
    this.#offerTone();
  }

  stop() {
    this.ear.stop();
    silence();
  }

  /** @param {number[]} strings which a whole strum covers: each says so */
  mark(strings) {
    for (const row of this.rows) {
      row.covered = strings.includes(row.string);
      this.#write(row);
    }
  }

  /** @param {string} which */
  #control(which) {
    return thePart(this.view, `[data-${which}]`, HTMLButtonElement);
  }

  /** @param {boolean} on */
  #turned(on) {
    for (const which of ["next", "again"]) {
      const control = this.#control(which);
      // A control that goes must not take the focus with it.
      if (!on && document.activeElement === control) this.#control("listen").focus({ preventScroll: true });
      control.hidden = !on;
    }
    if (on) this.#begin();
    else for (const { item } of this.rows) item.removeAttribute("aria-current");
  }

  /** The string that is asked for as it should sound (js/sound/hearing.js plays it); it is not listened to meanwhile. */
  #offerTone() {
    const { midi } = this.rows[this.#at] ?? this.rows[0];
    Object.assign(this.#control("tone").dataset, { hear: "tone", midi: String(midi) });
  }

  #begin() {
    for (const row of this.rows) {
      row.verdict = null;
      this.#write(row);
    }
    this.#ask(0);
  }

  /** @param {number} at @param {string} [before] what is said of the string before */
  #ask(at, before = "") {
    this.#at = at;
    this.#pluck = null;
    this.ear.forget();
    this.#offerTone();
    this.rows.forEach(({ item }, place) => {
      if (place === at) item.setAttribute("aria-current", "step");
      else item.removeAttribute("aria-current");
    });
    const row = this.rows[at];
    if (row) this.#tell(before, this.say("now", { n: row.string }));
    else this.#sum(before);
    (row?.item ?? this.says).scrollIntoView({ block: "nearest" });
  }

  /** No string is left: nothing is listened to any longer. @param {string} before */
  #sum(before) {
    this.ear.stop();
    const ringing = this.rows.filter(({ verdict }) => verdict === "rings").length;
    this.#tell(before, `${this.say("done", { ringing, all: this.rows.length })} ${this.say("stopped")}`);
  }

  /** @param {string} before what is said of the string before; its line in the list says it too @param {string} next */
  #tell(before, next) {
    const said = Object.assign(document.createElement("span"), { className: "ring-said", textContent: before });
    this.says.replaceChildren(...(before ? [said, " "] : []), next);
  }

  /** @param {import("./pitch.js").Finding} finding @param {number} time */
  #hear(finding, time) {
    const row = this.rows[this.#at];
    if (!row || time < this.#deafUntil) return;
    const others = this.rows.filter((other) => other !== row).map(({ midi }) => midi);
    this.#pluck ??= new Pluck({ pitch: row.midi, open: row.open, others });
    const verdict = this.#pluck.hear(finding, time);
    if (!verdict) return;
    [row.verdict, this.#deafUntil] = [verdict, time + PAUSE];
    this.#write(row);
    const said = this.say("said", { n: row.string, verdict: this.#words(row) });
    this.#ask(verdict === "rings" ? this.#at + 1 : this.#at, said);
  }

  /** @param {Row} row */
  #words({ verdict, fret, string }) {
    if (!verdict) return this.say("not-yet");
    return this.say(verdict === "silent" && fret === 0 ? "silent-open" : verdict, { n: string });
  }

  /** @param {Row} row */
  #write(row) {
    const which = this.say(row.fret ? "fretted" : "open-string", { n: row.string, fret: row.fret });
    row.item.dataset.verdict = row.verdict ?? "";
    const name = Object.assign(document.createElement("b"), { textContent: which });
    const strum = Object.assign(document.createElement("small"), { textContent: this.say("in-strum") });
    row.item.replaceChildren(name, `: ${this.#words(row)}`, ...(row.covered ? [" ", strum] : []));
  }
}

/** @param {HTMLElement} step @param {HTMLElement} list gets an item for each string @returns {Row[]} */
function rowsOf(step, list) {
  const rows = heldOf(step).map((held) => ({ ...held, item: document.createElement("li"), verdict: null, covered: false }));
  list.append(...rows.map(({ item }) => item));
  return rows;
}
