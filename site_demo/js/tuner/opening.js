// The ways to the tuner and to the check that each string rings. What they need is fetched where it is asked for.
import { part, parts } from "../parts.js";
import { hasAudio } from "../sound/audio.js";

/** Makes the page on tuning a tuner, shows the controls of the check, and leads to the tuning of the block that was read. */
export function bindTuner() {
  document.addEventListener("click", ({ target }) => {
    const link = target instanceof Element ? target.closest("a[data-tuner]") : null;
    if (link instanceof HTMLAnchorElement) link.hash = tuningHere();
  });
  if (!hasAudio()) return;
  const panel = part(document, "template[data-tuner-panel]", HTMLTemplateElement);
  if (panel) import("./panel.js").then(({ showTuner }) => showTuner(panel));
  const ring = part(document, "template[data-ring-view]", HTMLTemplateElement);
  if (ring && "showModal" in HTMLDialogElement.prototype) bindRing(ring);
}

/** @param {HTMLTemplateElement} template */
function bindRing(template) {
  for (const control of parts(document, "button[data-ring]", HTMLButtonElement)) {
    const step = control.closest(".fp-step");
    if (!(step instanceof HTMLElement) || !step.dataset.pitches) continue;
    control.hidden = false;
    control.addEventListener("click", async () => {
      const { openRing } = await import("./ring.js");
      openRing(template, step);
    });
  }
}

/** The tuning of the last block above the middle of the screen, as the tuner's page calls it. */
function tuningHere() {
  const blocks = parts(document, ".fp-block[data-tuning]", HTMLElement);
  const read = blocks.filter((block) => block.getBoundingClientRect().top < innerHeight / 2).at(-1) ?? blocks[0];
  return read ? `tuning-${(read.dataset.tuning ?? "").replaceAll(" ", "-")}` : "";
}
