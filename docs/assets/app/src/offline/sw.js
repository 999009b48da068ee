/**
 * The offline copy (a service worker, sw.js at the site's root). It belongs to one build: it knows every file of it by its
 * hash, gives out only those, and keeps what passes through its hands. Another build is another worker, which takes over
 * when the reader says so.
 */

import { Route } from "workbox-routing/Route.js";
import { Router } from "workbox-routing/Router.js";
import { Strategy } from "workbox-strategies/Strategy.js";
import copy from "hd:copy";

/** @typedef {{build: string, files: Record<string, [hash: string, bytes: number]>, first: string[]}} Copy what the build wrote: `first` is kept at once */

const scope = /** @type {any} */ (self);
const { files, build } = /** @type {Copy} */ (copy);
const PREFIX = "hand-to-disc-copy-";
const CACHE = PREFIX + build;
const root = new URL("./", scope.location.href);
/** The large files of Python itself. */
const STREAMED = /^assets\/hd\/runtime\/(pyodide\.|started)/;
/** Files that whoever publishes the site may edit: taken from the network while there is one. */
const EDITABLE = new Set(["assets/hd/public-url.js"]);

/** A file's path under the root; "" for what isn't ours. @param {string} address */
function pathOf(address) {
  const url = new URL(address);
  if (url.origin !== root.origin || !url.pathname.startsWith(root.pathname)) return "";
  const path = decodeURIComponent(url.pathname.slice(root.pathname.length));
  return path === "" || path.endsWith("/") ? `${path}index.html` : path;
}

/** @param {ArrayBuffer} bytes */
async function hashOf(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return btoa(String.fromCharCode(...digest.slice(0, 12)));
}

/** Whether a response holds exactly this build's file. @param {string} path @param {Response} response */
async function isOurs(path, response) {
  if (EDITABLE.has(path)) return true;
  return files[path]?.[0] === (await hashOf(await response.clone().arrayBuffer()));
}

/** Whether what is kept is whole: an entry may have been spoiled. The largest file is judged by its length, since a browser keeps
 * its compiled form only for a response that nobody has read. @param {string} path @param {Response} kept */
async function isWhole(path, kept) {
  if (path.endsWith(".wasm")) return (await kept.clone().blob()).size === files[path]?.[1];
  return isOurs(path, kept);
}

/** Where a file is kept, whatever its query. @param {string} path */
const key = (path) => new URL(path, root).href;

/** Fetch one file past the browser's own cache and keep it; false when the server has another. @param {Cache} cache @param {string} path */
async function keep(cache, path) {
  const response = await fetch(key(path), { cache: "no-cache", credentials: "same-origin" });
  if (!response.ok || !(await isOurs(path, response))) return false;
  await cache.put(key(path), response);
  return true;
}

/** From the copy, else from the network; what comes from there is kept when it is this build's. */
class OfThisBuild extends Strategy {
  /** @param {Request} request @param {import("workbox-strategies/StrategyHandler.js").StrategyHandler} handler */
  async _handle(request, handler) {
    const path = pathOf(request.url);
    const cache = await caches.open(CACHE);
    const kept = await cache.match(key(path));
    if (kept && EDITABLE.has(path)) return (await fetch(request).catch(() => null)) ?? kept;
    if (kept && (await isWhole(path, kept))) return kept;
    if (kept) await cache.delete(key(path));
    const response = await fetch(request);
    // Python's own files are used while they come, and kept once the page has its answer: judging them first would keep a reader on
    // a slow line waiting for the last byte. They change only with Python's version; our package is judged by the page as well.
    if (!response.ok || !files[path] || STREAMED.test(path)) return response;
    if (await isOurs(path, response)) {
      void handler.waitUntil(cache.put(key(path), response.clone()).catch(() => undefined)); // full: shown, not kept
      return response;
    }
    // The server has a newer build. Its page would run with our scripts: say so instead; scripts and data are refused.
    void scope.registration.update();
    if (request.mode !== "navigate") return new Response("another build", { status: 409 });
    return page(NEWER);
  }
}

/** @param {string} html */
const page = (html) => new Response(html, { status: 200, headers: { "content-type": "text/html; charset=utf-8" } });

const NEWER = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>A newer version</title>
<body style="font:17px/1.5 system-ui;margin:2rem;max-width:34rem"><h1>There is a newer version of this site</h1>
<p>This page isn’t in the copy on your device, and the server has a newer version of it, which doesn’t go with the rest of your copy.
Go back, wait for the line that offers the newer version, and switch to it.</p><p><a href="${root.pathname}index.html">To the first page of your copy</a></p></body></html>`;

const MISSING = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>Not in the copy</title>
<body style="font:17px/1.5 system-ui;margin:2rem;max-width:34rem"><h1>This page isn’t in your copy</h1>
<p>There is no network just now, and this page hasn’t been kept on this device. Pages you have visited are; with a network you can keep all of them.</p>
<p><a href="${root.pathname}index.html">To the first page of your copy</a></p></body></html>`;

