// What a key does in the practice view. Page-turners send arrows or page keys; each group can be turned off. Pure.

/**
 * @typedef {"next" | "back" | "run" | "pause" | "clean" | "unclean"} Action
 * @typedef {{arrows: boolean, pages: boolean, space: boolean, letters: boolean}} Groups which keys are listened to
 * @typedef {"none" | "control" | "field" | "words"} Focus what has the keyboard's focus: nothing in particular, a
 *   button or link, a field that takes keys itself, or the words, which scroll
 * @typedef {{key: string, shiftKey: boolean, ctrlKey: boolean, altKey: boolean, metaKey: boolean}} Key
 * @typedef {Partial<Record<Action, string>>} Letters the letter of each action, in the language of the page
 */

/** @type {Record<string, [keyof Groups, Action]>} */
const KEYS = {
  ArrowRight: ["arrows", "next"], ArrowDown: ["arrows", "next"], ArrowLeft: ["arrows", "back"], ArrowUp: ["arrows", "back"],
  PageDown: ["pages", "next"], PageUp: ["pages", "back"], " ": ["space", "next"], Enter: ["space", "next"],
};
/** Keys by which the words are scrolled while they have the focus. */
const SCROLLING = new Set(["ArrowDown", "ArrowUp", "PageDown", "PageUp", " "]);
/** Keys that go with others or belong to the device: they pause nothing. */
const APART = /^(Shift|Control|Alt|AltGraph|Meta|CapsLock|Fn|Dead|Unidentified|Process|Audio.*|Media.*|Volume.*|Brightness.*)$/u;

/**
 * @param {Key} event
 * @param {{running: boolean, focus: Focus}} now
 * @param {Groups} groups
 * @param {Letters} letters
 * @returns {Action | null} null: the key is the browser's
 */
export function actionOf(event, { running, focus }, groups, letters) {
  if (event.ctrlKey || event.altKey || event.metaKey || APART.test(event.key)) return null;
  if (running) return "pause";
  if (focus === "field" || (focus === "words" && SCROLLING.has(event.key))) return null;
  const [group, action] = KEYS[event.key] ?? ["letters", letterAction(event.key, letters)];
  if (!action || !groups[group] || (group === "space" && focus !== "none")) return null;
  return group === "space" && event.shiftKey ? "back" : action;
}

/** @param {string} key @param {Letters} letters @returns {Action | null} */
function letterAction(key, letters) {
  const found = Object.entries(letters).find(([, letter]) => letter?.toLowerCase() === key.toLowerCase());
  return found ? /** @type {Action} */ (found[0]) : null;
}
