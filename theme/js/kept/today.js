// The front page's quiet list of what is due today: a few changes, each a way straight into practising it.
import { part, thePart } from "../parts.js";
import { practiseAddress } from "../practice/address.js";
import { siteRoot } from "../store.js";
import { due, tally } from "./tries.js";
import { changeSaid, keptWords } from "./words.js";

/** So many at a time; what is left comes when these are done. */
const SHOWN = 6;

/** Shows the list where something is due. */
export function bindToday() {
  const section = part(document, "[data-today]", HTMLElement);
  const changes = section ? due(Date.now()) : [];
  if (!section || !changes.length) return;
  thePart(section, "ol", HTMLOListElement).replaceChildren(...changes.slice(0, SHOWN).map(item));
  const more = changes.length - SHOWN;
  if (more > 0) thePart(section, "[data-more]", HTMLElement).textContent = keptWords()(more === 1 ? "one-more" : "more", { n: more });
  section.hidden = false;
}

/** @param {import("./record.js").Change} change */
function item(change) {
  const say = keptWords();
  const link = document.createElement("a");
  link.href = siteRoot() + change.page + practiseAddress([change.from, change.to]);
  link.append(changeSaid(change, say));
  const where = document.createElement("small");
  where.textContent = say("where", { title: change.title, ...tally(change) });
  const made = document.createElement("li");
  made.append(link, " ", where);
  return made;
}
