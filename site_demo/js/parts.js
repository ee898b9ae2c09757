// Finds the parts of a page that a script works on, each checked to be of the kind that the script takes it for.

/**
 * The first part of that kind, or null where there is none, or where it is of another kind.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {{new (): T}} kind
 * @returns {T | null}
 */
export function part(within, selector, kind) {
  const found = within.querySelector(selector);
  return found instanceof kind ? found : null;
}

/**
 * The part that the templates promise.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {{new (): T}} kind
 * @returns {T}
 * @throws {Error} where the page has none: a template and its script have come apart
 */
export function thePart(within, selector, kind) {
  const found = part(within, selector, kind);
  if (!found) throw new Error(`The page lacks ${selector}`);
  return found;
}

/**
 * All parts of that kind, in the order of the page.
 * @template {Element} T
 * @param {ParentNode} within
 * @param {string} selector
 * @param {{new (): T}} kind
 * @returns {T[]}
 */
export function parts(within, selector, kind) {
  return [...within.querySelectorAll(selector)].flatMap((found) => (found instanceof kind ? [found] : []));
}
