// Shows the questions' section where a lesson has enough to ask about; the rest is loaded when it is wanted.
import { part, parts, thePart } from "../parts.js";

/** Fewer steps make no question with three answers. */
const FEWEST = 3;

/** Binds the section of parts/ask.html. */
export function bindAsk() {
  const section = part(document, "[data-ask]", HTMLElement);
  if (!section || parts(document, ".fp-step[data-kind=move]", HTMLElement).length < FEWEST) return;
  section.hidden = false;
  thePart(section, "[data-ask-begin]", HTMLButtonElement).addEventListener("click", async () => {
    (await import("./asking.js")).ask(section);
  });
}
