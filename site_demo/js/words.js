// The words that scripts say, as the templates have them, so that a translation touches no script.
import { part } from "./parts.js";

/** @typedef {(which: string, values?: Record<string, string | number>) => string} Say */

/** @param {ParentNode} within @returns {Say} the words by name, {curly} parts filled in */
export function sayFrom(within) {
  return (which, values = {}) => {
    const words = part(within, `[data-word="${which}"]`, HTMLElement)?.textContent ?? "";
    return words.replace(/\{(\w+)\}/gu, (_, name) => String(values[name] ?? ""));
  };
}
