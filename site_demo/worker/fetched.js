// Fetches a file of a build and makes sure that it is that very file.
import { addressOf } from "./list.js";
import { SCOPE } from "./state.js";

/** @typedef {import("./list.js").Listed} Listed */

/** The host has another file there than the list says, or none: it is being changed, or it changes what it sends. */
export class OtherFile extends Error {}

/**
 * @param {Listed} file
 * @returns {Promise<Response>}
 * @throws {OtherFile} and what `fetch` throws where the host is out of reach
 */
export async function fetched(file) {
  // What the page has just loaded is at hand; only where that is another file is the host asked again.
  for (const cache of /** @type {RequestCache[]} */ (["default", "reload"])) {
    const answer = await fetch(addressOf(file.path, SCOPE), { cache, credentials: "same-origin" });
    if (!answer.ok) continue;
    const bytes = await answer.arrayBuffer();
    if (bytes.byteLength === file.size && (await digest(bytes)) === file.sha256) return plain(bytes, answer);
  }
  throw new OtherFile(file.path);
}

/** An answer without the marks of how it came, such as a redirection, which no page may be opened from. @param {ArrayBuffer} bytes @param {Response} answer */
function plain(bytes, answer) {
  return new Response(bytes, { headers: { "Content-Type": answer.headers.get("Content-Type") ?? "application/octet-stream" } });
}

/** @param {ArrayBuffer} bytes */
async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
