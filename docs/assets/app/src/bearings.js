/** Bearings as a pilot says them and as people type them, for arrows placed on a rose. */

/** @param {number} bearing degrees clockwise from the nose */
export function bearingWords(bearing) {
  const turned = ((Math.round(bearing) % 360) + 360) % 360;
  if (turned === 0) return "at the nose";
  if (turned === 180) return "at the tail";
  return turned < 180 ? `${turned}° right of the nose` : `${360 - turned}° left of the nose`;
}

/** @param {string} text */
export function typedDegrees(text) {
  const plain = text.replace(/[\u2212\u2013]/g, "-").replace(",", ".").replace(/[\s°]/g, "");
  const value = plain === "" ? NaN : Number(plain);
  return Math.abs(value) <= 360 ? value : null;
}
