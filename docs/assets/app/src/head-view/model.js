/**
 * The solid head: built once for a head, then only moved. Joints, axes and angles are Python's; thicknesses and the
 * sizes of bearings, grips and actuators are drawn, in proportion to the plate.
 */

import { Group, InstancedMesh, Matrix4, Mesh, Vector3 } from "three";
import { buildBlade } from "./blade.js";
import { row } from "./data.js";
import { ball, between, lug, ring, rod, solid } from "./shapes.js";
import { buildScissors } from "./scissors.js";
import { buildGround, discShape } from "./surroundings.js";

/** @typedef {import("./data.js").Scene} Scene */
/** @typedef {import("three").Object3D} Thing */
/** @typedef {import("./materials.js").Materials} Materials */

const BASIS = new Matrix4();
const A = new Vector3();
const B = new Vector3();
const C = new Vector3();
const TURN = Math.PI / 180;

/** @param {number[]} numbers @param {number} [i] which point of the row @param {Vector3} [into] */
export function point(numbers, i = 0, into = new Vector3()) {
  return into.set(numbers[3 * i] ?? 0, numbers[3 * i + 1] ?? 0, numbers[3 * i + 2] ?? 0);
}

/** The lowest thing: under the rods' feet at their lowest, so that nothing moves the ground. @param {Scene} scene */
export function ground(scene) {
  return -1.8 * scene.rodRadius;
}

/** Everything that makes another solid than the last one. @param {Scene} scene */
export function shapeOf(scene) {
  const { blades, rise, hinge, station, arm, rides, chord, ringRadius, rodRadius, actuators, rods, type, sense } = scene;
  const hung = [scene.stationary, scene.drive[0]].map((numbers) => [...(numbers ?? [])].slice(6));
  return JSON.stringify([blades, rise, hinge, station, arm, rides, chord, ringRadius, rodRadius, actuators, type, sense, rods.map((one) => one.bearing), hung]);
}

export class Model {
  root = new Group();
  #turning = new Group();
  #stillRing = new Group();
  #turningRing = new Group();
  #bearing = new Group();
  /** @type {{rod: Thing, piston: Thing, length: number}[]} */
  #rods = [];
  /** @type {ReturnType<typeof buildBlade>[]} */
  #blades = [];
  /** @type {Thing[]} */
  #links = [];
  /** The balls at the ends of the rings' arms: of the one that turns, of the one that stays. @type {Thing[]} */
  #eyes = [];
  /** @type {Thing[]} */
  #stillEyes = [];
  /** @type {Thing[]} */
  #bodies = [];
  #linkLength = 1;
  #stationary;
  #drive;
  /** @type {ReturnType<typeof discShape>} */
  #disc;

