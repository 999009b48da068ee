/**
 * Numbers as people type them, for guesses and counts that the page itself keeps. What goes to a calculator or is marked goes as
 * text: Python reads it.
 */

/** @param {string} text @returns {number | null} */
export function typedNumber(text) {
  const plain = text.replace(/[\u2212\u2013]/g, "-").replace(",", ".").replace(/\s/g, "");
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

/** The number of a value as the package prints it, with its unit behind. @param {string} text */
export const printedNumber = (text) => typedNumber(/^[-\u2212]?[\d.]+/.exec(text.trim())?.[0] ?? "");

/** A whole number of at most three digits. @param {string} text @returns {number | null} */
export const typedCount = (text) => (/^[0-9]{1,3}$/.test(text.trim()) ? Number(text) : null);
