// Where the reader stopped: the step last read, kept by its stable id, and one control that leads back to it.
import { nameOf } from "./names.js";
import { part, parts, thePart } from "./parts.js";
import { askedToPractise, practiseAddress } from "./practice/address.js";
import { keep, recall, siteRoot } from "./store.js";

/**
 * @typedef {object} Place
 * @property {string} page address of the lesson, from the site's folder
 * @property {string} title the lesson's title, as text
 * @property {string} step stable id of the step
 * @property {string} block id of its block
 * @property {number} ordinal which step of the block, from 0: finds a step whose shape has changed since
 * @property {string} name what the step's arm says, as the course wrote it
 * @property {string} [named] which name that is; earlier versions did not keep it
 * @property {string} [practised] the part of the address that opens the practice view, where the reader left it there
 * @property {{id: string, ordinal: number}} [other] the other step of a change back and forth; earlier versions did not keep it
 */

/** @returns {string} */
const shelf = () => `fingerpost:place:${siteRoot()}`;

/** Where the reader stopped. @returns {Place | null} */
export function placeKept() {
  return recall(shelf(), null);
}

/** Follows the reader through a lesson, and offers the way back. */
export function bindProgress() {
  const place = placeKept();
  if (place?.page !== undefined) offer(place);
  const steps = parts(document, "main .fp-step[id]", HTMLElement);
  if (!steps.length) return;
  follow(steps, (step) => keep(shelf(), placeOf(step)));
  keepPractised(steps, (at) => keep(shelf(), at));
  goToChangedStep(place);
}

/**
 * The practice view covers the lesson, so nothing is scrolled while it is open: it tells where one is when it is left, or the page.
 * @param {HTMLElement[]} steps @param {(place: Place) => void} keepPlace
 */
function keepPractised(steps, keepPlace) {
  document.documentElement.addEventListener("practiceleft", (event) => {
    const { ids } = /** @type {CustomEvent<{ids: string[]}>} */ (event).detail;
    const [place, other] = ids.flatMap((id) => steps.filter((step) => step.id === id)).map(placeOf);
    if (place) keepPlace({ ...place, practised: practiseAddress(ids), ...(other && { other: { id: other.step, ordinal: other.ordinal } }) });
  });
}

/** @param {HTMLElement} step @returns {Place} */
function placeOf(step) {
  const block = step.closest(".fp-block");
  const siblings = [...(block?.querySelectorAll(".fp-step") ?? [step])];
  return {
    page: location.pathname.slice(siteRoot().length),
    title: document.querySelector("h1")?.textContent?.trim() ?? document.title,
    step: step.id,
    block: block?.id ?? "",
    ordinal: siblings.indexOf(step),
    ...armOf(step),
  };
}

/** @param {Element} step */
function armOf(step) {
  const label = part(step, ".fp-arm .fp-chord", HTMLElement);
  return { name: label?.dataset.built ?? label?.textContent?.trim() ?? "", named: label?.dataset.name };
}

/**
 * Says which step is read: the last whose arm has passed the upper third of the window. A page that was only opened is
 * not yet read, so the place is kept from the first scroll on.
 * @param {HTMLElement[]} steps @param {(step: HTMLElement) => void} read
 */
function follow(steps, read) {
  const passed = new Map();
  /** @type {HTMLElement | null} */
  let current = null;
  let scrolled = false;
  window.addEventListener("scroll", () => { scrolled = true; }, { passive: true, once: true });
  const watcher = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) passed.set(target, isIntersecting);
    const step = steps.findLast((one) => passed.get(one));
    if (!step || step === current) return;
    current = step;
    document.documentElement.dispatchEvent(new CustomEvent("stepchange", { detail: { id: step.id } }));
    if (scrolled) read(step);
  }, { rootMargin: "0px 0px -66% 0px" });
  steps.forEach((step) => watcher.observe(step));
}

/** Shows the page's carry-on control where there is somewhere to carry on. @param {Place} place */
function offer(place) {
  const link = part(document, "a[data-carry-on]", HTMLAnchorElement);
  if (!link) return;
  const elsewhere = location.pathname !== siteRoot() + place.page;
  if (link.dataset.carryOn === "lesson" && (elsewhere || (place.ordinal < 1 && !place.practised))) return;
  link.href = siteRoot() + place.page + (place.practised && askedToPractise(place.practised) ? place.practised : "#" + encodeURIComponent(place.step));
  thePart(link, "[data-say]", HTMLElement).textContent = link.dataset.words ?? "";
  const title = link.dataset.carryOn === "lesson" ? "" : place.title;
  thePart(link, "[data-where]", HTMLElement).replaceChildren(title, title && place.name ? ", " : "", nameOf(place.name, place.named));
  link.hidden = false;
}

/** A link to a step whose shape has changed since leads to the step in its place. @param {Place | null} place */
function goToChangedStep(place) {
  const wanted = decodeURIComponent(location.hash.slice(1));
  if (!wanted || document.getElementById(wanted) || place?.step !== wanted) return;
  const block = document.getElementById(place.block);
  (block?.querySelectorAll(".fp-step")[place.ordinal] ?? block)?.scrollIntoView();
}
