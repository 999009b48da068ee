/**
 * What Python says of a turn (rotorhead/motion/scene.py), and places between its steps.
 *
 * @typedef {{bearing: number, joint: number[], foot: number[]}} Rod
 * @typedef {object} Scene
 * @property {1 | -1} sense turn about z for a rotor that goes on
 * @property {number} steps
 * @property {number} angle
 * @property {number} blades
 * @property {string} type
 * @property {string} rotation
 * @property {number} rise
 * @property {number} hinge
 * @property {number} station
 * @property {number} arm
 * @property {boolean} rides
 * @property {number} chord
 * @property {number} out how far out the blades' roots are drawn
 * @property {number} ringRadius
 * @property {number} rodRadius
 * @property {number} levelPitch
 * @property {number} actuators
 * @property {number} rpm
 * @property {Record<string, number>} places
 * @property {number} stretch
 * @property {string} kind
 * @property {number} number
 * @property {number[]} centre
 * @property {number[]} still
 * @property {Rod[]} rods
 * @property {number[]} stationary
 * @property {number[][]} ring
 * @property {number[][]} drive
 * @property {number[][]} feet
 * @property {number[][]} horns
 * @property {number[][]} pitch
 * @property {number[][]} flap
 * @property {string} view
 * @property {Record<string, [number, number]>} views
 * @property {boolean} labels
 * @property {string} part
 * @property {number} traced
 * @property {Record<string, string>} names
 * @property {Record<string, boolean>} turns
 * @property {[number, number, number]} hands
 * @property {string} screen
 * @property {string} controls
 */

/**
 * A row between two steps, going straight from one to the next.
 * @param {number[][]} rows @param {number} angle degrees
 */
export function row(rows, angle) {
  const place = ((((angle % 360) + 360) % 360) / 360) * rows.length;
  const i = Math.floor(place) % rows.length;
  const t = place - Math.floor(place);
  const from = rows[i] ?? [];
  const to = rows[(i + 1) % rows.length] ?? [];
  return from.map((value, k) => value + t * ((to[k] ?? value) - value));
}

/** @param {number} angle degrees, brought to 0 … 360 */
export function turned(angle) {
  return ((angle % 360) + 360) % 360;
}
