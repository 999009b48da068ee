/**
 * The page's side of the worker. Starts lazily, keeps one request in flight and at most one waiting for each asker
 * (the latest wins), stops what runs too long, and gives up after two failures in a row until the reader asks again.
 */

import { answerOf, fromWorker } from "./messages.js";
import { openWorker } from "./runtime.js";

/** @typedef {import("./types.js").Answer} Answer */
/** @typedef {import("./types.js").Request} Request */
/** @typedef {{key: string, request: Request, resolve: (answer: Answer) => void}} Job */

const RUN_LIMIT = 8000;
/** Silence allowed while starting: a slow line is patience, not a fault. */
const START_LIMIT = 30000;
const FAILURES_ALLOWED = 2;

const NEVER_STARTED = "Live figures could not be started. Printed figures are shown; your entries are kept. If this site was renewed a moment ago, load the page again.";
const STOPPED = "Live figures could not be started again. Printed figures are shown; your entries are kept.";

class Engine extends EventTarget {
  /** @type {"idle" | "starting" | "ready" | "unavailable"} */
  state = "idle";
  /** Words and bytes for the visible line while starting. */
  progress = "";
  /** @type {Worker | null} */
  #worker = null;
  /** Counts workers, so that what an ended one still says is not heard. */
  #generation = 0;
  #failures = 0;
  #lastId = 0;
  #everReady = false;
  /** @type {(Job & {id: number}) | null} */
  #inFlight = null;
  /** @type {Map<string, Job>} */
  #waiting = new Map();
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;

  /**
   * Ask the door. The answer is "stale" when a newer request of the same asker took this one's place in the queue.
   * @param {string} key the asker
   * @param {Request} request
   * @returns {Promise<Answer>}
   */
  ask(key, request) {
    if (this.state === "unavailable") return Promise.resolve(this.#givenUp);
    return new Promise((resolve) => {
      this.#waiting.get(key)?.resolve({ state: "stale" });
      this.#waiting.set(key, { key, request, resolve });
      if (this.state === "idle") this.#start();
      else this.#send();
    });
  }

  /** @returns {Answer} */
  get #givenUp() {
    return { state: "failed", text: this.#everReady ? STOPPED : NEVER_STARTED, unavailable: true };
  }

  /** The reader taps "Try again". */
  tryAgain() {
    if (this.state !== "unavailable") return;
    this.#failures = 0;
    this.#set("idle");
    this.dispatchEvent(new Event("again"));
  }

  /** @param {Engine["state"]} state */
  #set(state) {
    this.state = state;
    if (state !== "starting") this.progress = "";
    this.dispatchEvent(new Event("state"));
  }

  /** @param {string} text */
  #tell(text) {
    this.progress = text;
    this.dispatchEvent(new Event("state"));
  }

  /** @param {number} limit */
  #watch(limit) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#fail(), limit);
  }

  async #start() {
    const generation = (this.#generation += 1);
    this.progress = "Starting Python…";
    this.#set("starting");
    this.#watch(START_LIMIT);
    try {
      const first = [...this.#waiting.values()].flatMap(({ request }) => (typeof request.calculator === "string" ? [request.calculator] : []));
      const worker = await openWorker((done, total) => this.#fetching("Unpacking", done, total), first);
      if (generation !== this.#generation) {
        worker.terminate();
        return;
      }
      this.#worker = worker;
      worker.onmessage = (event) => {
        if (generation === this.#generation) this.#hear(event.data);
      };
      worker.onerror = (event) => {
        event.preventDefault(); // said on the page, not in the console
        if (generation === this.#generation) this.#fail();
      };
    } catch {
      if (generation === this.#generation) this.#fail();
    }
  }

  /** @param {string} verb @param {number} done @param {number} total */
  #fetching(verb, done, total) {
    this.#watch(START_LIMIT);
    const mega = (/** @type {number} */ bytes) => (bytes / 1e6).toFixed(1);
    this.#tell(done < total ? `${verb} Python: ${mega(done)} of ${mega(total)} MB` : "Starting Python…");
  }

  /** @param {unknown} data */
  #hear(data) {
    const message = fromWorker(data);
    if (!message) return;
    if (message.type === "progress") {
      if (this.state !== "starting") return; // a straggler must not set a limit on a worker at rest
      if (message.stage === "fetch") this.#fetching("Fetching", message.done, message.total);
      else this.#watch(START_LIMIT);
    } else if (message.type === "ready") {
      clearTimeout(this.#timer);
      this.#everReady = true;
      this.#set("ready");
      this.#send();
    } else if (message.type === "answer") this.#answered(message);
    else if (message.type === "broken") this.#fail();
  }

  #send() {
    const worker = this.#worker;
    if (this.state !== "ready" || this.#inFlight || !worker) return;
    const next = this.#waiting.values().next();
    if (next.done) return;
    const job = next.value;
    this.#waiting.delete(job.key);
    const id = (this.#lastId += 1);
    this.#inFlight = { ...job, id };
    this.#watch(RUN_LIMIT);
    worker.postMessage({ type: "ask", id, text: JSON.stringify({ ...job.request, id }) });
  }

  /** @param {{id: number | string, text: string}} message */
  #answered(message) {
    const job = this.#inFlight;
    if (!job || message.id !== job.id) return; // an answer to nothing that is still asked
    clearTimeout(this.#timer);
    const answer = answerOf(message.text);
    if (!answer) {
      this.#fail();
      return;
    }
    this.#inFlight = null;
    if (answer.state === "failed") {
      this.#failures += 1;
      if (this.#failures >= FAILURES_ALLOWED) {
        this.#giveUp();
        job.resolve(this.#givenUp);
        return;
      }
    } else this.#failures = 0;
    job.resolve(answer);
    this.#send();
  }

  /** The worker is stuck, broken or never came: end it, and start another unless it was the second time. */
  #fail() {
    clearTimeout(this.#timer);
    this.#generation += 1;
    this.#worker?.terminate();
    this.#worker = null;
    const job = this.#inFlight;
    this.#inFlight = null;
    if (job && this.#waiting.has(job.key)) job.resolve({ state: "stale" });
    else if (job) this.#waiting.set(job.key, job);
    this.#failures += 1;
    if (this.#failures >= FAILURES_ALLOWED) this.#giveUp();
    else if (this.#waiting.size > 0) this.#start();
    else this.#set("idle");
  }

  #giveUp() {
    clearTimeout(this.#timer);
    this.#generation += 1;
    this.#worker?.terminate();
    this.#worker = null;
    const jobs = [...this.#waiting.values()];
    this.#waiting.clear();
    this.#set("unavailable");
    for (const job of jobs) job.resolve(this.#givenUp);
  }
}

export const engine = new Engine();
