/** Colours and patterns of the solid view. What turns is hatched in its own frame, so the pattern goes round with it. */

import { Color, DoubleSide, LineBasicMaterial, MeshBasicMaterial, MeshLambertMaterial } from "three";

/** The site's roles, read from its one stylesheet. @typedef {Record<"hand" | "plate" | "pitch" | "disc" | "structure" | "ink" | "paper", Color>} Palette */

/** @param {Element} host @returns {Palette} */
export function palette(host) {
  const style = getComputedStyle(host);
  const read = (/** @type {string} */ role) => {
    const text = style.getPropertyValue(`--hd-${role}`).trim();
    // Windows' own colours come as words that three.js doesn't know.
    const probe = /^#/.test(text) ? text : style.color;
    return new Color().setStyle(probe);
  };
  return /** @type {Palette} */ (Object.fromEntries(["hand", "plate", "pitch", "disc", "structure", "ink", "paper"].map((role) => [role, read(role)])));
}

/** How far a still part's colour is mixed with the paper; a turning part keeps its full tone. */
const STILL_TONE = 0.07;
/** How far everything but the picked part is. */
const FADED = 0.8;

export class Materials {
  /** @type {Map<string, MeshLambertMaterial | MeshBasicMaterial | LineBasicMaterial>} */
  #made = new Map();

  /** @param {Palette} colours @param {number} pitch distance between two strokes of the hatching, mm */
  constructor(colours, pitch) {
    this.colours = colours;
    this.pitch = pitch;
  }

  /**
   * @param {keyof Palette} role @param {boolean} turns @param {boolean} faded
   * @returns {MeshLambertMaterial}
   */
  solid(role, turns, faded) {
    const key = `${role} ${turns} ${faded}`;
    const known = this.#made.get(key);
    if (known) return /** @type {MeshLambertMaterial} */ (known);
    const { paper } = this.colours;
    const colour = this.colours[role].clone().lerp(paper, turns ? 0 : STILL_TONE);
    if (faded) colour.lerp(paper, FADED);
    const made = new MeshLambertMaterial({ color: colour, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
    if (turns) hatch(made, this.pitch, faded ? 0.93 : 0.72);
    this.#made.set(key, made);
    return made;
  }

  /** @param {boolean} faded */
  edge(faded) {
    const key = `edge ${faded}`;
    const known = this.#made.get(key);
    if (known) return /** @type {LineBasicMaterial} */ (known);
    const colour = this.colours.ink.clone().lerp(this.colours.paper, faded ? 0.75 : 0.1);
    const made = new LineBasicMaterial({ color: colour });
    this.#made.set(key, made);
    return made;
  }

  /** @param {keyof Palette} role @param {number} opacity */
  veil(role, opacity) {
    const key = `veil ${role} ${opacity}`;
    const known = this.#made.get(key);
    if (known) return /** @type {MeshBasicMaterial} */ (known);
    const made = new MeshBasicMaterial({ color: this.colours[role], transparent: true, opacity, side: DoubleSide, depthWrite: false });
    this.#made.set(key, made);
    return made;
  }

  /** @param {keyof Palette} role */
  line(role) {
    const key = `line ${role}`;
    const known = this.#made.get(key);
    if (known) return /** @type {LineBasicMaterial} */ (known);
    const made = new LineBasicMaterial({ color: this.colours[role] });
    this.#made.set(key, made);
    return made;
  }

  dispose() {
    for (const made of this.#made.values()) made.dispose();
    this.#made.clear();
  }
}

/** Slanting strokes over a material, in the part's own coordinates. @param {MeshLambertMaterial} material @param {number} pitch @param {number} dark */
function hatch(material, pitch, dark) {
  material.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader
      .replace("#include <common>", "#include <common>\nvarying vec3 vPlace;")
      .replace("#include <begin_vertex>", "#include <begin_vertex>\nvPlace = position;");
    shader.fragmentShader = shader.fragmentShader
      .replace("#include <common>", "#include <common>\nvarying vec3 vPlace;")
      .replace(
        "#include <color_fragment>",
        `#include <color_fragment>
        float wave = (vPlace.x + vPlace.y + vPlace.z) / ${pitch.toFixed(3)};
        float soft = fwidth(wave);
        float stroke = smoothstep(0.5 - soft, 0.5 + soft, abs(fract(wave) - 0.5) * 2.0);
        diffuseColor.rgb *= mix(${dark.toFixed(2)}, 1.0, mix(stroke, 0.5, clamp(soft * 1.4 - 0.4, 0.0, 1.0)));`,
      );
  };
  material.customProgramCacheKey = () => `hatch ${pitch} ${dark}`;
}
