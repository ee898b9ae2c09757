// Wide tables and code scroll inside their own frame: where one really does, the keyboard can get at it.

/** Makes every frame that overflows focusable and named, and takes that back when it fits again. */
export function bindScrollers() {
  const frames = [...document.querySelectorAll(".wide, main pre")];
  const check = () => frames.forEach(makeReachable);
  check();
  window.addEventListener("resize", check, { passive: true });
}

/** @param {Element} frame */
function makeReachable(frame) {
  const overflows = frame.scrollWidth > frame.clientWidth + 1;
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
