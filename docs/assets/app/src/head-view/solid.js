/** The solid picture itself: renderer, light, model and names. Throws where the browser has no WebGL. */

import { AmbientLight, DirectionalLight, Raycaster, Scene, Vector2, WebGLRenderer } from "three";
import { Eye } from "./camera.js";
import { Labels } from "./labels.js";
import { Materials, palette } from "./materials.js";
import { Model, shapeOf } from "./model.js";

/** @typedef {import("./data.js").Scene} Data */

/** Whether a graphics card paints; without one smooth edges would cost half of the frames. */
function hasGraphics() {
  const context = document.createElement("canvas").getContext("webgl2", { failIfMajorPerformanceCaveat: true });
  context?.getExtension("WEBGL_lose_context")?.loseContext(); // browsers allow a page only a few
  return context !== null;
}

export class Solid {
  eye = new Eye();
  /** @type {Data | null} */
  data = null;
  #scene = new Scene();
  /** @type {Model | null} */
  model = null;
  #shape = "";
  /** @type {Materials | null} */
  #materials = null;
  #picked = "";
  #tagged = "";
  #width = 1;
  #height = 1;
  #far = new DirectionalLight(0xffffff, 1.5);

  /** @param {HTMLElement} host @param {(part: string) => void} pick */
  constructor(host, pick) {
    this.host = host;
    this.canvas = document.createElement("canvas");
    const quick = hasGraphics();
    this.renderer = new WebGLRenderer({ canvas: this.canvas, antialias: quick, alpha: true });
    this.renderer.setPixelRatio(quick ? Math.min(2, devicePixelRatio || 1) : 1);
    host.append(this.canvas);
    this.labels = new Labels(host, pick);
    this.#scene.add(new AmbientLight(0xffffff, 2.1), this.#far);
  }

  /** @param {Data} data @param {number} angle */
  show(data, angle) {
    this.data = data;
    const shape = shapeOf(data);
    if (shape !== this.#shape || !this.model) {
      this.#shape = shape;
      if (this.model) {
        this.#scene.remove(this.model.root);
        this.model.dispose();
      }
      this.model = new Model(data);
      this.#scene.add(this.model.root);
      this.#tagged = "";
      this.#dress();
    }
    const picked = data.part === "none" || !(data.part in data.names) ? "" : data.part;
    if (picked !== this.#picked) {
      this.#picked = picked;
      this.#paint();
    }
    this.model.disc(data);
    this.turn(angle);
    this.#tag();
    this.place();
  }

  /** New colours: the theme has changed, or the head. */
  #dress() {
    this.#materials?.dispose();
    this.#materials = new Materials(palette(this.host), (this.model?.size ?? 200) * 0.34);
    this.#paint();
  }

  redress() {
    this.#dress();
    this.render();
  }

  #paint() {
    if (this.#materials) this.model?.paint(this.#materials, this.#picked);
  }

  /** Names are made anew only when they are others. */
  #tag() {
    const { data, model } = this;
    if (!data || !model) return;
    const narrow = this.#width < 440;
    const wanted = JSON.stringify([data.labels, narrow, data.names, data.blades, data.rods.length, data.actuators]);
    if (wanted === this.#tagged) return;
    this.#tagged = wanted;
    const tags = Object.entries(data.names).flatMap(([part, text]) => {
      const at = model.spot(part);
      if (!at || (part === "actuators" && !data.actuators)) return [];
      return [{ part, text, note: narrow ? "" : data.turns[part] ? "turns" : "stays", at }];
    });
    this.labels.name(tags, model.numbered());
    this.labels.show(data.labels);
  }

  /** @param {number} angle degrees */
  turn(angle) {
    if (!this.data || !this.model) return;
    this.model.pose(this.data, angle);
  }

  /** The picture's size and the eye's place have changed, or the names. */
  place() {
    const { data, model } = this;
    if (!data || !model) return;
    this.eye.fit(model.low - 0.2 * model.size, model.top, 1.12 * model.out);
    // Light from over the eye's left shoulder, wherever it looks from.
    const b = ((this.eye.bearing - 35) * Math.PI) / 180;
    this.#far.position.set(Math.sin(b), Math.cos(b), 1.3);
    this.labels.place(this.eye.camera, this.#picked);
    this.render();
  }

  /** @param {number} width @param {number} height */
  size(width, height) {
    if (width < 2 || height < 2) return;
    this.#width = width;
    this.#height = height;
    this.renderer.setSize(width, height, false);
    this.eye.shape(width / height);
    this.labels.size(width, height);
    this.#tag();
    this.place();
  }

  render() {
    this.renderer.render(this.#scene, this.eye.camera);
    this.labels.follow(this.eye.camera);
  }

  /** The part under a point of the picture, "" for none. @param {number} x @param {number} y */
  partAt(x, y) {
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * x) / this.#width - 1, 1 - (2 * y) / this.#height), this.eye.camera);
    for (const hit of ray.intersectObjects(this.#scene.children, true)) {
      const part = hit.object.userData.part;
      if (part) return part in (this.data?.names ?? {}) ? String(part) : "";
    }
    return "";
  }

  get scene() {
    return this.#scene;
  }

  get box() {
    return { width: this.#width, height: this.#height };
  }

  dispose() {
    this.model?.dispose();
    this.#materials?.dispose();
    this.renderer.dispose();
    this.canvas.remove();
    this.labels.box.remove();
  }
}
