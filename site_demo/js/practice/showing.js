// Shows in the view where one is: the step and its move, what is said aloud, the place in the block, what the large areas say.
import { Afterwards } from "../afterwards.js";
import { Idle } from "../idle.js";
import { part, thePart } from "../parts.js";
import { can, label, lead } from "./controls.js";
import { wayOf } from "./scene.js";
import { Sheets } from "./sheets.js";
import { explain, show, table } from "./stage.js";
import { plainText } from "./steps.js";
import { Address, tellPair, tellWhere } from "./whereabouts.js";

/**
 * @typedef {{here: import("./position.js").Position, running: boolean, asking: boolean, stopped: string}} Now what is to be
 *   shown; stopped: the word for why time is no longer kept, "" where it is, or where one has gone on
 */

/** A movement takes so long, in milliseconds, and no more than this part of a beat. */
const MOVEMENT = 1000;
const OF_A_BEAT = 0.75;
/** So high is what stays in sight above it: css/practice.css, --touch. */
const STAYS = 64;
/** A longer short form is not said beforehand: it would not fit. */
const FITS = 8;

export class Showing {
  #address = new Address();
  #later = new Afterwards();
  #idle = new Idle();
  #calm = window.matchMedia("(prefers-reduced-motion: reduce)");

  /** @param {import("./session.js").Given} given @param {import("./count.js").Count} counted */
  constructor(given, counted) {
    this.given = given;
    this.counted = counted;
    this.live = thePart(given.view, "[data-live]", HTMLElement);
    this.body = thePart(given.view, ".practice-body", HTMLElement);
    this.sheets = new Sheets(thePart(given.view, "[data-pile]", HTMLElement));
  }

  /** A step that one has come to. @param {Now} now */
  come(now) {
    this.#later.drop();
    this.#show(now, now.here.from !== null, () => this.#announce(now));
    // Asked for now, it would have the page laid out twice.
    requestAnimationFrame(() => { this.#scrollUp(); });
  }

  /** To the top of the step; in a very low window, where all of the view scrolls, it comes right under what stays in sight. */
  #scrollUp() {
    this.body.scrollTop = 0;
    this.given.view.scrollTop = this.body.offsetTop - STAYS;
  }

  /** Draws anew. @param {Now} now @param {boolean} moving whether the move is to be seen */
  draw(now, moving) {
    this.#later.catchUp();
    this.sheets.keep([]);
    this.#show(now, moving, () => undefined);
  }

  /**
   * Name and picture come at once, what is read after them with the next frames.
   * @param {Now} now @param {boolean} moving whether the move is to be seen @param {() => void} then
   */
  #show(now, moving, then) {
    const { view, say, settings } = this.given;
    const { scene } = now.here;
    const pictures = this.#calm.matches || !settings.movement;
    const beat = (OF_A_BEAT * 60000) / settings.tempo;
    this.#idle.drop();
    const before = show(view, this.sheets, scene, {
      how: pictures ? "pictures" : moving ? "moving" : "still", duration: now.running ? Math.min(MOVEMENT, beat) : MOVEMENT,
    }, say);
    this.#controls(now);
    this.#later.put(
      () => { this.#where(now); this.#label(now); },
      () => explain(view, scene, before, say),
      () => {
        table(view, scene.step);
        thePart(view, "[data-again]", HTMLButtonElement).hidden = pictures;
        then();
        this.#prepare(now);
      },
    );
  }

  /** What each control would do stands at once: another tap may come before the words. @param {Now} now */
  #controls({ here, asking }) {
    const { view, steps } = this.given;
    lead(view, asking || here.beside(-1) !== null, asking || here.beside(1) !== null);
    can(view, "[data-strum]", here.step.pitches.length > 0);
    tellPair(view, steps, here.at, here.pair);
  }

  /** The pictures of the steps beside this one lie ready when they are asked for. @param {Now} now */
  #prepare({ here, running }) {
    const beside = [running ? here.inTime : here.beside(1), here.beside(-1)];
    const scenes = beside.flatMap((position) => (position ? [position.scene] : []));
    this.sheets.keep([here.scene, ...scenes]);
    this.#idle.put(scenes.map((scene) => () => this.sheets.prepare(scene)));
  }

  /** What to tune; then in the order finger, string, fret, what rings; while time is kept only the move, since there is no time for more. @param {Now} now */
  #announce({ here, running }) {
    const { view, say } = this.given;
    const shape = running ? "" : part(view, "[data-picture] desc", SVGElement)?.textContent ?? "";
    const setup = thePart(view, "[data-setup]", HTMLElement);
    const words = say("announce", { name: here.step.aloud, move: plainText(wayOf(here.scene, say("apart")).move), shape });
    this.tell([...[...setup.children].map((line) => line.textContent), words].join(" "));
  }

  /** Says something to who listens. @param {string} words */
  tell(words) {
    this.#later.catchUp();
    this.live.textContent = words;
  }

  /** A pause catches up with the address. @param {Now} now */
  where(now) {
    this.#later.catchUp();
    this.#where(now);
  }

  /** @param {Now} now */
  #where({ here, running }) {
    const { view, steps, say } = this.given;
    tellWhere(view, say, steps, here.at, here.pair);
    const ids = here.practised.map((step) => step.id);
    if (running) this.#address.hold(ids);
    else this.#address.tell(ids);
  }

  /** All of the step is there at once: nothing below it moves when the words come. */
  settle() {
    this.#later.catchUp();
  }

  /** Nothing of it is to come any more. */
  leave() {
    this.#later.catchUp();
    this.#idle.drop();
    this.#address.leave();
  }

  /** @param {Now} now */
  label(now) {
    this.#later.catchUp();
    this.#label(now);
  }

  /** @param {Now} now */
  #label({ here, running, asking, stopped }) {
    const { view, say, settings } = this.given;
    const [from, to] = here.practised;
    const next = here.beside(1);
    label(view, say, {
      back: here.beside(-1)?.step ?? null,
      next: next?.step ?? null,
      nextShort: next ? shortOf(next) : "",
      running,
      tempo: say("tempo", { n: settings.tempo }),
      stopped: stopped && say(stopped),
      asking: asking && to ? say("asked", { from: from.name, to: to.name }) : "",
      tally: here.change ? this.counted.said(here.change) : "",
    });
  }
}

/** The short form of the move to a step that is to come. @param {import("./position.js").Position} next */
function shortOf(next) {
  const short = plainText(wayOf(next.scene, "").short);
  return short.length > FITS ? "" : short;
}
