// The front page's quiet list of what is due today: a few changes, each a way straight into practising it.
import { part, thePart } from "../parts.js";
import { practiseAddress } from "../practice/address.js";
import { siteRoot } from "../store.js";
import { sayFrom } from "../words.js";
import { dueIn, wasClean } from "./schedule.js";
import { records } from "./shelf.js";
import { changeSaid, keptWords } from "./words.js";

/** @typedef {import("./record.js").Kept} Kept */

/** So many at a time; what is left comes when these are done. */
const SHOWN = 6;

/** Shows the list where something is due. */
export function bindToday() {
  const section = part(document, "[data-today]", HTMLElement);
  const shown = section ? dueIn(records(), Date.now(), SHOWN) : [];
  if (!section || !shown.length) return;
  const say = sayFrom(section);
  const more = dueIn(records(), Date.now()).length - shown.length;
  thePart(section, "ol", HTMLOListElement).replaceChildren(...shown.map((kept) => item(kept, say)));
  thePart(section, "[data-why]", HTMLElement).textContent = say(why(shown, more));
  if (more > 0) thePart(section, "[data-more]", HTMLElement).textContent = say(more === 1 ? "one-more" : "more", { n: more });
  section.hidden = false;
}

/** What the list is, in words that are true of it. @param {Kept[]} shown @param {number} more */
function why(shown, more) {
  if (!more) return shown.length === 1 ? "one" : "all";
  return shown.every(wasClean) ? "some" : "least";
}

/** @param {Kept} change @param {import("../words.js").Say} say */
function item(change, say) {
  const link = document.createElement("a");
  link.href = siteRoot() + change.page + practiseAddress([change.from, change.to]);
  link.append(changeSaid(change, keptWords()));
  const where = document.createElement("small");
  where.textContent = say("where", { title: change.title, clean: change.clean, tries: change.tries });
  const made = document.createElement("li");
  made.append(link, " ", where);
  return made;
}
