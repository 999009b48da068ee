/** Pages keep themselves for use without a network; a newer build of the site is offered, never forced. */

import build from "hd:build";
import { engine } from "../engine.js";
import { asset, fromDisk, root } from "../site.js";
import { store } from "../state.js";

/** @param {ServiceWorkerRegistration} registration */
function offer(registration) {
  const waiting = registration.waiting;
  // The first worker of all waits for nobody.
  if (!waiting || !navigator.serviceWorker.controller) return;
  store.offer("offline", "A newer version of this site is ready.", "Switch to it", () => waiting.postMessage({ type: "switch" }));
}

/** After the first answer there is time to keep Python's own files; until then they are only passed on. */
const AFTER_ANSWER = 4000;

function keepRuntime() {
  const ready = () => {
    if (engine.state !== "ready") return;
    engine.removeEventListener("state", ready);
    const addresses = Object.keys(build.files).filter((name) => /^(pyodide|started)/.test(name)).map((name) => asset(`runtime/${name}`));
    setTimeout(() => navigator.serviceWorker.controller?.postMessage({ type: "keep", addresses }), AFTER_ANSWER);
  };
  engine.addEventListener("state", ready);
}

export function registerCopy() {
  const workers = navigator.serviceWorker;
  if (fromDisk || !workers || !window.isSecureContext) return;
  keepRuntime();
  let had = workers.controller !== null;
  workers.addEventListener("controllerchange", () => {
    // Switched here or in another tab: a page of the old build would run with the new one's scripts. The very first
    // worker changes nothing; what is set stands in the address, and is there again.
    if (had) location.reload();
    had = true;
  });
  workers.register(`${root}sw.js`, { scope: root, updateViaCache: "none" }).then(
    (/** @type {ServiceWorkerRegistration | undefined} */ registration) => {
      if (!registration) return; // where workers are kept out, some browsers answer with nothing
      offer(registration);
      registration.addEventListener("updatefound", () => {
        registration.installing?.addEventListener("statechange", () => offer(registration));
      });
      if (workers.controller) return;
      // Opened before there was a copy: what this page is made of goes into it as soon as the worker is there.
      void workers.ready.then(({ active }) => {
        const used = performance.getEntriesByType("resource").map((entry) => entry.name);
        active?.postMessage({ type: "keep", addresses: [location.href.split("#")[0], ...used] });
      });
    },
    () => undefined, // a browser that doesn't let it: the site works with its network
  );
}
