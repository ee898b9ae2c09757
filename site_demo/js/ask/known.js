// What the steps of a page tell of themselves to the questions: names, notes, and which of them are new.
import { part, parts } from "../parts.js";

/** @param {ParentNode} page @returns {import("./questions.js").Known[]} */
export function knownSteps(page) {
  return parts(page, ".fp-block", HTMLElement).flatMap((block) => {
    const steps = parts(block, ".fp-step", HTMLElement).map(knownStep);
    return steps.map((step, at) => ({ ...step, before: steps[at - 1]?.name ?? "", notesBefore: steps[at - 1]?.notes ?? [] }));
  });
}

/** @param {HTMLElement} step */
function knownStep(step) {
  const named = parts(step, ".fp-strings td [data-name]", HTMLElement);
  const nameOf = (/** @type {HTMLElement | null} */ one) => one?.dataset.name ?? "";
  return {
    id: step.id,
    kind: step.dataset.kind ?? "",
    name: nameOf(part(step, ".fp-arm .fp-chord", HTMLElement)),
    notes: named.map(nameOf),
    newNotes: named.filter((one) => one.closest(".fp-new")).map(nameOf),
  };
}
