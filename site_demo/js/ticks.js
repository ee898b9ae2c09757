// The practice list's ticks: remembered by each box's data-key, cleared by one control.
import { keep, recall, siteRoot } from "./store.js";

/** Shows the ticks kept for this course and keeps new ones. */
export function bindTicks() {
  const boxes = [...document.querySelectorAll("main input[type=checkbox][data-key]")];
  if (!boxes.length) return;
  const name = `fingerpost:ticks:${siteRoot()}`;
  const ticks = recall(name, {});
  for (const box of boxes) {
    box.checked = ticks[box.dataset.key] === true;
    box.addEventListener("change", () => keepTicks(name, boxes));
  }
  for (const list of new Set(boxes.map((box) => box.closest("ul, ol")))) addClearing(name, boxes, list);
}

/** @param {string} name @param {HTMLInputElement[]} boxes */
function keepTicks(name, boxes) {
  const ticks = recall(name, {});
  for (const box of boxes) {
    if (box.checked) ticks[box.dataset.key] = true;
    else delete ticks[box.dataset.key];
  }
  keep(name, ticks);
  document.documentElement.dispatchEvent(new CustomEvent("tickschange"));
}

/** A control under a list, there only while something in the list is ticked. */
function addClearing(name, boxes, list) {
  const words = document.querySelector("template[data-words=clear-ticks]");
  if (!list || !words) return;
  const control = words.content.firstElementChild.cloneNode(true);
  const own = boxes.filter((box) => list.contains(box));
  const show = () => { control.hidden = !own.some((box) => box.checked); };
  control.addEventListener("click", () => {
    own.forEach((box) => { box.checked = false; });
    keepTicks(name, boxes);
    own[0].focus();
  });
  document.documentElement.addEventListener("tickschange", show);
  list.after(control);
  show();
}
