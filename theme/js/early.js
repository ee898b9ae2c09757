// Puts the reader's own view on <html> before anything is drawn, so that no page flashes or jumps. Not a module: it must
// run at once. The values it takes are those of parts/view.html; anything else in the store is left alone.
(() => {
  const known = { hand: ["left", "right"], view: ["upright", "player"], light: ["light", "dark"], text: ["large"],
    notes: ["english", "german", "solfege"], sevenths: ["maj7", "triangle"], diminished: ["dim", "circle"], minor: ["m", "-"],
  };
  try {
    const chosen = JSON.parse(localStorage.getItem("fingerpost:view") ?? "{}");
    for (const [name, values] of Object.entries(known)) {
      if (values.includes(chosen[name])) document.documentElement.dataset[name] = chosen[name];
    }
  } catch {
    // No store, or not ours: the page as it was built.
  }
})();
