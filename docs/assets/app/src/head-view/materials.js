/** Colours and patterns of the solid view. What turns is hatched in its own frame, so the pattern goes round with it. */

import { Color, DoubleSide, LineBasicMaterial, MeshBasicMaterial, MeshLambertMaterial } from "three";

/** The site's roles, read from its one stylesheet. @typedef {Record<"hand" | "plate" | "pitch" | "disc" | "structure" | "ink" | "paper", Color>} Palette */

/** @param {Element} host @returns {Palette} */
export function palette(host) {
  // The system's own colours come as words that three.js doesn't know: the browser says what they are.
  const probe = document.createElement("i");
  probe.style.setProperty("forced-color-adjust", "none");
  host.append(probe);
  const read = (/** @type {string} */ role) => {
    probe.style.color = `var(--hd-${role})`;
    return new Color().setStyle(getComputedStyle(probe).color);
  };
  const colours = Object.fromEntries(["hand", "plate", "pitch", "disc", "structure", "ink", "paper"].map((role) => [role, read(role)]));
  probe.remove();
  return /** @type {Palette} */ (colours);
}

/** Colours the reader has forced: there is ink and paper only, and a part in ink would be a silhouette. */
const forced = () => matchMedia("(forced-colors: active)").matches;
/** How far towards ink a part's faces go then; its edges and its hatching are ink. */
const FORCED_TONE = { still: 0.04, turns: 0.16 };

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
    const { paper, ink } = this.colours;
    const colour = forced()
      ? paper.clone().lerp(ink, turns ? FORCED_TONE.turns : FORCED_TONE.still)
      : this.colours[role].clone().lerp(paper, turns ? 0 : STILL_TONE);
    if (faded) colour.lerp(paper, FADED);
    const made = new MeshLambertMaterial({ color: colour, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
    if (turns && forced()) hatch(made, this.pitch, faded ? 0.9 : 0.35, ink);
    else if (turns) hatch(made, this.pitch, faded ? 0.93 : 0.72);
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

/**
 * Slanting strokes over a material, in the part's own coordinates.
 * @param {MeshLambertMaterial} material @param {number} pitch
 * @param {number} dark what a stroke leaves of the part's colour; the rest is the stroke's own
 * @param {Color} [own] of the stroke
 */
function hatch(material, pitch, dark, own = new Color(0, 0, 0)) {
  const stroke = own.toArray().map((part) => part.toFixed(4));
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
        float left = mix(${dark.toFixed(2)}, 1.0, mix(stroke, 0.5, clamp(soft * 1.4 - 0.4, 0.0, 1.0)));
        diffuseColor.rgb = mix(vec3(${stroke.join(", ")}), diffuseColor.rgb, left);`,
      );
  };
  material.customProgramCacheKey = () => `hatch ${pitch} ${dark} ${stroke.join(" ")}`;
}
