// A stretch of a kept file, as players of sound ask for it (RFC 9110, 14.2): one range of bytes.

/**
 * @param {Response} whole
 * @param {string | null} asked the request's Range
 * @returns {Promise<Response>} the whole where no single range is asked for
 */
export async function ranged(whole, asked) {
  const [, first = "", last = ""] = /^bytes=(\d*)-(\d*)$/u.exec(asked ?? "") ?? [];
  if (!first && !last) return whole;
  const bytes = await whole.arrayBuffer();
  const size = bytes.byteLength;
  const from = first ? Number(first) : Math.max(0, size - Number(last));
  const to = first && last ? Math.min(Number(last), size - 1) : size - 1;
  if (from >= size || from > to) return new Response(null, { status: 416, headers: { "Content-Range": `bytes */${size}` } });
  const type = whole.headers.get("Content-Type") ?? "application/octet-stream";
  const headers = { "Content-Type": type, "Content-Range": `bytes ${from}-${to}/${size}`, "Accept-Ranges": "bytes" };
  return new Response(bytes.slice(from, to + 1), { status: 206, headers });
}
