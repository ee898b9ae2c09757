// The page shown in place of one that isn't kept, without a network: lists those that are, and tries again when asked.
import { part, parts } from "../parts.js";
import { siteRoot } from "../store.js";
import { listen, wish } from "./link.js";

/** Leaves of the list of pages those that open now. */
export async function bindNotKept() {
  const page = part(document, "[data-not-kept]", HTMLElement);
  if (!page) return;
  const again = part(page, "a[data-again]", HTMLAnchorElement);
  if (again) again.href = wanted();
  window.addEventListener("online", () => location.replace(wanted()));
  listen((said) => {
    if (said.kind !== "standing") return;
    const kept = new Set(said.pages.map((path) => siteRoot() + path));
    for (const link of parts(page, "li a", HTMLAnchorElement)) {
      const item = link.closest("li");
      if (item) item.hidden = !kept.has(link.pathname);
    }
  });
  await wish({ kind: "ask" });
}

/** The page that was asked for: within the course, wherever else the address says. @returns {string} */
function wanted() {
  const root = new URL(siteRoot(), location.href);
  const asked = new URL(decodeURIComponent(location.hash.slice(1)).replace(/^[/\\]+/u, ""), root);
  return asked.href.startsWith(root.href) ? asked.href : root.href;
}
