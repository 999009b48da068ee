/**
 * Inside the worker: load Python once, then pass text to its one door and text back.
 * A classic worker, the same source over http and from a folder. From a folder the two Pyodide scripts stand in front
 * of this one and the binaries arrive in the first message; over http they are fetched here, so that reading and
 * compiling overlap.
 */

import { fromPage } from "./messages.js";
import { partsFor } from "./parts.js";

/** @typedef {import("./messages.js").Start} Start */

const scope = /** @type {any} */ (self);
/** @type {((request: string) => string) | null} */
let answer = null;
/** Fetches what the page may ask for later; does so once. */
let fetchAhead = () => {};
/** Puts a part of the package in place; each is fetched once. @type {((name: string) => Promise<void>) | null} */
let fetchPart = null;

/** @param {Start} start @returns {(name: string, address: string) => Promise<Response>} */
function fileSource(start) {
  const { files, sizes } = start;
  if (files) {
    return async (name) => {
      const type = name.endsWith(".wasm") ? "application/wasm" : "application/octet-stream";
      return new Response(files[name], { headers: { "Content-Type": type } });
    };
  }
  const browserFetch = scope.fetch.bind(scope);
  const counted = ["pyodide.asm.wasm", "started.bin", "rotorhead.zip"];
  const total = counted.reduce((sum, name) => sum + (sizes[name] ?? 0), 0);
  let done = 0;
  let told = 0;
  /** @param {number} bytes */
  const count = (bytes) => {
    done += bytes;
    // A message for every network packet would be more than anyone can read.
    if (done - told > 200000 || done >= total) {
      told = done;
      scope.postMessage({ type: "progress", stage: "fetch", done, total });
    }
  };
  // The browser keeps the compiled form of a wasm file only when it gets its own untouched response to compile: that
  // file is counted as one piece, when it is there.
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) if (entry.name.endsWith(".wasm")) count(sizes["pyodide.asm.wasm"] ?? 0);
  }).observe({ type: "resource" });
  return async (name, address) => {
    // The package must be the one this page was built with, whatever the server has by now. Pyodide's own files change only with its
    // version, and would have to be there as a whole before the first byte of them could be used.
    const integrity = start.sums[name];
    const response = await browserFetch(address, integrity ? { integrity } : {});
    if (!response.ok || !response.body) throw new Error(`${name} could not be fetched (${response.status})`);
    if (name.endsWith(".wasm") || !counted.includes(name)) return response;
    const through = new TransformStream({
      transform(piece, controller) {
        count(piece.byteLength);
        controller.enqueue(piece);
      },
    });
    return new Response(response.body.pipeThrough(through));
  };
}

const LIBRARY = "no-library.zip";
const NO_ZIP = new Uint8Array([0x50, 0x4b, 5, 6, ...new Array(18).fill(0)]);

