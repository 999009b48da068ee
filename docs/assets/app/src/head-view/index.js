/**
 * The moving view of a head, loaded with the first calculator that has one: head-view.js. Shows what Python sends,
 * forwards what the hand does. Where there is no WebGL, or it is lost, the drawn view stands in its place with the same
 * controls.
 */

import { make } from "../dom.js";
import { row, turned } from "./data.js";
import { buildPanel } from "./panel.js";
import { saveDrawing, saveSolid } from "./save.js";
import { Solid } from "./solid.js";
import { Turning } from "./turning.js";

/** @typedef {import("./data.js").Scene} Data */

/** The chart's cursor follows the turning this many times a second: more would cost frames. */
const CURSOR_PAUSE = 80;

class HeadView {
  /** @type {Solid | null} */
  #solid = null;
  /** @type {Data | null} */
  #data = null;
  #lost = false;
  #resting = false;
  #leaving = false;
  #view = "";
  #cursorAt = 0;

  /** @param {HTMLElement} calculator @param {HTMLElement} stage @param {import("./controls.js").Enter} enter */
  constructor(calculator, stage, enter) {
    this.calculator = calculator;
    this.stage = stage;
    this.enter = enter;
    this.turning = new Turning(() => this.#turned(), () => this.#stopped());
    this.panel = buildPanel(calculator, stage, {
      enter,
      turning: this.turning,
      over: (place) => this.#over(place),
      fill: () => this.#fill(),
      leave: () => this.#leave(),
      save: (kind) => void this.#save(kind),
    });
    this.screen = this.panel.screen;
    this.#openSolid();
    this.#listen();
  }

  get solid() {
    return this.#solid !== null && !this.#lost && !this.#resting;
  }

  #openSolid() {
    try {
      this.#solid = new Solid(this.screen, (part) => this.#pick(part));
    } catch {
      this.#solid = null; // no WebGL here: the drawn view stays
    }
    const canvas = this.#solid?.canvas;
    canvas?.setAttribute("role", "img");
    canvas?.addEventListener("webglcontextlost", (event) => {
      event.preventDefault();
      this.#lost = true;
      this.#arrange();
      // The drawn view may be an older one: have it drawn as things stand now.
      this.enter("rotor_angle", this.#angleText());
    });
    canvas?.addEventListener("webglcontextrestored", () => {
      this.#lost = false;
      this.#arrange();
      this.#resize();
    });
    this.#arrange();
  }

  #arrange() {
    this.calculator.toggleAttribute("data-solid", this.solid);
    this.screen.hidden = !this.solid;
    this.panel.note.hidden = this.solid;
    this.panel.note.textContent = this.#resting
      ? "The drawn view shows the figures as they are printed."
      : this.#lost
      ? "The graphics have been lost for the moment; the drawn view stands in, with the same controls."
      : "This browser can’t show the solid view; the drawn view stands in, with the same controls.";
  }

  /** What is shown now has no scene: the drawn view says it, until the next scene comes. */
  rest() {
    this.turning.stop();
    this.#resting = true;
    this.#arrange();
  }

