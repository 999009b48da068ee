/** A field over the disc, drawn on a canvas from one array that Python made. The contours are d3-contour's. */

import { contours } from "d3-contour";

/** @typedef {import("./types.js").FieldData} FieldData */

/** Columns repeated at both ends, so that bands go on across the nose. */
const OVERLAP = 3;
const DEGREE = Math.PI / 180;

/** @param {Element} host @param {string} name */
function colour(host, name) {
  return getComputedStyle(host).getPropertyValue(name).trim() || "gray";
}

/**
 * The array as one run with repeated ends. What has no value is far below every level.
 * @param {FieldData} data
 */
function grid(data) {
  const columns = data.rows[0]?.length ?? 0;
  const width = columns + 2 * OVERLAP;
  const values = data.rows.flatMap((row) => Array.from({ length: width }, (_, i) => row[(i - OVERLAP + columns) % columns] ?? -1e3));
  return { values, width, height: data.rows.length, columns };
}

/**
 * @param {HTMLElement} host
 * @param {FieldData} data
 */
function draw(host, data) {
  const canvas = host.querySelector("canvas") ?? host.appendChild(document.createElement("canvas"));
  const size = Math.max(240, Math.min(host.clientWidth, 440));
  const scale = devicePixelRatio || 1;
  canvas.width = canvas.height = Math.round(size * scale);
  canvas.style.width = canvas.style.height = `${size}px`;
  canvas.setAttribute("role", "img");
  canvas.setAttribute("aria-label", `${data.title}; the table beneath has its values`);
  const context = canvas.getContext("2d");
  if (!context) return;
  const pen = context;
  pen.scale(scale, scale);
  const middle = size / 2;
  const radius = middle - 24;
  const ink = colour(host, "--hd-ink");
  const paper = colour(host, "--hd-paper");
  const thin = colour(host, "--hd-structure");
  const { values, width, height, columns } = grid(data);

  /** @param {number} station over R @param {number} bearing degrees from the nose @returns {[number, number]} */
  const at = (station, bearing) => [
    middle + radius * station * Math.sin(bearing * DEGREE),
    middle - radius * station * Math.cos(bearing * DEGREE),
  ];
  /** A point of the array's plane on the disc. @param {number[]} point @returns {[number, number]} */
  const place = ([x = 0, y = 0]) =>
    at(data.inner + ((data.outer - data.inner) * y) / height, ((x - 0.5 - OVERLAP) * 360) / columns);

  /** @param {number} station */
  const ring = (station) => {
    pen.beginPath();
    pen.arc(middle, middle, radius * station, 0, 2 * Math.PI);
  };
  /** Lines across what is clipped. @param {number} step */
  const hatch = (step) => {
    pen.beginPath();
    for (let x = -size; x < size; x += step) {
      pen.moveTo(x, size);
      pen.lineTo(x + size, 0);
    }
    pen.strokeStyle = ink;
    pen.lineWidth = 0.7;
    pen.stroke();
  };
  /** @param {number[][][][]} shape */
  const trace = (shape) => {
    pen.beginPath();
    for (const line of shape.flat()) {
      line.forEach((point, i) => (i ? pen.lineTo(...place(point)) : pen.moveTo(...place(point))));
      pen.closePath();
    }
  };

  pen.clearRect(0, 0, size, size);
  pen.fillStyle = colour(host, "--hd-band-0");
  ring(data.outer);
  pen.fill();
  pen.save();
  ring(data.outer);
  pen.clip();
  const shapes = contours().size([width, height]).thresholds(data.levels)(values);
  shapes.forEach((shape, i) => {
    pen.fillStyle = colour(host, `--hd-band-${i + 1}`);
    trace(shape.coordinates);
    pen.fill();
    if (i === shapes.length - 1 && shape.coordinates.length > 0) {
      pen.save();
      pen.clip();
      hatch(7);
      pen.restore();
    }
    // The edges of the array are no edges of a band.
    pen.beginPath();
    for (const line of shape.coordinates.flat()) {
      line.forEach((point, k) => {
        const [x = 0, y = 0] = point;
        const before = line[k - 1];
        const edge = x < 0.01 || x > width - 0.01 || y < 0.01 || y > height - 0.01;
        if (before && !edge) pen.lineTo(...place(point));
        else pen.moveTo(...place(point));
      });
    }
    pen.strokeStyle = ink;
    pen.lineWidth = 0.8;
    pen.stroke();
  });
  if (data.none) {
    const [x, y] = at(data.none.distance, data.none.bearing);
    pen.beginPath();
    pen.arc(x, y, (radius * data.none.diameter) / 2, 0, 2 * Math.PI);
    pen.fillStyle = paper;
    pen.fill();
    pen.strokeStyle = ink;
    pen.lineWidth = 1;
    pen.stroke();
    pen.save();
    pen.clip();
    hatch(4);
    pen.restore();
  }
  pen.restore();
  ring(data.inner);
  pen.fillStyle = paper;
  pen.fill();
  pen.strokeStyle = thin;
  pen.lineWidth = 1;
  pen.stroke();
  ring(data.outer);
  pen.stroke();

  pen.textAlign = "center";
  pen.textBaseline = "middle";
  const family = getComputedStyle(host).fontFamily;
  pen.font = `600 13px ${family}`;
  pen.lineJoin = "round";
  for (const [station, bearing, text] of data.figures) {
    const [x, y] = at(station, bearing);
    pen.strokeStyle = paper;
    pen.lineWidth = 3.5;
    pen.strokeText(`${text}°`, x, y);
    pen.fillStyle = ink;
    pen.fillText(`${text}°`, x, y);
  }
  pen.font = `13px ${family}`;
  pen.fillStyle = ink;
  for (const [bearing, word] of /** @type {[number, string][]} */ ([[0, "nose"], [180, "tail"]])) {
    pen.fillText(word, ...at(1 + 12 / radius, bearing));
  }
  for (const [bearing, word] of /** @type {[number, string][]} */ ([[90, "right"], [270, "left"]])) {
    pen.save();
    pen.translate(...at(1 + 12 / radius, bearing));
    pen.rotate(((bearing === 90 ? 1 : -1) * Math.PI) / 2);
    pen.fillText(word, 0, 0);
    pen.restore();
  }
  // The way it turns: an arrow outside the disc, between nose and the side the blades go to.
  const way = data.rotation === "anticlockwise" ? -1 : 1;
  pen.strokeStyle = pen.fillStyle = thin;
  pen.beginPath();
  pen.arc(middle, middle, radius + 10, (-90 + way * 25) * DEGREE, (-90 + way * 60) * DEGREE, way < 0);
  pen.stroke();
  const [tx, ty] = at(1 + 10 / radius, way * 62);
  const heading = (way * 62 + way * 90 - 90) * DEGREE;
  pen.beginPath();
  pen.moveTo(tx + 6 * Math.cos(heading), ty + 6 * Math.sin(heading));
  for (const turn of [2.5, -2.5]) pen.lineTo(tx + 6 * Math.cos(heading + turn), ty + 6 * Math.sin(heading + turn));
  pen.fill();
}

window.handToDiscField = draw;