/** @param {Response} packed */
async function unpacked(packed) {
  return new Uint8Array(await new Response(packed.body?.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer());
}

/** Put back in place what was left out. @param {Uint8Array} started a head, then memory @param {ArrayBuffer} bare as the runtime has it */
function complete(started, bare) {
  const head = started.length - bare.byteLength;
  const runtime = new Uint32Array(bare);
  const words = new Uint32Array(started.buffer, head, runtime.length);
  for (let i = 0; i < runtime.length; i += 1) words[i] = /** @type {number} */ (words[i]) ^ /** @type {number} */ (runtime[i]);
}

/** @param {Start} start */
async function begin(start) {
  const { indexURL } = start;
  const open = fileSource(start);
  // The runtime is compiled while the rest is on its way: Pyodide itself would begin only once its scripts have come and run.
  const wasm = open("pyodide.asm.wasm", `${indexURL}pyodide.asm.wasm`);
  const compiled = WebAssembly.compileStreaming(wasm);
  // Python's memory once it has started and our core is in, less what the runtime holds by itself (scripts/site/started.mjs).
  const memory = open("started.bin", start.addresses["started.bin"] ?? "").then(unpacked);
  /** @type {Promise<unknown>[]} */
  const needed = [compiled, memory];
  WebAssembly.instantiateStreaming = async (_source, imports) => {
    const module = await compiled;
    const instance = await WebAssembly.instantiate(module, imports);
    complete(await memory, /** @type {any} */ (imports).env.memory.buffer);
    return { module, instance };
  };
  const bytesOf = async (/** @type {string} */ name) => new Uint8Array(await (await open(name, start.addresses[name])).arrayBuffer());
  const packageBytes = bytesOf("rotorhead.zip");
  needed.push(packageBytes);
  const lost = Promise.all(needed).then(() => new Promise(() => undefined));
  lost.catch(() => undefined); // heard below, once Pyodide's own script is in
  /** @type {Map<string, Promise<Uint8Array>>} */
  const parts = new Map();
  /** @param {string[]} names */
  const ahead = (names) => {
    for (const name of names.filter((known) => start.addresses[known] && !parts.has(known))) {
      parts.set(name, bytesOf(name));
      parts.get(name)?.catch(() => parts.delete(name)); // asked for again when it is needed
    }
  };
  ahead(start.first);
  // Pyodide asks for two files by fetch: the runtime is on its way, and of the library, which is in the memory, there is no zip.
  const browserFetch = scope.fetch?.bind(scope);
  scope.fetch = (/** @type {any} */ address, /** @type {any} */ options) => {
    const name = String(address?.url ?? address).split("/").pop() ?? "";
    if (name === "pyodide.asm.wasm") return Promise.resolve(new Response());
    if (name === LIBRARY) return Promise.resolve(new Response(NO_ZIP));
    return browserFetch(address, options);
  };
  if (typeof scope.loadPyodide === "undefined") {
    // Waiting for a script's bytes inside importScripts would keep this thread from passing the runtime on to the compiler.
    const scripts = ["pyodide.js", "pyodide.asm.js"].map((name) => open(name, indexURL + name).then((response) => response.arrayBuffer()));
    await Promise.race([Promise.all(scripts), lost]);
    scope.importScripts(`${indexURL}pyodide.js`);
  }
  const loading = scope.loadPyodide({
    indexURL,
    stdLibURL: indexURL + LIBRARY,
    packageBaseUrl: indexURL,
    lockFileContents: start.lock,
    env: { PYTHONPATH: "/lib/rotorhead.zip", PYTHONDONTWRITEBYTECODE: "1", HOME: "/home/pyodide" },
    fsInit: async (/** @type {any} */ files) => files.writeFile("/lib/rotorhead.zip", await packageBytes),
    _loadSnapshot: memory,
  });
  const python = await Promise.race([loading, lost]);
  scope.postMessage({ type: "progress", stage: "start", done: 0, total: 0 });
  const door = python.pyimport("rotorhead.door");
  answer = door.answer;
  /** @type {Set<string>} */
  const placed = new Set();
  fetchPart = async (name) => {
    if (placed.has(name) || !start.addresses[name]) return;
    python.FS.writeFile(`/lib/${name}`, await (parts.get(name) ?? bytesOf(name)));
    door.add_part(`/lib/${name}`);
    placed.add(name);
    parts.delete(name);
  };
  fetchAhead = () => {
    ahead(start.soon.filter((name) => !placed.has(name)));
    fetchAhead = () => {};
  };
}

/** Have a request's parts in place; the answer to give where one can't be fetched. @param {string} text @returns {Promise<string>} */
async function placed(text) {
  try {
    for (const name of partsFor(JSON.parse(text))) await fetchPart?.(name);
    return "";
  } catch {
    const sentence = "A part of the calculators could not be fetched: the network seems to be gone, or this site was renewed. Try again, or load the page again.";
    return JSON.stringify({ state: "failed", id: JSON.parse(text).id, text: sentence });
  }
}

// Pyodide leaves promises of its own behind when a file of it is lost: that is told to the page, not to the console.
scope.addEventListener("unhandledrejection", (/** @type {PromiseRejectionEvent} */ event) => {
  event.preventDefault();
  scope.postMessage({ type: "broken", text: String(event.reason) });
});

scope.onmessage = async (/** @type {MessageEvent<unknown>} */ event) => {
  const message = fromPage(event.data);
  if (!message) return;
  if (message.type === "start") {
    try {
      await begin(message);
      scope.postMessage({ type: "ready", build: message.build });
    } catch (error) {
      scope.postMessage({ type: "broken", text: String(error) });
    }
    return;
  }
  try {
    if (!answer || !fetchPart) throw new Error("asked before the start");
    const missing = await placed(message.text);
    scope.postMessage({ type: "answer", id: message.id, text: missing || answer(message.text) });
    fetchAhead();
  } catch (error) {
    // The door never raises; what comes here is the interpreter itself giving up (out of memory, stack).
    scope.postMessage({ type: "broken", text: String(error) });
  }
};