const strategy = new OfThisBuild({ cacheName: CACHE });
const router = new Router();
router.registerRoute(new Route(({ request }) => files[pathOf(request.url)] !== undefined, strategy));
router.setCatchHandler(async ({ request }) => (request.mode === "navigate" ? page(MISSING) : Response.error()));
router.addFetchListener();

/** The last build's copy, if there is one. */
async function before() {
  const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  return names.length > 0 ? caches.open(/** @type {string} */ (names[names.length - 1])) : null;
}

/** A file of this build that the old copy has already. @param {Cache | null} old @param {string} path */
async function unchanged(old, path) {
  const kept = await old?.match(key(path));
  return kept && !EDITABLE.has(path) && (await isOurs(path, kept)) ? kept : null;
}

scope.addEventListener("install", (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      const cache = await caches.open(CACHE);
      const old = await before();
      const had = old ? (await old.keys()).map((request) => pathOf(request.url)) : [];
      // All that the old copy has is there in the new one, or the new one doesn't come to be.
      for (const path of new Set([...copy.first, ...had])) {
        if (!files[path] || (await cache.match(key(path)))) continue;
        const same = await unchanged(old, path);
        if (same) await cache.put(key(path), same);
        else if (!(await keep(cache, path))) throw new Error(`${path} could not be had of build ${build}`);
      }
    })().catch(async (error) => {
      // What broke off is begun anew next time; the old copy goes on working.
      if (!scope.registration.active) await caches.delete(CACHE);
      throw error;
    }),
  );
});

scope.addEventListener("activate", (/** @type {any} */ event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
      await scope.clients.claim();
    })(),
  );
});

/** What of the build is kept. */
async function state() {
  const cache = await caches.open(CACHE);
  const kept = new Set((await cache.keys()).map((request) => pathOf(request.url)));
  const bytes = (/** @type {string[]} */ paths) => paths.reduce((sum, path) => sum + (files[path]?.[1] ?? 0), 0);
  const all = Object.keys(files);
  const here = all.filter((path) => kept.has(path));
  return { type: "copy", build, files: all.length, bytes: bytes(all), kept: here.length, keptBytes: bytes(here) };
}

/** Fetch what is missing, telling how far it is. @param {(message: object) => void} tell */
async function keepAll(tell) {
  const cache = await caches.open(CACHE);
  for (const path of Object.keys(files)) {
    if (await cache.match(key(path))) continue;
    let done = false;
    try {
      done = await keep(cache, path);
    } catch (error) {
      const full = error instanceof DOMException && error.name === "QuotaExceededError";
      tell({ ...(await state()), type: full ? "full" : "broken-off" });
      return;
    }
    if (!done) {
      void scope.registration.update();
      tell({ ...(await state()), type: "another-build" });
      return;
    }
    tell({ ...(await state()), type: "progress" });
  }
  tell({ ...(await state()), type: "complete" });
}

/** Entries that don't hold what they should are thrown out. */
async function check() {
  const cache = await caches.open(CACHE);
  let spoiled = 0;
  for (const request of await cache.keys()) {
    const path = pathOf(request.url);
    const kept = await cache.match(request);
    if (kept && files[path] && (await isOurs(path, kept))) continue;
    await cache.delete(request);
    spoiled += 1;
  }
  return { ...(await state()), type: "checked", spoiled };
}

scope.addEventListener("message", (/** @type {any} */ event) => {
  const { data, source } = event;
  const asked = typeof data === "object" && data !== null ? data.type : "";
  const tell = (/** @type {object} */ message) => source?.postMessage(message);
  if (asked === "state") event.waitUntil(state().then(tell));
  else if (asked === "keep-all") event.waitUntil(keepAll(tell));
  else if (asked === "check") event.waitUntil(check().then(tell));
  else if (asked === "remove") event.waitUntil(caches.delete(CACHE).then(state).then(tell));
  else if (asked === "switch") void scope.skipWaiting();
  else if (asked === "keep" && Array.isArray(data.addresses)) {
    // The page that was open before there was a copy: its own files are kept too.
    event.waitUntil(
      (async () => {
        const cache = await caches.open(CACHE);
        for (const address of data.addresses.slice(0, 100)) {
          const path = typeof address === "string" ? pathOf(address) : "";
          if (files[path] && !(await cache.match(key(path)))) await keep(cache, path).catch(() => false);
        }
      })(),
    );
  }
});
