/** Bearings as a pilot says them and as people type them, for arrows placed on a rose. */

import { typedNumber } from "./typed.js";

/** @param {number} bearing degrees clockwise from the nose */
export function bearingWords(bearing) {
  const turned = ((Math.round(bearing) % 360) + 360) % 360;
  if (turned === 0) return "at the nose";
  if (turned === 180) return "at the tail";
  return turned < 180 ? `${turned}° right of the nose` : `${360 - turned}° left of the nose`;
}

/** @param {string} text */
export function typedDegrees(text) {
  const value = typedNumber(text.replace("°", ""));
  return value !== null && Math.abs(value) <= 360 ? value : null;
}
