/** Where the head is looked at from: the declared views, and turned from there by hand. */

import { PerspectiveCamera, Vector3 } from "three";

const TURN = Math.PI / 180;
const FIELD = 16;

export class Eye {
  camera = new PerspectiveCamera(FIELD, 1, 1, 10);
  /** Degrees clockwise from the nose, and above the level. */
  bearing = 150;
  elevation = 24;
  #low = -1;
  #high = 1;
  #out = 1;
  #aspect = 1;

  /** What must be in the picture: a can standing on the ground. @param {number} low @param {number} high @param {number} out its radius */
  fit(low, high, out) {
    [this.#low, this.#high, this.#out] = [low, high, out];
    this.#place();
  }

  /** @param {[number, number]} view */
  look([bearing, elevation]) {
    this.bearing = bearing;
    this.elevation = elevation;
    this.#place();
  }

  /** @param {number} round @param {number} over degrees */
  swing(round, over) {
    this.bearing = (this.bearing + round + 360) % 360;
    this.elevation = Math.max(-60, Math.min(90, this.elevation + over));
    this.#place();
  }

  /** @param {number} aspect width over height */
  shape(aspect) {
    this.#aspect = aspect;
    this.#place();
  }

  #place() {
    const b = this.bearing * TURN;
    const e = Math.min(this.elevation, 89.9) * TURN;
    const toward = new Vector3(Math.sin(b) * Math.cos(e), Math.cos(b) * Math.cos(e), Math.sin(e));
    // The can's height and width as seen from here, with room for what is nearer than its middle.
    const [up, over] = [Math.abs(Math.cos(e)), Math.abs(Math.sin(e))];
    const top = this.#high * up + this.#out * over;
    const bottom = this.#low * up - this.#out * over;
    const half = Math.max((top - bottom) / 2, this.#out / this.#aspect) * 1.06;
    const distance = half / Math.tan((FIELD / 2) * TURN) + 0.4 * this.#out * up;
    const upward = new Vector3(-Math.sin(b) * Math.sin(e), -Math.cos(b) * Math.sin(e), Math.cos(e));
    const middle = upward.multiplyScalar((top + bottom) / 2);
    const { camera } = this;
    camera.position.copy(middle).addScaledVector(toward, distance);
    camera.up.set(0, 0, 1);
    if (this.elevation > 89) camera.up.set(-Math.sin(b), -Math.cos(b), 0);
    camera.lookAt(middle);
    camera.aspect = this.#aspect;
    camera.near = Math.max(1, distance - 3 * half - 2 * this.#out);
    camera.far = distance + 3 * half + 2 * this.#out;
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld(true);
  }
}
