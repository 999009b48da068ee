/**
 * Inside the worker: load Python once, then pass text to its one door and text back.
 * A classic worker, the same source over http and from a folder. From a folder the two Pyodide scripts stand in front
 * of this one and the binaries arrive in the first message; over http they are fetched here, so that reading and
 * compiling overlap.
 */

/** @typedef {{type: "start", indexURL: string, packageURL: string, files: Record<string, ArrayBuffer> | null,
 *   sizes: Record<string, number>, lock: object, build: string}} Start */
/** @typedef {{type: "ask", id: number, text: string}} Ask */

const scope = /** @type {any} */ (self);
/** @type {((request: string) => string) | null} */
let answer = null;

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
  const counted = ["pyodide.asm.wasm", "python_stdlib.zip", "rotorhead.zip"];
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
    const response = await browserFetch(address);
    if (!response.ok || !response.body) throw new Error(`${name} could not be fetched (${response.status})`);
    if (name.endsWith(".wasm")) return response;
    const through = new TransformStream({
      transform(piece, controller) {
        count(piece.byteLength);
        controller.enqueue(piece);
      },
    });
    return new Response(response.body.pipeThrough(through));
  };
}

/** @param {Start} start */
async function begin(start) {
  const { indexURL } = start;
  const open = fileSource(start);
  /** @type {Map<string, Promise<Response>>} */
  const early = new Map();
  for (const name of ["pyodide.asm.wasm", "python_stdlib.zip"]) {
    const response = open(name, indexURL + name);
    response.catch(() => undefined); // heard when Pyodide asks for it
    early.set(name, response);
  }
  const packageBytes = open("rotorhead.zip", start.packageURL).then(async (response) => new Uint8Array(await response.arrayBuffer()));
  packageBytes.catch(() => undefined);
  // Pyodide asks for its two files by fetch: hand it the ones on their way.
  const browserFetch = scope.fetch?.bind(scope);
  scope.fetch = (/** @type {any} */ address, /** @type {any} */ options) => {
    const name = String(address?.url ?? address).split("/").pop() ?? "";
    const known = early.get(name);
    early.delete(name);
    return known ?? browserFetch(address, options);
  };
  if (typeof scope.loadPyodide === "undefined") scope.importScripts(`${indexURL}pyodide.js`);
  // Pyodide only warns when its wasm doesn't come, and would wait for ever: a lost file ends the start here.
  const lost = Promise.all([...early.values(), packageBytes]).then(() => new Promise(() => undefined));
  const loading = scope.loadPyodide({
    indexURL,
    stdLibURL: `${indexURL}python_stdlib.zip`,
    packageBaseUrl: indexURL,
    lockFileContents: start.lock,
    env: { PYTHONPATH: "/lib/rotorhead.zip", PYTHONDONTWRITEBYTECODE: "1", HOME: "/home/pyodide" },
    fsInit: async (/** @type {any} */ files) => files.writeFile("/lib/rotorhead.zip", await packageBytes),
  });
  const python = await Promise.race([loading, lost]);
  scope.postMessage({ type: "progress", stage: "start", done: 0, total: 0 });
  answer = python.pyimport("rotorhead.door").answer;
}

scope.onmessage = async (/** @type {MessageEvent<Start | Ask>} */ event) => {
  const message = event.data;
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
    if (!answer) throw new Error("asked before the start");
    scope.postMessage({ type: "answer", id: message.id, text: answer(message.text) });
  } catch (error) {
    // The door never raises; what comes here is the interpreter itself giving up (out of memory, stack).
    scope.postMessage({ type: "broken", text: String(error) });
  }
};
