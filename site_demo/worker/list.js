// The list of a build's files: what may be believed of it, and which of them are wanted. Pure.

/**
 * @typedef {object} Listed
 * @property {string} path from the course's folder
 * @property {number} size in bytes
 * @property {string} sha256 in hexadecimal digits
 * @property {boolean} [frame] whether every page needs it
 * @property {string[]} [needs] paths of what this page loads besides
 *
 * @typedef {{build: string, files: Listed[]}} List files in the order in which they are kept
 */

const VERSION = 1;
const DIGEST = /^[0-9a-f]{64}$/u;

/**
 * @param {unknown} found what the host answered
 * @returns {List | "serving" | null} serving: an author's own view of a course; null: no list that this worker can read
 */
export function listIn(found) {
  const { version, serving, build, files } = Object(found);
  if (version !== VERSION) return null;
  if (serving === true) return "serving";
  return DIGEST.test(build) && Array.isArray(files) && files.every(isListed) ? { build, files } : null;
}

/** @param {unknown} file @returns {file is Listed} */
function isListed(file) {
  const { path, size, sha256, needs } = Object(file);
  return typeof path === "string" && Number.isSafeInteger(size) && DIGEST.test(sha256) && (needs === undefined || Array.isArray(needs));
}

/**
 * The files that are wanted, in the order of the list.
 * @param {List} list
 * @param {{whole: boolean, pages: string[]}} wish
 * @returns {Listed[]}
 */
export function wanted({ files }, { whole, pages }) {
  if (whole) return files;
  const asked = files.filter(({ path, frame }) => frame || pages.includes(path));
  const paths = new Set(asked.flatMap(({ path, needs = [] }) => [path, ...needs]));
  return files.filter(({ path }) => paths.has(path));
}

/** @param {Listed[]} files @returns {number} bytes */
export function sizeOf(files) {
  return files.reduce((sum, { size }) => sum + size, 0);
}

/**
 * The file that an address shows. A folder shows its index.html.
 * @param {URL} address
 * @param {URL} scope the course's folder
 * @returns {string}
 */
export function pathOf(address, scope) {
  const path = decoded(address.pathname.slice(scope.pathname.length));
  return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}

/**
 * The address that a host shows a file at.
 * @param {string} path
 * @param {URL} scope the course's folder
 * @returns {string}
 */
export function addressOf(path, scope) {
  const shown = path.replace(/(^|\/)index\.html$/u, "$1");
  return new URL(shown.split("/").map(encodeURIComponent).join("/"), scope).href;
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
