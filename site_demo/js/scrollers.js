// Wide tables and code scroll inside their own frame: where one really does, the keyboard can get at it.

const FRAMES = ".wide, main pre";

/**
 * Makes every frame that overflows focusable and named, and takes that back when it fits again: as the page is laid out,
 * when a window changes and when a fold opens. An observer is told of sizes when they are known anyway; to ask for them
 * while the page starts would have all of a long lesson laid out at once.
 */
export function bindScrollers() {
  const sizes = new ResizeObserver((changes) => {
    const frames = new Set(changes.map(({ target }) => target.closest(FRAMES)).filter((frame) => frame !== null));
    // All are measured before one is written to.
    const measured = [...frames].map((frame) => ({ frame, overflows: frame.scrollWidth > frame.clientWidth + 1 }));
    measured.forEach(({ frame, overflows }) => makeReachable(frame, overflows));
  });
  for (const frame of document.querySelectorAll(FRAMES)) [frame, ...frame.children].forEach((box) => sizes.observe(box));
}

/** @param {Element} frame @param {boolean} overflows */
function makeReachable(frame, overflows) {
  if (!overflows) {
    for (const name of ["tabindex", "role", "aria-label"]) frame.removeAttribute(name);
    return;
  }
  frame.setAttribute("tabindex", "0");
  frame.setAttribute("role", "group");
  frame.setAttribute("aria-label", nameOf(frame));
}

/** The nearest heading above, since a table without a caption is named by it. @param {Element} frame */
function nameOf(frame) {
  const caption = frame.querySelector("caption")?.textContent;
  if (caption) return caption;
  let place = frame.previousElementSibling;
  while (place && !/^H[1-6]$/.test(place.tagName)) place = place.previousElementSibling;
  return (place ?? document.querySelector("h1"))?.textContent?.trim() ?? document.title;
}
