/** A pair of scissors: two flat arms with hinge pins, and what they are hinged to. */

import { Group, Vector3 } from "three";
import { between, box, rod, solid } from "./shapes.js";

const RING = new Vector3();
const APEX = new Vector3();
const ANCHOR = new Vector3();
const SIDE = new Vector3();
const UP = new Vector3(0, 0, 1);

/**
 * @param {string} part @param {boolean} turns @param {number} unit
 * @param {Vector3} anchor where the upper, or lower, arm is hinged
 * @param {number | null} low for the stationary pair: the gearbox it stands on
 */
export function buildScissors(part, turns, unit, anchor, low) {
  const group = new Group();
  const arms = [0, 1].map((i) => {
    const one = solid(box((i ? 0.16 : 0.24) * unit, 0.07 * unit, 1).translate(0, 0, 0.5), part, "structure", turns);
    group.add(one);
    return one;
  });
  const pins = [0, 1, 2].map(() => {
    const pin = solid(rod(0.055 * unit, 0.34 * unit).translate(0, 0, -0.17 * unit), part, "ink", turns);
    group.add(pin);
    return pin;
  });
  const out = Math.hypot(anchor.x, anchor.y);
  const way = Math.atan2(anchor.y, anchor.x);
  const bracket = new Group();
  bracket.rotation.z = way;
  if (low === null) {
    // A collar round the mast, with an ear that carries the hinge.
    const collar = solid(rod(0.22 * unit, 0.2 * unit), part, "structure", turns);
    collar.position.z = anchor.z - 0.1 * unit;
    const ear = solid(box(Math.max(0.05 * unit, out), 0.2 * unit, 0.14 * unit), part, "structure", turns);
    ear.position.set(out / 2, 0, anchor.z);
    bracket.add(collar, ear);
  } else {
    const post = solid(box(0.16 * unit, 0.2 * unit, Math.max(0.05 * unit, anchor.z - low)), part, "structure", turns);
    post.position.set(out, 0, (anchor.z + low) / 2);
    bracket.add(post);
  }
  group.add(bracket);
  return {
    group,
    elbow: pins[1],
    /** @param {number[]} numbers ring, apex, anchor */
    pose(numbers) {
      const ends = [RING, APEX, ANCHOR].map((into, i) => into.set(numbers[3 * i] ?? 0, numbers[3 * i + 1] ?? 0, numbers[3 * i + 2] ?? 0));
      const [ring = RING, apex = APEX, hung = ANCHOR] = ends;
      // Flat arms hinge about a pin square to the plane they fold in.
      SIDE.crossVectors(UP, hung).normalize();
      if (arms[0]) between(arms[0], hung, apex, 1, SIDE);
      if (arms[1]) between(arms[1], apex, ring, 1, SIDE);
      pins.forEach((pin, i) => {
        pin.position.copy(ends[i] ?? RING);
        pin.quaternion.setFromUnitVectors(UP, SIDE);
      });
    },
  };
}
