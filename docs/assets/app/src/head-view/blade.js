/** One blade's root: hub arm, flap hinge, grip, horn and the first stretch of the blade. Span along x, ahead along y. */

import { Group, Vector3 } from "three";
import { aerofoil, ball, between, box, rod, solid } from "./shapes.js";

const TURN = Math.PI / 180;

/** @param {import("./data.js").Scene} scene @param {number} k @param {number} unit @param {number} out */
export function buildBlade(scene, k, unit, out) {
  const { hinge, station, sense } = scene;
  // In the turned frame blade 1 lies over the tail (−y); "ahead" is +x for an anticlockwise rotor. Blades of a clockwise
  // rotor are a mirror image, which a half turn of the group about its span can't give: y is scaled instead.
  const root = new Group();
  root.rotation.z = -Math.PI / 2 + sense * k * ((2 * Math.PI) / scene.blades);
  root.position.z = scene.rise;
  const mirrored = new Group();
  mirrored.scale.y = sense;
  root.add(mirrored);

  const flexible = scene.type === "hingeless";
  const reach = Math.max(hinge, 0.28 * unit);
  const arm = solid(box(reach, (flexible ? 0.34 : 0.3) * unit, (flexible ? 0.09 : 0.2) * unit), "grips", "structure", true);
  arm.position.x = reach / 2;
  if (hinge > 0.1 * unit) mirrored.add(arm);
  const flap = new Group();
  flap.position.x = hinge;
  mirrored.add(flap);
  if (!flexible) {
    const pin = solid(rod(0.075 * unit, 0.52 * unit).translate(0, 0, -0.26 * unit), "grips", "ink", true);
    pin.rotation.x = Math.PI / 2;
    flap.add(pin);
  }
  const feather = new Group();
  flap.add(feather);
  const start = hinge < 0.1 * unit ? 0.2 * unit : 0.06 * unit;
  const neck = 0.7 * out - hinge;
  const grip = solid(rod(0.17 * unit, neck - start, 0.14 * unit).rotateY(Math.PI / 2), "grips", "structure", true);
  grip.position.x = start;
  feather.add(grip);
  const chord = Math.min(scene.chord, 0.62 * out);
  feather.add(solid(aerofoil(neck - 0.03 * out, out - hinge, chord), "blades", "pitch", true));

  // The horn turns with the feathering axis, where it rides with the flap and where it doesn't.
  const carrier = scene.rides ? flap : mirrored;
  const at = scene.rides ? station - hinge : station;
  const length = Math.abs(scene.arm);
  const horn = new Group();
  horn.add(solid(rod(0.12 * unit, length, 0.07 * unit), "horns", "plate", true));
  const tip = solid(ball(0.1 * unit), "horns", "plate", true);
  tip.position.z = length;
  horn.add(tip);
  const boss = solid(rod(0.2 * unit, 0.2 * unit).translate(0, 0, -0.1 * unit).rotateY(Math.PI / 2), "horns", "plate", true);
  carrier.add(horn, boss);
  boss.position.x = at;
  if (!scene.rides && station < hinge) {
    // Where the horn stands inside the flexing part a torque tube carries its turning out to the blade.
    const tube = solid(rod(0.1 * unit, hinge - station + start).rotateY(Math.PI / 2), "grips", "structure", true);
    tube.position.x = station;
    mirrored.add(tube);
  }
  const end = new Group();
  end.position.x = out - hinge;
  const middle = new Group();
  middle.position.x = start + 0.3 * (neck - start);
  feather.add(end, middle);
  return {
    root,
    horn,
    length,
    /** Out at the end of what is drawn, and on the grip: for names and for tests. */
    end,
    neck: middle,
    /** @param {number} flapped degrees @param {number} pitch degrees @param {Vector3} tipAt in the turned frame, from plate height 0 */
    pose(flapped, pitch, tipAt) {
      flap.rotation.y = -flapped * TURN;
      feather.rotation.x = pitch * TURN;
      // Python says where the horn's end is; the horn is laid there from its place on the axis.
      root.updateMatrix();
      mirrored.updateMatrix();
      flap.updateMatrix();
      const local = tipAt.clone().applyMatrix4(root.matrix.clone().invert()).applyMatrix4(mirrored.matrix.clone().invert());
      if (scene.rides) local.applyMatrix4(flap.matrix.clone().invert());
      between(horn, new Vector3(at, 0, 0), local, length);
    },
  };
}
