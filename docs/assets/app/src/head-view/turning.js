/** The rotor's angle and whether it goes round. Nothing moves by itself: only after "Turn slowly". */

import { turned } from "./data.js";

const STEP = 10;
/** Under reduced motion the rotor is shown in steps, this far apart in time. */
const PAUSE = 900;

export class Turning {
  angle = 0;
  running = false;
  /** One of this many parts of the real speed. */
  share = 60;
  rpm = 0;
  /** @type {number | null} */
  #target = null;
  #last = 0;
  #seen = true;
  #frame = 0;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;

  /**
   * @param {() => void} draw a new angle is to be shown
   * @param {() => void} stopped the rotor has come to rest
   */
  constructor(draw, stopped) {
    this.draw = draw;
    this.stopped = stopped;
    document.addEventListener("visibilitychange", () => this.#wake());
  }

  get calm() {
    return matchMedia("(prefers-reduced-motion: reduce)").matches;
  }

  /** Degrees a second. */
  get rate() {
    return (this.rpm * 6) / this.share;
  }

  start() {
    if (this.running) return;
    this.running = true;
    this.#target = null;
    this.#last = 0;
    this.#wake();
  }

  stop() {
    if (!this.running) return;
    this.running = false;
    this.#sleep();
    // Where it was told to stop it stands exactly; elsewhere a whole degree is enough.
    if (this.#target === null) this.angle = turned(Math.round(this.angle));
    this.#target = null;
    this.draw();
    this.stopped();
  }

  /** @param {number} way +1 or −1 */
  step(way) {
    this.stop();
    this.angle = turned(Math.round(this.angle / STEP) * STEP + way * STEP);
    this.draw();
    this.stopped();
  }

  /** Go to an angle: on round to it when turning, at once when not. @param {number} angle */
  to(angle) {
    if (this.running && !this.calm) {
      this.#target = turned(angle);
      return;
    }
    this.running = false;
    this.#sleep();
    this.angle = turned(angle);
    this.draw();
    this.stopped();
  }

  /** @param {boolean} seen on the screen or scrolled away */
  seen(seen) {
    this.#seen = seen;
    this.#wake();
  }

  #sleep() {
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
    this.#frame = 0;
  }

  #wake() {
    this.#sleep();
    this.#last = 0;
    if (!this.running || !this.#seen || document.hidden) return;
    if (this.calm) {
      this.#timer = setTimeout(() => {
        this.angle = turned(Math.round(this.angle / STEP) * STEP + STEP);
        this.draw();
        this.#wake();
      }, PAUSE);
    } else this.#frame = requestAnimationFrame((now) => this.#go(now));
  }

  /** @param {number} now */
  #go(now) {
    const passed = this.#last ? Math.min(0.1, (now - this.#last) / 1000) : 0;
    this.#last = now;
    const move = this.rate * passed;
    if (this.#target !== null && turned(this.#target - this.angle) <= move + 1e-9) {
      this.angle = this.#target;
      this.stop();
      return;
    }
    this.angle = turned(this.angle + move);
    this.draw();
    this.#frame = requestAnimationFrame((next) => this.#go(next));
  }
}
