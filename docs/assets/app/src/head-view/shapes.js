/** Small solids the head is put together from; each comes with its drawn edges. Millimetres, z up. */

import {
  BoxGeometry,
  CylinderGeometry,
  EdgesGeometry,
  ExtrudeGeometry,
  LatheGeometry,
  LineSegments,
  Matrix4,
  Mesh,
  Shape,
  SphereGeometry,
  Vector2,
  Vector3,
} from "three";

/** @typedef {import("three").BufferGeometry} Geometry */

const ROUND = 24;

/** A cylinder along z from 0 to `length`. @param {number} radius @param {number} length @param {number} [top] @returns {Geometry} */
export function rod(radius, length, top = radius) {
  return new CylinderGeometry(top, radius, length, ROUND).rotateX(Math.PI / 2).translate(0, 0, length / 2);
}

/** @param {number} radius @param {number} [round] facets about it @returns {Geometry} */
export function ball(radius, round = 20) {
  return new SphereGeometry(radius, round, round / 2);
}

/** @param {number} x @param {number} y @param {number} z @returns {Geometry} */
export function box(x, y, z) {
  return new BoxGeometry(x, y, z);
}

/** A flat ring round z. @param {number} inner @param {number} outer @param {number} low @param {number} high @returns {Geometry} */
export function ring(inner, outer, low, high) {
  const profile = [
    [inner, low],
    [outer, low],
    [outer, high],
    [inner, high],
    [inner, low],
  ].map(([r = 0, z = 0]) => new Vector2(r, z));
  return new LatheGeometry(profile, 48).rotateX(Math.PI / 2);
}

/**
 * A plate along x from `from` to `to`, narrowing, lying between two heights.
 * @param {number} from @param {number} to @param {number} wide @param {number} narrow @param {number} low @param {number} high
 * @returns {Geometry}
 */
export function lug(from, to, wide, narrow, low, high) {
  const shape = new Shape();
  shape.moveTo(from, -wide / 2).lineTo(to, -narrow / 2);
  shape.absarc(to, 0, narrow / 2, -Math.PI / 2, Math.PI / 2, from > to);
  shape.lineTo(from, wide / 2).closePath();
  return new ExtrudeGeometry(shape, { depth: high - low, bevelEnabled: false, curveSegments: 10 }).translate(0, 0, low);
}

/** A blade's section drawn out along x; y ahead, z up, the feathering axis at its quarter chord. @param {number} from @param {number} to @param {number} chord @returns {Geometry} */
export function aerofoil(from, to, chord) {
  const shape = new Shape();
  const half = (/** @type {number} */ t) => 0.6 * chord * (0.2969 * Math.sqrt(t) - 0.126 * t - 0.3516 * t * t + 0.2843 * t ** 3 - 0.1036 * t ** 4);
  const steps = 18;
  // Spaced closely at the round leading edge.
  const at = (/** @type {number} */ i) => (1 - Math.cos((Math.PI * i) / steps)) / 2;
  for (let i = 0; i <= steps; i += 1) {
    const t = at(i);
    if (i === 0) shape.moveTo(0.25 * chord, 0);
    else shape.lineTo((0.25 - t) * chord, half(t));
  }
  for (let i = steps - 1; i > 0; i -= 1) shape.lineTo((0.25 - at(i)) * chord, -half(at(i)));
  shape.closePath();
  const turned = new Matrix4().makeBasis(new Vector3(0, 1, 0), new Vector3(0, 0, 1), new Vector3(1, 0, 0));
  return new ExtrudeGeometry(shape, { depth: to - from, bevelEnabled: false }).applyMatrix4(turned).translate(from, 0, 0);
}

/**
 * A solid with its edges, marked with the part it belongs to.
 * @param {Geometry} geometry @param {string} part @param {keyof import("./materials.js").Palette} role @param {boolean} turns
 */
export function solid(geometry, part, role, turns) {
  const mesh = new Mesh(geometry);
  const edges = new LineSegments(new EdgesGeometry(geometry, 32));
  edges.raycast = () => {};
  mesh.add(edges);
  mesh.userData = { part, role, turns };
  return mesh;
}

const X = new Vector3();
const Y = new Vector3();
const Z = new Vector3();
const BASIS = new Matrix4();

/**
 * Lay something built along z between two points; `side` tells which way its x looks.
 * @param {import("three").Object3D} thing @param {Vector3} from @param {Vector3} to @param {number} length the length it was built with
 * @param {Vector3} [side]
 */
export function between(thing, from, to, length, side) {
  Z.subVectors(to, from);
  const size = Z.length() || 1;
  Z.divideScalar(size);
  X.copy(side ?? (Math.abs(Z.z) > 0.9 ? X.set(1, 0, 0) : X.set(0, 0, 1)));
  Y.crossVectors(Z, X).normalize();
  X.crossVectors(Y, Z);
  thing.quaternion.setFromRotationMatrix(BASIS.makeBasis(X, Y, Z));
  thing.position.copy(from);
  thing.scale.set(1, 1, size / length);
}
