/** An arrow laid over a bearing rose: placed by a tap, dragged by its head, moved by keys. Knows degrees and nothing of rotors. */

const SVG = "http://www.w3.org/2000/svg";

/** @param {string} name @param {Record<string, string>} attributes */
function draw(name, attributes) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

export class Dial {
  /** Degrees clockwise from the nose; null until the reader has placed the arrow. @type {number | null} */
  guess = null;
  /** @type {number | null} */
  #answer = null;
  #centre = { x: 0, y: 0, radius: 1 };

  /**
   * @param {Element} rose the drawing beneath
   * @param {string} label
   * @param {(bearing: number) => string} words
   * @param {(bearing: number) => void} moved
   */
  constructor(rose, label, words, moved) {
    this.rose = rose;
    this.words = words;
    this.moved = moved;
    const holder = document.createElement("div");
    holder.className = "hd-dial";
    rose.replaceWith(holder);
    this.svg = /** @type {SVGSVGElement} */ (draw("svg", { class: "hd-dial-over", tabindex: "0", role: "slider", "aria-valuemin": "0", "aria-valuemax": "359" }));
    this.svg.setAttribute("aria-label", label);
    holder.append(rose, this.svg);
    this.svg.addEventListener("keydown", (event) => this.#key(event));
    this.svg.addEventListener("click", (event) => this.#point(event));
    this.svg.addEventListener("pointerdown", (event) => {
      if (!(event.target instanceof Element) || !event.target.closest(".hd-dial-grip")) return;
      event.preventDefault();
      this.svg.focus({ preventScroll: true });
      this.svg.setPointerCapture(event.pointerId);
    });
    this.svg.addEventListener("pointermove", (event) => {
      if (this.svg.hasPointerCapture(event.pointerId)) this.#point(event);
    });
    this.refresh();
  }

  /** Fit to the drawing beneath, which may be another head's now, and take the answer away. */
  refresh() {
    const under = this.rose.querySelector("svg");
    const box = under?.viewBox.baseVal;
    const size = box && box.width > 0 ? box : { x: 0, y: 0, width: 400, height: 400 };
    this.svg.setAttribute("viewBox", `${size.x} ${size.y} ${size.width} ${size.height}`);
    const given = (/** @type {string} */ name, /** @type {number} */ otherwise) => {
      const text = under?.getAttribute(name);
      return text && Number.isFinite(Number(text)) ? Number(text) : otherwise;
    };
    this.#centre = {
      x: given("data-cx", size.x + size.width / 2),
      y: given("data-cy", size.y + size.height / 2),
      radius: given("data-r", 0.36 * size.width),
    };
    this.#answer = null;
    this.#redraw();
  }

  /** @param {number} bearing */
  place(bearing) {
    this.guess = ((Math.round(bearing) % 360) + 360) % 360;
    this.#answer = null;
    this.#redraw();
  }

  /** @param {number} bearing */
  reveal(bearing) {
    this.#answer = bearing;
    this.#redraw();
  }

  /** @param {MouseEvent} event */
  #point(event) {
    const matrix = this.svg.getScreenCTM();
    if (!matrix) return;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
    const { x, y } = this.#centre;
    this.place((Math.atan2(at.x - x, y - at.y) * 180) / Math.PI);
    this.moved(this.guess ?? 0);
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    const steps = /** @type {Record<string, number>} */ ({ ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 });
    const step = steps[event.key];
    if (event.key !== "Home" && step === undefined) return;
    event.preventDefault();
    this.place(event.key === "Home" ? 0 : (this.guess ?? 0) + (step ?? 0) * (event.shiftKey ? 10 : 1));
    this.moved(this.guess ?? 0);
  }

  #redraw() {
    const parts = [];
    if (this.#answer !== null) parts.push(...this.#arrow(this.#answer, "r-plate", "it is here", false));
    parts.push(...this.#arrow(this.guess ?? 0, "r-hand", this.guess === null ? "place me" : "yours", true));
    this.svg.replaceChildren(...parts);
    this.svg.setAttribute("aria-valuenow", String(this.guess ?? 0));
    this.svg.setAttribute("aria-valuetext", this.guess === null ? "not placed yet" : this.words(this.guess));
  }

  /** @param {number} bearing @param {string} role @param {string} text @param {boolean} grip */
  #arrow(bearing, role, text, grip) {
    const { x, y, radius } = this.#centre;
    const angle = (bearing * Math.PI) / 180;
    /** @param {number} r @param {number} [side] */
    const at = (r, side = 0) => {
      const px = x + r * Math.sin(angle) + side * Math.cos(angle);
      const py = y - r * Math.cos(angle) + side * Math.sin(angle);
      return `${px.toFixed(1)} ${py.toFixed(1)}`;
    };
    const head = radius * 0.09;
    const parts = [
      draw("path", { class: `${role} hd-dial-line`, d: `M${at(radius * 0.12)}L${at(radius * 0.88)}` }),
      draw("path", { class: `hd-dial-head f-${role.slice(2)}`, d: `M${at(radius)}L${at(radius - 2 * head, head)}L${at(radius - 2 * head, -head)}Z` }),
    ];
    // Beside the shaft, so that neither arrow hides the other's word; two arrows close together: on either side.
    const [lx = "0", ly = "0"] = at(radius * (grip ? 0.66 : 0.5), (grip ? 1 : -1) * radius * 0.2).split(" ");
    const word = draw("text", { class: "t t-small", x: lx, y: ly, "text-anchor": "middle", "dominant-baseline": "middle" });
    word.textContent = text;
    parts.push(word);
    if (grip) {
      const [gx = "0", gy = "0"] = at(radius * 0.9).split(" ");
      parts.push(draw("circle", { class: "hd-dial-grip", cx: gx, cy: gy, r: String(radius * 0.22) }));
    }
    return parts;
  }
}