  #listen() {
    new ResizeObserver(() => this.#resize()).observe(this.screen);
    new IntersectionObserver((entries) => this.turning.seen(entries.some((one) => one.isIntersecting))).observe(this.calculator);
    // The theme's switch between light and dark changes every colour.
    new MutationObserver(() => this.#solid?.redress()).observe(document.body, { attributeFilter: ["data-md-color-scheme"] });
    document.addEventListener("keydown", (event) => {
      if (event.key === "Escape" && this.#data?.screen === "show" && !document.fullscreenElement) this.#leave();
    });
    document.addEventListener("fullscreenchange", () => {
      if (!document.fullscreenElement && this.#data?.screen === "show") this.#leave();
    });
    const { screen } = this;
    let dragged = 0;
    let [x, y] = [0, 0];
    screen.addEventListener("pointerdown", (event) => {
      [x, y, dragged] = [event.clientX, event.clientY, 0];
      if (event.target === this.#solid?.canvas) screen.setPointerCapture(event.pointerId);
    });
    screen.addEventListener("pointermove", (event) => {
      if (!screen.hasPointerCapture(event.pointerId) || !this.#solid) return;
      const [across, down] = [event.clientX - x, event.clientY - y];
      dragged += Math.abs(across) + Math.abs(down);
      [x, y] = [event.clientX, event.clientY];
      if (dragged > 6) this.#swing(across * 0.4, event.pointerType === "touch" ? 0 : down * 0.3);
    });
    screen.addEventListener("pointerup", (event) => {
      if (!screen.hasPointerCapture(event.pointerId) || dragged > 6 || !this.#solid) return;
      const box = screen.getBoundingClientRect();
      const part = this.#solid.partAt(event.clientX - box.left, event.clientY - box.top);
      this.#pick(part === this.#data?.part || part === "" ? "none" : part);
    });
    screen.addEventListener("keydown", (event) => {
      const moves = /** @type {Record<string, [number, number]>} */ ({ ArrowLeft: [-10, 0], ArrowRight: [10, 0], ArrowUp: [0, 10], ArrowDown: [0, -10] });
      const move = moves[event.key];
      if (!move) return;
      event.preventDefault();
      this.#swing(...move);
    });
  }

  /** @param {string} part */
  #pick(part) {
    this.enter("part", part);
  }

  /** @param {number} round @param {number} over */
  #swing(round, over) {
    this.#solid?.eye.swing(round, over);
    this.#solid?.place();
    for (const one of Object.values(this.panel.views)) one.setAttribute("aria-pressed", "false");
    this.#view = "";
  }

  /** What Python has worked out. @param {Data} data @param {boolean} [latest] false: the hand has moved on since */
  show(data, latest = true) {
    const first = this.#data === null;
    this.#data = data;
    if (this.#resting) {
      this.#resting = false;
      this.#arrange();
    }
    this.stage.hidden = false;
    this.turning.rpm = data.rpm;
    if (!this.turning.running) this.turning.angle = turned(data.angle);
    const [lever, forward, left] = data.hands;
    if (latest) {
      this.panel.lever.show(lever);
      this.panel.pad.show(forward, left);
    }
    if (this.panel.blade.options.length !== data.blades) {
      this.panel.blade.replaceChildren(...Array.from({ length: data.blades }, (_, k) => make("option", { value: String(k) }, [String(k + 1)])));
    }
    this.#screen(data);
    if (this.#solid) {
      if (data.view !== this.#view || first) {
        this.#view = data.view;
        this.#solid.eye.look(data.views[data.view] ?? [150, 24]);
      }
      if (first) this.#resize();
      this.#solid.show(data, this.turning.angle);
      this.#solid.canvas.setAttribute("aria-label", this.calculator.querySelector(".hd-drawing .hd-caption")?.textContent ?? "");
    }
    for (const [name, one] of Object.entries(this.panel.views)) one.setAttribute("aria-pressed", String(name === data.view));
    this.#tell();
  }

  #resize() {
    const { clientWidth, clientHeight } = this.screen;
    this.#solid?.size(clientWidth, clientHeight);
  }

  /** The rotor stands at a new angle. */
  #turned() {
    const { angle } = this.turning;
    if (this.solid && this.#solid) {
      this.#solid.turn(angle);
      this.#solid.render();
    } else this.enter("rotor_angle", this.#angleText(), true); // drawn by Python, a step at a time
    const now = performance.now();
    if (now - this.#cursorAt > CURSOR_PAUSE || !this.turning.running) {
      this.#cursorAt = now;
      /** @type {any} */ (this.calculator.querySelector("hd-chart"))?.cursor?.(angle);
      this.#tell();
    }
  }

  #angleText() {
    return String(Math.round(this.turning.angle * 100) / 100);
  }

  #stopped() {
    this.enter("rotor_angle", this.#angleText());
    this.#tell();
  }

  #tell() {
    const data = this.#data;
    if (!data) return;
    const { running, angle, share } = this.turning;
    this.panel.run.textContent = running ? "Stop" : "Turn slowly";
    this.panel.run.setAttribute("aria-pressed", String(running));
    const k = data.traced;
    const degrees = (/** @type {number[][]} */ rows) => `${(row(rows, angle)[k] ?? 0).toFixed(1).replace("-", "−")}°`;
    const speed = running ? ` Turning at 1/${share} of its real ${data.rpm} rpm.` : "";
    const drawn = data.stretch === 1 ? "" : ` Tilt, cyclic pitch and flap drawn ${data.stretch} times their size.`;
    this.panel.trace.textContent = `Rotor turned by ${Math.round(angle)}°. Blade ${k + 1}: pitch ${degrees(data.pitch)}, flap ${degrees(data.flap)}.${speed}${drawn}`;
  }

  /** @param {string} place */
  #over(place) {
    const data = this.#data;
    if (data) this.turning.to((data.places[place] ?? 0) - (Number(this.panel.blade.value || 0) * 360) / data.blades);
  }

