/** QR codes: their script is fetched when one may be needed, and then makes them at once, as paper needs it. */

import { asset, loadScript } from "./site.js";

/** Characters a telephone still reads comfortably from a screen or from paper. */
export const QR_LONGEST = 1000;
/** @type {Promise<void> | null} */
let loading = null;

/** Have the script; a page without it has no codes. @returns {Promise<void>} */
export function readyForCodes() {
  loading ??= loadScript(asset("qr-code.js", true)).catch(() => {
    loading = null; // the network may come back
  });
  return loading;
}

/** @param {string} text @returns {string} SVG; "" when the text is too long for a code that can be read, or the script isn't there */
export function qrSvg(text) {
  return text.length > QR_LONGEST ? "" : (window.handToDiscQrCode?.(text) ?? "");
}
