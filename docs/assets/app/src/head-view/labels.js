/**
 * Names beside the solid view: two columns at its edges, each name tied to its part by a fine line. While the rotor
 * turns the names keep their places and only the lines follow.
 */

import { Vector3 } from "three";

/** @typedef {{part: string, text: string, note: string, at: () => Vector3}} Tag */

const SVG = "http://www.w3.org/2000/svg";
const ROW = 21;

export class Labels {
  /** `from`: where the line leaves the name. @type {{tag: Tag, box: HTMLButtonElement, line: SVGLineElement, dot: SVGCircleElement, from: {x: number, y: number}}[]} */
  #drawn = [];
  /** @type {{text: string, at: () => Vector3, box: HTMLElement}[]} */
  #marks = [];
  #width = 1;
  #height = 1;

  /** @param {HTMLElement} host @param {(part: string) => void} pick */
  constructor(host, pick) {
    this.box = document.createElement("div");
    this.box.className = "hd-tags";
    // The same names stand in the list of parts, which the keyboard and the ear reach.
    this.box.setAttribute("aria-hidden", "true");
    this.lines = document.createElementNS(SVG, "svg");
    this.box.append(this.lines);
    this.pick = pick;
    host.append(this.box);
  }

  /** @param {Tag[]} tags @param {{text: string, role: string, at: () => Vector3}[]} marks */
  name(tags, marks) {
    for (const { box } of this.#marks) box.remove();
    this.#marks = marks.map((mark) => {
      const box = document.createElement("span");
      box.className = `hd-mark hd-mark-${mark.role}`;
      box.textContent = mark.text;
      this.box.append(box);
      return { ...mark, box };
    });
    for (const { box, line, dot } of this.#drawn) [box, line, dot].forEach((thing) => thing.remove());
    this.#drawn = tags.map((tag) => {
      const box = document.createElement("button");
      box.type = "button";
      box.tabIndex = -1;
      box.className = "hd-tag";
      box.append(tag.text);
      if (tag.note) {
        const note = document.createElement("small");
        note.textContent = ` ${tag.note}`;
        box.append(note);
      }
      box.addEventListener("click", () => this.pick(tag.part));
      const line = document.createElementNS(SVG, "line");
      const dot = document.createElementNS(SVG, "circle");
      dot.setAttribute("r", "2.2");
      this.lines.append(line, dot);
      this.box.append(box);
      return { tag, box, line, dot, from: { x: 0, y: 0 } };
    });
  }

  /** @param {number} width @param {number} height */
  size(width, height) {
    this.#width = width;
    this.#height = height;
    this.lines.setAttribute("viewBox", `0 0 ${width} ${height}`);
  }

  /** @param {import("three").Camera} camera @param {Vector3} point */
  #project(camera, point) {
    point.project(camera);
    return { x: ((point.x + 1) / 2) * this.#width, y: ((1 - point.y) / 2) * this.#height };
  }

  /** Give every name its place. @param {import("three").Camera} camera @param {string} picked */
  place(camera, picked) {
    const spots = this.#drawn.map((one) => ({ ...one, ...this.#project(camera, one.tag.at()) }));
    spots.sort((a, b) => a.x - b.x);
    const half = Math.ceil(spots.length / 2);
    for (const [side, column] of [spots.slice(0, half), spots.slice(half)].entries()) {
      column.sort((a, b) => a.y - b.y);
      let y = Math.max(52, this.#height / 2 - (column.length * Math.max(ROW, this.#height / (column.length + 3))) / 2);
      const step = Math.max(ROW, Math.min(46, (this.#height - 2 * y) / Math.max(1, column.length - 1)));
      for (const { box, tag } of column) {
        box.style.top = `${y}px`;
        box.dataset.side = side ? "right" : "left";
        box.toggleAttribute("data-picked", picked === tag.part);
        y += step;
      }
    }
    // Measured once here: asking at every frame would have the browser lay out the page each time.
    for (const { box, from, line } of this.#drawn) {
      from.x = box.dataset.side === "right" ? this.#width - box.offsetWidth - 3 : box.offsetWidth + 3;
      from.y = box.offsetTop + box.offsetHeight / 2;
      line.setAttribute("x1", String(from.x));
      line.setAttribute("y1", String(from.y));
    }
    this.follow(camera);
  }

  /** Only the lines: the names stay. @param {import("three").Camera} camera */
  follow(camera) {
    for (const { box, at } of this.#marks) {
      const { x, y } = this.#project(camera, at());
      box.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
    }
    if (this.box.hidden) return;
    for (const { tag, line, dot } of this.#drawn) {
      const { x, y } = this.#project(camera, tag.at());
      line.setAttribute("x2", x.toFixed(1));
      line.setAttribute("y2", y.toFixed(1));
      dot.setAttribute("cx", x.toFixed(1));
      dot.setAttribute("cy", y.toFixed(1));
    }
  }

  /** What stands where, for a picture that is saved. @returns {{text: string, x: number, y: number, end: boolean, line: number[]}[]} */
  get spots() {
    const marks = this.#marks.map(({ text, box }) => {
      const [x = 0, y = 0] = (/translate\(([-\d.]+)px, ([-\d.]+)px/.exec(box.style.transform) ?? []).slice(1).map(Number);
      return { text, x: x - 4, y, end: false, line: [x, y, x, y] };
    });
    return marks.concat(this.#drawn.map(({ box, line, from }) => ({
      text: box.textContent ?? "",
      x: box.dataset.side === "right" ? this.#width - 4 : 4,
      y: from.y,
      end: box.dataset.side === "right",
      line: ["x1", "y1", "x2", "y2"].map((name) => Number(line.getAttribute(name))),
    })));
  }

  /** @param {boolean} shown */
  show(shown) {
    this.box.hidden = !shown;
  }
}
