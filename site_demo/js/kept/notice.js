// Says once, where it is seen, that this browser keeps nothing: what the student does is lost when the page is left.
import { part } from "../parts.js";

/** What is worth a word when it can't be kept; where one has read to is not. */
const MATTERS = /:(steps|ticks):/u;

/** Listens for what could not be kept. */
export function bindNotice() {
  const root = document.documentElement;
  const tell = (/** @type {Event} */ event) => {
    if (!(event instanceof CustomEvent) || !MATTERS.test(event.detail.name)) return;
    const notice = part(document, "[data-notices]", HTMLElement);
    const place = part(document, "dialog[open] [data-notice]", HTMLElement) ?? notice;
    if (!notice || !place) return;
    place.textContent = notice.dataset.keepsNothing ?? "";
    root.removeEventListener("keptnothing", tell);
  };
  root.addEventListener("keptnothing", tell);
}
