/**
 * Start Python with our package's core once, at build time, and write its memory down: a browser that begins from there skips the
 * start. What the runtime itself holds is left out (the browser has it from the wasm file): the rest is a third smaller.
 *
 *   node started.mjs FOLDER_OF_PYODIDE LIBRARY.zip CORE.zip LOCK.json MODULES.json OUT
 */

import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";

const [, , pyodide, library, core, lock, modules, out] = process.argv;
const { loadPyodide } = await import(pathToFileURL(`${pyodide}/pyodide.mjs`).href);

/** The memory as the runtime's own data leave it, before anything has run. @type {Uint32Array | null} */
let bare = null;
const instantiate = WebAssembly.instantiate;
WebAssembly.instantiate = async (source, imports) => {
  const made = await instantiate(source, imports);
  if (imports?.env?.memory) bare ??= new Uint32Array(imports.env.memory.buffer.slice(0));
  return made;
};

const python = await loadPyodide({
  indexURL: pyodide,
  stdLibURL: library,
  packageBaseUrl: pyodide,
  lockFileContents: JSON.parse(readFileSync(lock, "utf8")),
  // The seed of hashes stays what it is now, in every browser.
  env: { PYTHONPATH: "/lib/rotorhead.zip", PYTHONDONTWRITEBYTECODE: "1", HOME: "/home/pyodide", PYTHONHASHSEED: "0" },
  fsInit: async (files) => files.writeFile("/lib/rotorhead.zip", readFileSync(core)),
  _makeSnapshot: true,
});
// All of the library that is ever needed is in the memory then, and its zip isn't: who looks for more is told so by Python itself.
python.runPython(`
import gc, importlib, json, sys, zipimport
for _name in json.loads('''${readFileSync(modules, "utf8")}'''):
    importlib.import_module(_name)
_zip = next(path for path in sys.path if path.startswith("/lib/python") and path.endswith(".zip"))
sys.path.remove(_zip)
sys.path_importer_cache.pop(_zip, None)
zipimport._zip_directory_cache.pop(_zip, None)
del _name, _zip
gc.collect()
`);
const memory = python.makeMemorySnapshot();
if (!bare) throw new Error("the runtime's memory was not seen");
const head = memory.length - bare.byteLength;
// A head, then the memory; the browser takes it apart the same way (worker.js).
if (head < 0 || head % 4 !== 0) throw new Error(`the memory has grown by ${head} bytes, which started.mjs does not know`);
const words = new Uint32Array(memory.buffer, memory.byteOffset + head, bare.length);
for (let i = 0; i < bare.length; i += 1) words[i] ^= bare[i];
writeFileSync(out, gzipSync(memory, { level: 9 }));