  /** @param {Data} data */
  #screen(data) {
    const full = data.screen === "show";
    const { calculator } = this;
    if (calculator.classList.contains("hd-show") !== full) {
      calculator.classList.toggle("hd-show", full);
      document.documentElement.classList.toggle("hd-showing", full);
      requestAnimationFrame(() => this.#resize());
      if (this.#leaving && !full) this.panel.fill.focus(); // only now is it to be seen again
      this.#leaving = false;
    }
    calculator.dataset.controls = full ? data.controls : "all";
  }

  #fill() {
    this.enter("screen", "show");
    // Where the browser won't give the whole screen, the whole window has to do.
    void this.calculator.requestFullscreen?.().catch(() => undefined);
  }

  #leave() {
    if (document.fullscreenElement) void document.exitFullscreen();
    this.enter("screen", "page");
    this.#leaving = true;
  }

  /** @param {"png" | "svg"} kind */
  async #save(kind) {
    const data = this.#data;
    if (!data) return;
    const style = getComputedStyle(this.calculator);
    const words = (/** @type {string} */ place) => this.calculator.querySelector(place)?.textContent?.trim() ?? "";
    const head = words(".hd-head-label");
    const solid = this.solid ? this.#solid : null;
    const sheet = {
      ...(solid ? solid.box : { width: 680, height: 680 }),
      paper: style.getPropertyValue("--hd-paper").trim(),
      ink: style.getPropertyValue("--hd-ink").trim(),
      caption: [`${head}. ${words(".hd-sentence")}`, "Invented figures. For learning only: the manuals, local rules and licensed people decide."],
      spots: data.labels && solid ? solid.labels.spots : [],
    };
    const name = `${head.toLowerCase().replace(/[^a-z0-9]+/g, "-")}-${data.view}.${kind}`;
    const drawing = /** @type {SVGSVGElement | null} */ (this.calculator.querySelector(".hd-drawing svg"));
    if (solid) await saveSolid(kind, solid, sheet, name);
    else if (drawing) await saveDrawing(kind, drawing, sheet, name);
  }

  /** For tests: where the joints are drawn now, and what the graphics hold. */
  where() {
    return { angle: this.turning.angle, ...this.#solid?.model?.where() };
  }

  memory() {
    const info = this.#solid?.renderer.info;
    return { geometries: info?.memory.geometries, textures: info?.memory.textures, programs: info?.programs?.length };
  }

  /** @returns {WebGLRenderingContext | WebGL2RenderingContext | undefined} */
  get context() {
    return this.#solid?.renderer.getContext();
  }
}

window.handToDiscHeadView = (calculator, stage, enter) => new HeadView(calculator, stage, enter);
