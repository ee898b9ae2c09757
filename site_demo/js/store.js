// What this browser remembers for the reader: small JSON values in localStorage. Nothing is ever sent.

/** The folder of the site on its host, so that two courses on one host keep apart. @returns {string} */
export function siteRoot() {
  return new URL(document.documentElement.dataset.base ?? ".", location.href).pathname;
}

/**
 * Reads a value.
 * @template T
 * @param {string} name
 * @param {T} otherwise what to give when nothing, or nothing readable, is kept
 * @returns {T}
 */
export function recall(name, otherwise) {
  try {
    const text = localStorage.getItem(name);
    return text === null ? otherwise : JSON.parse(text) ?? otherwise;
  } catch {
    return otherwise;
  }
}

/**
 * Keeps a value. A browser that keeps nothing (private windows, full stores) loses it; the page works all the same, and says
 * so where it matters (js/kept/notice.js hears `keptnothing`).
 * @param {string} name
 * @param {unknown} value null or undefined forgets it
 * @returns {boolean} whether it is kept
 */
export function keep(name, value) {
  try {
    if (value === null || value === undefined) localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(value));
    return true;
  } catch {
    document.documentElement.dispatchEvent(new CustomEvent("keptnothing", { detail: { name } }));
    return false;
  }
}
