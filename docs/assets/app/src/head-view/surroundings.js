/** What stands round the head: the gearbox top, the bearing rose on the ground, nose arrow, way of turning, the disc. */

import { BufferAttribute, BufferGeometry, Group, Line, LineLoop, LineSegments, Mesh, Shape, ShapeGeometry, Vector3 } from "three";
import { row } from "./data.js";
import { rod, solid } from "./shapes.js";

const TURN = Math.PI / 180;

/** @param {Vector3[]} points */
const through = (points) => new BufferGeometry().setFromPoints(points);

/** @param {import("./data.js").Scene} scene @param {number} low @param {number} out @param {number} unit */
export function buildGround(scene, low, out, unit) {
  const group = new Group();
  const gearbox = solid(rod(scene.rodRadius + 0.35 * unit, 0.16 * unit), "gearbox", "structure", false);
  gearbox.position.z = low - 0.16 * unit;
  group.add(gearbox);
  const z = low - 0.16 * unit;
  /** @param {number} bearing degrees @param {number} radius */
  const at = (bearing, radius) => new Vector3(radius * Math.sin(bearing * TURN), radius * Math.cos(bearing * TURN), z);
  const ticks = [];
  for (let bearing = 0; bearing < 360; bearing += 10) {
    ticks.push(at(bearing, (bearing % 30 === 0 ? 0.9 : 0.94) * out), at(bearing, 0.98 * out));
  }
  const rose = new LineSegments(through(ticks));
  const rim = new LineLoop(through(Array.from({ length: 72 }, (_, i) => at(5 * i, 0.98 * out))));
  rose.userData = { line: "structure" };
  rim.userData = { line: "structure" };
  // The nose: a flat arrow outside the rose.
  const arrow = new Shape();
  arrow.moveTo(0, 1.2 * out).lineTo(0.09 * out, 1.01 * out).lineTo(-0.09 * out, 1.01 * out).closePath();
  const nose = new Mesh(new ShapeGeometry(arrow));
  nose.position.z = z;
  nose.userData = { veil: "ink", opacity: 0.85 };
  // The way it turns, above the disc's edge on the right and on the left.
  group.add(rose, rim, nose);
  for (const side of [0, 180]) {
    const way = -scene.sense;
    const from = 90 + side - 16 * way;
    const arc = Array.from({ length: 17 }, (_, i) => at(from + 2 * i * way, 1.07 * out));
    const line = new Line(through(arc));
    line.userData = { line: "ink" };
    const tip = at(from + 38 * way, 1.07 * out);
    const [inner, outside] = [at(from + 31 * way, 1.04 * out), at(from + 31 * way, 1.1 * out)];
    const head = new Mesh(through([tip, inner, outside]));
    head.userData = { veil: "ink", opacity: 0.85 };
    group.add(line, head);
  }
  return group;
}

/** The surface the blades' roots sweep, and its rim. @param {number} steps */
export function discShape(steps) {
  const group = new Group();
  const rim = new BufferGeometry();
  rim.setAttribute("position", new BufferAttribute(new Float32Array(3 * steps), 3));
  const sweep = new BufferGeometry();
  sweep.setAttribute("position", new BufferAttribute(new Float32Array(3 * 2 * steps), 3));
  const faces = [];
  for (let i = 0; i < steps; i += 1) {
    const j = (i + 1) % steps;
    faces.push(2 * i, 2 * i + 1, 2 * j, 2 * j, 2 * i + 1, 2 * j + 1);
  }
  sweep.setIndex(faces);
  const edge = new LineLoop(rim);
  edge.userData = { line: "disc" };
  const surface = new Mesh(sweep);
  surface.userData = { veil: "disc", opacity: 0.13 };
  surface.renderOrder = 2;
  surface.raycast = () => {};
  group.add(edge, surface);
  return {
    group,
    /** @param {import("./data.js").Scene} scene @param {number} out */
    fill(scene, out) {
      const [edges, surfaces] = [rim.getAttribute("position"), sweep.getAttribute("position")];
      for (let i = 0; i < steps; i += 1) {
        const angle = (360 * i) / steps;
        const flap = (row(scene.flap, angle)[0] ?? 0) * scene.stretch * TURN;
        const turn = scene.sense * angle * TURN;
        for (const [k, along] of [out - scene.hinge, 0.62 * out - scene.hinge].entries()) {
          const r = scene.hinge + along * Math.cos(flap);
          const z = scene.rise + along * Math.sin(flap);
          surfaces.setXYZ(2 * i + k, r * Math.sin(turn), -r * Math.cos(turn), z);
          if (k === 0) edges.setXYZ(i, r * Math.sin(turn), -r * Math.cos(turn), z);
        }
      }
      edges.needsUpdate = true;
      surfaces.needsUpdate = true;
      rim.computeBoundingSphere();
      sweep.computeBoundingSphere();
    },
  };
}
