/** Where this site lives: its root, its files, the address it is published at. */

import build from "hd:build";

/** @param {string} name */
function meta(name) {
  return document.querySelector(`meta[name="${name}"]`)?.getAttribute("content") ?? null;
}

const here = location.href.split("#")[0] ?? "";
const rootText = meta("hd-root") || ".";

/** The site's root folder, ends in "/". */
export const root = new URL(rootText.endsWith("/") ? rootText : `${rootText}/`, here).href;
export const fromDisk = location.protocol === "file:";

/**
 * A file under assets/hd. Over http the build's name is added where a cache could mix two builds.
 * @param {string} path
 * @param {boolean} [versioned]
 */
export function asset(path, versioned = false) {
  const address = `${root}assets/hd/${path}`;
  return versioned && !fromDisk ? `${address}?b=${build.build}` : address;
}

/**
 * Add a classic script and wait for it: works from a folder as well as from a server.
 * @param {string} address
 * @returns {Promise<void>}
 */
export function loadScript(address) {
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => resolve();
    script.onerror = () => {
      script.remove();
      reject(new Error(`could not load ${address}`));
    };
    document.head.append(script);
  });
}

/** @type {Promise<string> | null} */
let publicRoot = null;
/** The answer once known, for printing, which can't wait. */
let knownPublicRoot = meta("hd-public-url") ?? "";

/** The public address of the site's root, ends in "/"; "" when none is set. */
export function publicUrl() {
  publicRoot ??= (async () => {
    let set = meta("hd-public-url") ?? window.handToDiscPublicUrl;
    if (set === undefined) {
      // A missing file is the same as an empty one: the site works without a public address.
      await loadScript(asset("public-url.js")).catch(() => undefined);
      set = window.handToDiscPublicUrl ?? "";
    }
    knownPublicRoot = /^https?:\/\//.test(set) ? set.replace(/\/*$/, "/") : "";
    return knownPublicRoot;
  })();
  return publicRoot;
}

/** This page's path under the site's root. */
export const insidePath = here.startsWith(root) ? here.slice(root.length) : "";

/**
 * A page's address with a fragment, at the public address when there is one.
 * @param {string} fragment @param {string} [page] its path under the root; this page's when left out
 */
export function pageAddress(fragment, page) {
  const known = knownPublicRoot && /^https?:/.test(knownPublicRoot);
  const inside = page ?? insidePath;
  if (known) return knownPublicRoot.replace(/\/*$/, "/") + inside + fragment;
  return (page === undefined ? here : root + page) + fragment;
}

export function hasPublicUrl() {
  return knownPublicRoot !== "";
}
