// Writes words into the page where they differ from what stands there: the same words written anew are laid out anew.

/** @param {Element} place @param {string} words */
export function write(place, words) {
  if (place.textContent !== words) place.textContent = words;
}
