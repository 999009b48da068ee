/** Opens a worker with the Python runtime: from the server's files, or from payload.js when the page was opened from a folder. */

import build from "hd:build";
import workerText from "hd:worker";
import { partsLater, partsOf } from "./parts.js";
import { asset, fromDisk, loadScript } from "./site.js";
import { wanted } from "./values.js";

/** Decoded once, kept as Blobs: a restart needs them again. @type {Promise<Map<string, Blob>> | null} */
let unpacked = null;

/** @param {string} base64 */
async function unpack(base64) {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).blob();
}

/** @param {(done: number, total: number) => void} report */
async function payload(report) {
  if (!window.handToDiscPayload) await loadScript(asset("payload.js"));
  const packed = Object.entries(window.handToDiscPayload ?? {});
  if (packed.length === 0) throw new Error("payload.js is empty");
  const total = packed.reduce((sum, [, text]) => sum + text.length, 0);
  let done = 0;
  /** @type {Map<string, Blob>} */
  const files = new Map();
  for (const [name, text] of packed) {
    files.set(name, await unpack(text));
    done += text.length;
    report(done, total);
  }
  delete window.handToDiscPayload; // megabytes of text nobody needs again
  return files;
}

/** Where the package, its parts and the memory that holds it are. @param {(name: string) => string} place */
function addresses(place) {
  const zips = Object.keys(build.files).filter((name) => ["rotorhead.zip", "started.bin"].includes(name) || name.startsWith("part-"));
  return Object.fromEntries(zips.map((name) => [name, place(name)]));
}

/** A hash as `fetch` compares it. @param {string} hex */
const integrityOf = (hex) => `sha256-${btoa(String.fromCharCode(...(hex.match(/../g) ?? []).map((two) => parseInt(two, 16))))}`;

/**
 * @param {(done: number, total: number) => void} report
 * @param {string[]} wantedFirst calculators that are waited for
 * @returns {Promise<Worker>} already told to start
 */
export async function openWorker(report, wantedFirst) {
  // The search shim for file:// replaces window.Worker; the native one was put aside before it.
  const NativeWorker = window.handToDiscWorker ?? window.Worker;
  const sums = Object.fromEntries(Object.keys(addresses(String)).map((name) => [name, integrityOf(build.files[name]?.sha256 ?? "")]));
  const sizes = Object.fromEntries(Object.entries(build.files).map(([name, file]) => [name, file.bytes]));
  // What the calculator that was touched needs is fetched beside the runtime, not after it; the page's others come later.
  const all = [...document.querySelectorAll("hd-calculator")].map((element) => element.getAttribute("name") ?? "");
  const first = partsOf(wantedFirst.length > 0 ? wantedFirst : all);
  const { names, figures } = wanted();
  // A question may be taken from any calculator.
  const asks = document.querySelector('[data-teach]:not([data-teach="lesson"])') !== null;
  const soon = asks ? Object.keys(addresses(String)).filter((name) => name.startsWith("part-")) : partsLater(all, names, figures.length > 0);
  const common = { type: "start", lock: build.lock, build: build.build, sums, sizes, first, soon };
  /** @type {BlobPart[]} */
  const source = [workerText];
  /** @type {object} */
  let start;
  if (fromDisk) {
    unpacked ??= payload(report);
    unpacked.catch(() => (unpacked = null));
    const files = await unpacked;
    const part = (/** @type {string} */ name) => files.get(name) ?? new Blob();
    // asm.js first: loadPyodide then finds it and doesn't ask for a script that a folder can't serve.
    source.unshift(part("pyodide.asm.js"), "\n", part("pyodide.js"), "\n");
    const binaries = [...files.keys()].filter((name) => !name.endsWith(".js"));
    const bytes = await Promise.all(binaries.map((name) => part(name).arrayBuffer()));
    const inMemory = Object.fromEntries(binaries.map((name, i) => [name, bytes[i]]));
    start = { ...common, indexURL: "memory:/", addresses: addresses((name) => `memory:/${name}`), files: inMemory };
  } else {
    start = { ...common, indexURL: asset("runtime/"), addresses: addresses((name) => asset(`runtime/${name}`, true)), files: null };
  }
  const address = URL.createObjectURL(new Blob(source, { type: "text/javascript" }));
  try {
    const worker = new NativeWorker(address);
    worker.postMessage(start);
    return worker;
  } finally {
    // The worker has the text once its first message is in; later is early enough to let go of it.
    setTimeout(() => URL.revokeObjectURL(address), 60000);
  }
}
