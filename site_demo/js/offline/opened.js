// Each page that is opened is kept, so that it opens again without a network; a newer version that has been kept is offered.
import { part, thePart } from "../parts.js";
import { siteRoot } from "../store.js";
import { dismiss, listen, wish } from "./link.js";

/** Has this page kept, once it is read and the browser has time. */
export function bindOffline() {
  const notices = part(document, "[data-notices]", HTMLElement);
  if (!notices || !navigator.serviceWorker) return;
  if (notices.dataset.serving !== undefined) {
    dismiss().catch(() => undefined);
    return;
  }
  listen((said) => {
    if (said.kind === "end" && said.newer) offerNewer(notices);
  });
  const keep = () => { wish({ kind: "keep", page: shown() }); };
  const soon = () => (window.requestIdleCallback ? window.requestIdleCallback(keep, { timeout: 3000 }) : setTimeout(keep, 500));
  if (document.readyState === "complete") soon();
  else window.addEventListener("load", soon, { once: true });
}

/** The file that this page is, from the course's folder. @returns {string} */
function shown() {
  const path = decodeURIComponent(location.pathname.slice(siteRoot().length));
  return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}

/** @param {HTMLElement} notices */
function offerNewer(notices) {
  const words = thePart(document, "template[data-words=newer]", HTMLTemplateElement).content.cloneNode(true);
  if (!(words instanceof DocumentFragment)) return;
  thePart(words, "button", HTMLButtonElement).addEventListener("click", () => location.reload());
  notices.replaceChildren(words);
}
