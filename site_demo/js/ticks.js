// The practice list's ticks: remembered by each box's data-key, cleared by one control.
import { Afterwards } from "./afterwards.js";
import { part, parts } from "./parts.js";
import { keep, recall, siteRoot } from "./store.js";

/** Shows the ticks kept for this course and keeps new ones. */
export function bindTicks() {
  const boxes = parts(document, "main input[type=checkbox][data-key]", HTMLInputElement);
  if (!boxes.length) return;
  const name = `fingerpost:ticks:${siteRoot()}`;
  const ticks = ticksKept(name);
  const later = new Afterwards();
  for (const box of boxes) {
    box.checked = ticks[keyOf(box)] === true;
    box.addEventListener("change", () => later.put(() => keepTicks(name, boxes)));
  }
  for (const list of new Set(boxes.map((box) => box.closest("ul, ol")))) addClearing(name, boxes, list);
}

/** @param {string} name @returns {Record<string, boolean>} */
function ticksKept(name) {
  return recall(name, {});
}

/** @param {HTMLInputElement} box @returns {string} */
function keyOf(box) {
  return box.dataset.key ?? "";
}

/** @param {string} name @param {HTMLInputElement[]} boxes */
function keepTicks(name, boxes) {
  const ticks = ticksKept(name);
  for (const box of boxes) {
    if (box.checked) ticks[keyOf(box)] = true;
    else delete ticks[keyOf(box)];
  }
  keep(name, ticks);
  document.documentElement.dispatchEvent(new CustomEvent("tickschange"));
}

/**
 * A control under a list, there only while something in the list is ticked.
 * @param {string} name @param {HTMLInputElement[]} boxes @param {Element | null} list
 */
function addClearing(name, boxes, list) {
  const words = part(document, "template[data-words=clear-ticks]", HTMLTemplateElement);
  const control = words && part(words.content, "button", HTMLButtonElement)?.cloneNode(true);
  if (!list || !(control instanceof HTMLButtonElement)) return;
  const own = boxes.filter((box) => list.contains(box));
  const show = () => { control.hidden = !own.some((box) => box.checked); };
  control.addEventListener("click", () => {
    own.forEach((box) => { box.checked = false; });
    keepTicks(name, boxes);
    own[0]?.focus();
  });
  document.documentElement.addEventListener("tickschange", show);
  list.after(control);
  show();
}
