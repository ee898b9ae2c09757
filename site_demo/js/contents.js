// The lesson's table of contents: open beside the lesson on a desk, folded on a phone, the step in view marked.

/** Opens or folds the contents to fit the window, and marks the current step as the reader goes. */
export function bindContents() {
  const contents = document.querySelector(".contents");
  if (!contents) return;
  const folds = [...contents.querySelectorAll("details")];
  const desk = window.matchMedia("(min-width: 64rem)");
  const fit = () => folds.forEach((fold) => { fold.open = desk.matches; });
  fit();
  desk.addEventListener("change", fit);
  document.documentElement.addEventListener("stepchange", (event) => {
    if (event instanceof CustomEvent) mark(contents, event.detail.id);
  });
  contents.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("a")) fit();
  });
}

/** @param {Element} contents @param {string} id */
function mark(contents, id) {
  for (const link of contents.querySelectorAll("a")) {
    if (link.getAttribute("aria-current") === "page") continue;
    if (decodeURIComponent(link.hash.slice(1)) === id) {
      link.setAttribute("aria-current", "location");
      keepInSight(contents, link);
    } else {
      link.removeAttribute("aria-current");
    }
  }
}

/** Scrolls the column, never the page. @param {Element} contents @param {Element} link */
function keepInSight(contents, link) {
  const frame = contents.getBoundingClientRect();
  const place = link.getBoundingClientRect();
  if (place.top < frame.top) contents.scrollTop -= frame.top - place.top + 40;
  else if (place.bottom > frame.bottom) contents.scrollTop += place.bottom - frame.bottom + 40;
}
