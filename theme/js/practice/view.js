// The practice view as a whole: puts it in the page, hands each part what it needs, and takes it away again.
import { part, thePart } from "../parts.js";
import { placesKept } from "../kept/places.js";
import { bindVolume } from "../sound/controls.js";
import { Waiting } from "../waiting.js";
import { sayFrom } from "../words.js";
import { write } from "../write.js";
import { askedFor } from "./asked.js";
import { wakefulness } from "./awake.js";
import { listen } from "./listening.js";
import { mindRest } from "./rest.js";
import { Session } from "./session.js";
import { bindSettings, offerSteps } from "./settings.js";
import { sounds } from "./sound.js";
import { readSteps } from "./steps.js";
import { triesKeeper } from "./tries.js";
import { pairOf } from "./walk.js";

/**
 * @typedef {object} Practice an open view
 * @property {(ids: string[]) => void} goTo shows a step, or a change between two
 * @property {() => HTMLElement} close takes the view away; gives the step of the lesson that was shown
 *
 * @typedef {import("./steps.js").Step} Step
 */

/**
 * Opens the view.
 * @param {HTMLTemplateElement} template
 * @param {string[]} ids one step, or the two of a change; none: the first
 * @param {() => void} leave asked for by the student
 * @returns {Practice}
 */
export function openPractice(template, ids, leave) {
  picturesAsChosen();
  const steps = readSteps(document);
  const waiting = new Waiting();
  waiting.begin();
  const copy = /** @type {DocumentFragment} */ (template.content.cloneNode(true));
  const view = thePart(copy, "dialog", HTMLDialogElement);
  document.body.append(view);
  const now = newSession(view, steps);
  const goTo = (/** @type {string[]} */ wanted) => {
    const { at, pair, notice } = askedFor(wanted, steps, placesKept());
    now.begin(at, pair);
    if (notice) now.given.notice(notice);
  };
  bindControls(view, now, leave);
  bindPairs(view, now);
  bindVolume(view);
  const ends = [
    listen(view, () => now.running, () => now.given.settings, (action) => actions(now)[action]()),
    mindRest(view, now.given.say),
    on(document.documentElement, "viewchange", () => {
      picturesAsChosen();
      now.redraw();
    }),
    on(document, "visibilitychange", () => { if (document.hidden) now.pause(); }),
  ];
  view.showModal();
  goTo(ids);
  now.showing.settle();
  thePart(view, "h2", HTMLElement).focus();
  return { goTo, close: () => {
    now.stop();
    ends.forEach((end) => end());
    view.close();
    view.remove();
    waiting.end();
    return now.step.element;
  } };
}

/** The lesson's pictures, which the view copies, all face as the reader chose, also those that are far off. */
function picturesAsChosen() {
  document.documentElement.dispatchEvent(new CustomEvent("picturesneeded"));
}

/** @param {HTMLDialogElement} view @param {Step[]} steps @returns {Session} */
function newSession(view, steps) {
  const say = sayFrom(view);
  const notice = noticeOf(view, say);
  const sound = sounds(() => notice("silent"));
  const awake = wakefulness(() => notice("sleeps"));
  const settings = bindSettings(thePart(view, "form", HTMLFormElement), () => {
    if (settings.sound) sound.ready();
    now.changed();
  });
  const now = new Session({ view, steps, settings, say, notice, sound, awake });
  triesKeeper().then((keeper) => (keeper ? now.count(keeper) : notice("unkept")));
  return now;
}

/**
 * What is said above the controls, and brought into sight, until one goes on; what comes later takes the place of nothing.
 * @param {HTMLElement} view @param {import("../words.js").Say} say @returns {(which: string) => void} "": nothing any more
 */
function noticeOf(view, say) {
  const place = thePart(view, "[data-notice]", HTMLElement);
  /** @type {Set<string>} */
  const said = new Set();
  return (which) => {
    if (which) said.add(say(which));
    else said.clear();
    write(place, [...said].join(" "));
    if (which) place.scrollIntoView({ block: "nearest", behavior: "instant" });
  };
}

/** @param {Session} now @returns {Record<import("./keys.js").Action, () => void>} */
function actions(now) {
  return {
    back: () => now.back(), next: () => now.next(), clean: () => now.rate(true), unclean: () => now.rate(false),
    run: () => now.run(), pause: () => now.pause(),
  };
}

/** @param {HTMLDialogElement} view @param {Session} now @param {() => void} leave */
function bindControls(view, now, leave) {
  /** @type {Record<string, () => void>} */
  const acts = {
    ...actions(now), leave, hurts: () => now.stop(), again: () => now.again(), strum: () => now.hear(), pair: () => now.togglePair(),
    run: () => (now.running ? now.pause() : now.run()), pile: () => (now.running ? now.pause() : now.again()),
  };
  for (const [name, act] of Object.entries(acts)) {
    part(view, `[data-${name}]`, HTMLElement)?.addEventListener("click", () => act());
  }
  view.addEventListener("cancel", (event) => {
    event.preventDefault();
    leave();
  });
}

/** Any two steps of a block may be chosen that are held in different shapes. @param {HTMLDialogElement} view @param {Session} now */
function bindPairs(view, now) {
  const { steps, say } = now.given;
  const form = thePart(view, "form", HTMLFormElement);
  const held = steps.map((step, value) => ({ step, value })).filter(({ step }) => !["rest", "passing"].includes(step.kind));
  offerSteps(form, held.map(({ step, value }) => ({ value, text: say("option", { n: value + 1, name: step.name }) })));
  thePart(form, "[data-set-pair]", HTMLButtonElement).addEventListener("click", () => {
    const [one, other] = ["one", "other"].map((name) => Number(thePart(form, `[name=${name}]`, HTMLSelectElement).value));
    const pair = pairOf(one, other, steps);
    thePart(form, "[data-no-pair]", HTMLElement).textContent = pair ? "" : say("no-pair");
    if (!pair) return;
    thePart(view, ".practice-settings", HTMLDetailsElement).open = false;
    now.begin(pair[0], pair);
    thePart(view, "h2", HTMLElement).focus();
  });
}

/** @param {EventTarget} where @param {string} what @param {() => void} act @returns {() => void} stops listening */
function on(where, what, act) {
  where.addEventListener(what, act);
  return () => where.removeEventListener(what, act);
}
