// The ways into the practice view: its controls in the lesson and its address. The view itself is fetched when asked for.
import { Afterwards } from "../afterwards.js";
import { part, parts } from "../parts.js";
import { askedToPractise, practiseAddress } from "./address.js";

/** Shows the controls, which do nothing without scripts, and follows the address. */
export function bindPractice() {
  const template = part(document, "template[data-practice]", HTMLTemplateElement);
  if (!template || !HTMLDialogElement.prototype.showModal) return;
  const follow = follower(template);
  const later = new Afterwards();
  const openers = parts(document, "button[data-practise]", HTMLButtonElement);
  for (const opener of openers) {
    opener.hidden = false;
    opener.addEventListener("click", () => {
      opener.ariaBusy = "true";
      later.put(() => {
        history.pushState({ practice: true }, "", practiseAddress(firstStep(opener)));
        follow().finally(() => openers.forEach((one) => { one.ariaBusy = null; }));
      });
    });
  }
  window.addEventListener("popstate", follow);
  follow();
}

/** The first step of the control's own block, or of the lesson. @param {Element} opener @returns {string[]} */
function firstStep(opener) {
  const step = part(opener.closest(".fp-block") ?? document, ".fp-step", HTMLElement);
  return step ? [step.dataset.step ?? step.id] : [];
}

/** @param {HTMLTemplateElement} template @returns {() => Promise<void>} opens, goes on or closes, as the address says */
function follower(template) {
  /** @type {import("./view.js").Practice | null} */
  let open = null;
  const follow = async () => {
    const [{ openPractice }] = askedToPractise(location.hash) && !open ? await fetched() : [{ openPractice: null }];
    const wanted = askedToPractise(location.hash);
    if (wanted && open) open.goTo(wanted);
    else if (wanted && openPractice) open = openPractice(template, wanted, leave);
    else if (!wanted && open) {
      const step = open.close();
      open = null;
      land(step);
    }
  };
  const leave = () => {
    // Where this page put the view's address, going back leaves none behind; a link from elsewhere has no lesson before it.
    if (history.state?.practice) history.back();
    else {
      history.replaceState(null, "", location.pathname + location.search);
      follow();
    }
  };
  return follow;
}

/** The view's module, once its styles are there. @returns {Promise<[typeof import("./view.js")]>} */
async function fetched() {
  const [view] = await Promise.all([import("./view.js"), styles()]);
  return [view];
}

/** @returns {Promise<unknown>} without them the view is plain, but works */
function styles() {
  const href = new URL("../../css/practice.css", import.meta.url).href;
  const found = parts(document, "link[rel=stylesheet]", HTMLLinkElement).find((link) => link.href === href);
  if (found) return Promise.resolve();
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = href;
  document.head.append(link);
  return new Promise((resolve) => { link.onload = link.onerror = resolve; });
}

/** Back in the lesson at the same step, by sight and by focus. @param {HTMLElement} step */
function land(step) {
  const heading = part(step, ".fp-arm", HTMLElement) ?? step;
  heading.tabIndex = -1;
  heading.addEventListener("blur", () => heading.removeAttribute("tabindex"), { once: true });
  // The browser puts back its own place in the page first.
  requestAnimationFrame(() => {
    step.scrollIntoView({ behavior: "instant", block: "start" });
    heading.focus({ preventScroll: true });
  });
}
