/** Two tabs of the site share one device: what one of them keeps, the other must not write over with what it knew before. */

/**
 * Call when another tab has kept something under this key, or when this page comes back after others were open in its place.
 * @param {string} key of localStorage @param {() => void} act
 */
export function whenKeptElsewhere(key, act) {
  window.addEventListener("storage", (event) => {
    if (event.key === key || event.key === null) act(); // null: all of it was cleared
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) act();
  });
}