  /** @param {Scene} scene */
  constructor(scene) {
    this.size = Math.min(scene.ringRadius, scene.rodRadius);
    const unit = this.size;
    this.low = ground(scene);
    this.out = scene.out;
    this.root.add(this.#turning, this.#stillRing, this.#bearing, buildGround(scene, this.low, this.out, unit));
    this.#turning.add(this.#turningRing);

    // The spherical bearing on its sleeve: slides with the plate, never turns.
    this.#bearing.add(solid(ball(0.3 * unit), "bearing", "structure", false));
    const sleeve = solid(rod(0.2 * unit, 1.15 * unit), "bearing", "structure", false);
    sleeve.position.z = -0.75 * unit;
    this.#bearing.add(sleeve);

    this.#buildRings(scene, unit);
    this.#buildRods(scene, unit);

    this.top = scene.rise + 0.34 * unit;
    const mast = solid(rod(0.14 * unit, this.top - this.low), "mast", "structure", true);
    mast.position.z = this.low;
    const hub = solid(rod(0.27 * unit, 0.36 * unit), "grips", "structure", true);
    hub.position.z = scene.rise - 0.18 * unit;
    this.#turning.add(mast, hub);

    this.#stationary = buildScissors("stationary-scissors", false, unit, point(scene.stationary, 2), this.low);
    this.#drive = buildScissors("drive-scissors", true, unit, point(scene.drive[0] ?? [], 2), null);
    this.root.add(this.#stationary.group);
    this.#turning.add(this.#drive.group);

    const [foot, horn] = [point(scene.feet[0] ?? []), point(scene.horns[0] ?? [])];
    this.#linkLength = foot.distanceTo(horn);
    for (let k = 0; k < scene.blades; k += 1) {
      const blade = buildBlade(scene, k, unit, this.out);
      this.#blades.push(blade);
      const link = new Group();
      link.add(solid(rod(0.05 * unit, this.#linkLength), "links", "plate", true));
      const ends = [0, this.#linkLength].map((z) => {
        const end = solid(ball(0.085 * unit), "links", "plate", true);
        end.position.z = z;
        return end;
      });
      link.add(...ends);
      this.#links.push(link);
      this.#turning.add(blade.root, link);
    }
    this.#disc = discShape(scene.steps);
    this.root.add(this.#disc.group);
  }

  /** @param {Scene} scene @param {number} unit */
  #buildRings(scene, unit) {
    const centre = point(scene.centre);
    this.#stillRing.add(solid(ring(0.31 * unit, 0.62 * unit, -0.17 * unit, -0.03 * unit), "stationary-ring", "plate", false));
    this.#turningRing.add(solid(ring(0.4 * unit, 0.72 * unit, 0.05 * unit, 0.19 * unit), "rotating-ring", "plate", true));
    // The main bearing shows as a thin race with its balls between the two rings.
    const race = solid(ring(0.38 * unit, 0.6 * unit, -0.03 * unit, 0.05 * unit), "main-bearing", "structure", true);
    this.#turningRing.add(race);
    const balls = new InstancedMesh(ball(0.045 * unit, 10), undefined, 30);
    balls.userData = { part: "main-bearing", role: "ink", turns: true };
    for (let i = 0; i < 30; i += 1) {
      balls.setMatrixAt(i, BASIS.makeTranslation(0.63 * unit * Math.cos((i * Math.PI) / 15), 0.63 * unit * Math.sin((i * Math.PI) / 15), 0.01 * unit));
    }
    this.#turningRing.add(balls);
    const still = plane(scene.still);
    for (const one of scene.rods) this.#lug(this.#stillRing, point(one.joint).sub(centre), still, 0.55 * unit, "stationary-ring", false, unit);
    // A ring's first axis runs toward its scissors' place, also while they are off or have play and hang elsewhere.
    const held = (/** @type {number[]} */ fold, /** @type {Vector3[]} */ [along]) => (along ?? A).clone().multiplyScalar(point(fold).distanceTo(centre));
    this.#lug(this.#stillRing, held(scene.stationary, still), still, 0.55 * unit, "stationary-ring", false, unit);
    const axes = plane(scene.ring[0] ?? []);
    for (let k = 0; k < scene.blades; k += 1) {
      this.#lug(this.#turningRing, point(scene.feet[0] ?? [], k).sub(centre), axes, 0.64 * unit, "rotating-ring", true, unit);
    }
    this.#lug(this.#turningRing, held(scene.drive[0] ?? [], axes), axes, 0.64 * unit, "rotating-ring", true, unit);
  }

  /**
   * An arm from a ring's rim to a joint that lies in the ring's own plane.
   * @param {Group} group @param {Vector3} joint from the centre @param {Vector3[]} axes @param {number} rim
   * @param {string} part @param {boolean} turns @param {number} unit
   */
  #lug(group, joint, axes, rim, part, turns, unit) {
    const x = joint.dot(axes[0] ?? A);
    const y = joint.dot(axes[1] ?? A);
    const reach = Math.hypot(x, y);
    const [low, high] = turns ? [0.05, 0.15] : [-0.14, -0.04];
    const arm = solid(lug(rim, Math.max(reach, rim + 0.05 * unit), 0.3 * unit, 0.2 * unit, low * unit, high * unit), part, "plate", turns);
    arm.rotation.z = Math.atan2(y, x);
    // The joint's own ball hangs below or stands above its arm.
    const eye = solid(ball(0.08 * unit), part, "plate", turns);
    eye.position.set(reach, 0, 0);
    arm.add(eye);
    group.add(arm);
    (turns ? this.#eyes : this.#stillEyes).push(eye);
  }

  /** @param {Scene} scene @param {number} unit */
  #buildRods(scene, unit) {
    for (const one of scene.rods) {
      const length = point(one.joint, 0, A).distanceTo(point(one.foot, 0, B));
      const made = new Group();
      made.add(solid(rod(0.075 * unit, length), "rods", "hand", false));
      for (const z of [0, length]) {
        const end = solid(ball(0.11 * unit), "rods", "hand", false);
        end.position.z = z;
        made.add(end);
      }
      const piston = solid(rod(0.05 * unit, 1), scene.actuators ? "actuators" : "rods", scene.actuators ? "structure" : "hand", false);
      const body = solid(rod((scene.actuators ? 0.15 : 0.085) * unit, 0.5 * scene.rodRadius), scene.actuators ? "actuators" : "rods", "structure", false);
      body.position.set(one.foot[0] ?? 0, one.foot[1] ?? 0, this.low);
      this.root.add(made, piston, body);
      this.#bodies.push(body);
      this.#rods.push({ rod: made, piston, length });
    }
  }

  /**
   * Put everything where it is with the rotor turned by `angle`.
   * @param {Scene} scene @param {number} angle degrees
   */
  pose(scene, angle) {
    this.#turning.rotation.z = scene.sense * angle * TURN;
    const centre = point(scene.centre, 0, A);
    this.#bearing.position.copy(centre);
    frame(this.#stillRing, centre, scene.still);
    frame(this.#turningRing, centre, row(scene.ring, angle));
    scene.rods.forEach((one, i) => {
      const made = this.#rods[i];
      if (!made) return;
      between(made.rod, point(one.foot, 0, B), point(one.joint, 0, C), made.length);
      between(made.piston, C.set(one.foot[0] ?? 0, one.foot[1] ?? 0, this.low + 0.4 * scene.rodRadius), B, 1);
    });
    this.#stationary.pose(scene.stationary);
    this.#drive.pose(row(scene.drive, angle));
    const feet = row(scene.feet, angle);
    const horns = row(scene.horns, angle);
    const [pitch, flap] = [row(scene.pitch, angle), row(scene.flap, angle)];
    for (let k = 0; k < scene.blades; k += 1) {
      const link = this.#links[k];
      if (link) between(link, point(feet, k, B), point(horns, k, C), this.#linkLength);
      this.#blades[k]?.pose((flap[k] ?? 0) * scene.stretch, pitch[k] ?? 0, point(horns, k, C));
    }
    this.root.updateMatrixWorld(true);
  }

  /** The disc the blades' roots go through; follows the hands, not the turning. @param {Scene} scene */
  disc(scene) {
    this.#disc.fill(scene, this.out);
  }

  /** Where the joints have been drawn, in the airframe's millimetres: what tests compare with the package. */
  where() {
    const at = (/** @type {Thing} */ thing, z = 0) => new Vector3(0, 0, z).applyMatrix4(thing.matrixWorld).toArray();
    return {
      rods: this.#rods.map(({ rod: one, length }) => [at(one), at(one, length)]),
      links: this.#links.map((link) => [at(link), at(link, this.#linkLength)]),
      eyes: this.#eyes.map((eye) => at(eye)),
      stillEyes: this.#stillEyes.map((eye) => at(eye)),
      horns: this.#blades.map(({ horn, length }) => at(horn, length)),
      tips: this.#blades.map(({ end }) => at(end)),
    };
  }

  /** The places names point to. @param {string} part @returns {(() => Vector3) | null} */
  spot(part) {
    const on = (/** @type {Thing | undefined} */ thing, x = 0, y = 0, z = 0) => (thing ? () => new Vector3(x, y, z).applyMatrix4(thing.matrixWorld) : null);
    const unit = this.size;
    const blade = this.#blades[0];
    switch (part) {
      case "mast":
        return on(this.#turning, 0, 0, this.top);
      case "stationary-ring":
        return on(this.#stillRing, 0.6 * unit, 0, -0.1 * unit);
      case "rotating-ring":
        return on(this.#turningRing, -0.5 * unit, 0.5 * unit, 0.14 * unit);
      case "bearing":
        return on(this.#bearing, 0, -0.2 * unit, -0.55 * unit);
      case "main-bearing":
        return on(this.#turningRing, -0.66 * unit, -0.2 * unit, 0.01 * unit);
      case "rods":
        return on(this.#rods[0]?.rod, 0, 0, 0.45 * (this.#rods[0]?.length ?? 0));
      case "actuators":
        return on(this.#bodies[1] ?? this.#bodies[0], 0, 0, 0.3 * unit);
      case "stationary-scissors":
        return on(this.#stationary.elbow);
      case "drive-scissors":
        return on(this.#drive.elbow);
      case "links":
        return on(this.#links[0], 0, 0, this.#linkLength / 2);
      case "horns":
        return on(this.#blades[1]?.horn, 0, 0, (this.#blades[1]?.length ?? 0) / 2);
      case "grips":
        return on(this.#blades[2]?.neck ?? blade?.neck);
      case "blades":
        return on(blade?.end);
      default:
        return null;
    }
  }

  /** Small names in their places: every rod's and every blade's. @returns {{text: string, role: string, at: () => Vector3}[]} */
  numbered() {
    const end = (/** @type {Thing} */ thing, z = 0) => () => new Vector3(0, 0, z).applyMatrix4(thing.matrixWorld);
    return [
      ...this.#rods.map(({ rod: one, length }, i) => ({ text: `R${i + 1}`, role: "hand", at: end(one, 0.72 * length) })),
      ...this.#blades.map((blade, k) => ({ text: String(k + 1), role: "pitch", at: end(blade.end) })),
    ];
  }

  /** @param {Materials} materials @param {string} picked */
  paint(materials, picked) {
    this.root.traverse((thing) => {
      const { part, role, turns } = thing.userData;
      if (!(thing instanceof Mesh) || !part) return;
      const faded = picked !== "" && part !== picked;
      thing.material = materials.solid(role, turns, faded);
      for (const edge of thing.children) if ("isLineSegments" in edge) /** @type {any} */ (edge).material = materials.edge(faded);
    });
    this.root.traverse((thing) => {
      const { veil, line, opacity } = thing.userData;
      if (veil) /** @type {any} */ (thing).material = materials.veil(veil, opacity);
      else if (line) /** @type {any} */ (thing).material = materials.line(line);
    });
  }

  dispose() {
    this.root.traverse((thing) => /** @type {any} */ (thing).geometry?.dispose());
  }
}

/**
 * Two unit vectors of a ring's plane, the second a quarter turn on from the first seen from above. On a rotor that turns
 * clockwise Python's run the other way round, and the ring must not be turned over for it.
 * @param {number[]} axes
 */
function plane(axes) {
  const [x, y] = [point(axes, 0, new Vector3()).normalize(), point(axes, 1, new Vector3()).normalize()];
  return [x, x.x * y.y - x.y * y.x < 0 ? y.negate() : y];
}

/** Set a group on two unit vectors of its plane. @param {Group} group @param {Vector3} at @param {number[]} axes */
function frame(group, at, axes) {
  const [x = B, y = C] = plane(axes);
  group.quaternion.setFromRotationMatrix(BASIS.makeBasis(x, y, new Vector3().crossVectors(x, y)));
  group.position.copy(at);
}
