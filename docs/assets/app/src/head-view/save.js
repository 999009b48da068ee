/** A picture of what is on the screen: PNG, or SVG with lines that stay sharp. */

import { SVGRenderer } from "three/addons/renderers/SVGRenderer.js";
import { download } from "../dom.js";

/** @typedef {{text: string, x: number, y: number, end: boolean, line: number[]}} Spot */
/** @typedef {{width: number, height: number, paper: string, ink: string, caption: string[], spots: Spot[]}} Sheet */

const LINE = 17;
const FONT = "13px system-ui, sans-serif";

/** Break a sentence into lines that fit. @param {string} text @param {number} width */
function lines(text, width) {
  const most = Math.floor(width / 6.6);
  /** @type {string[]} */
  const made = [""];
  for (const word of text.split(" ")) {
    const last = made[made.length - 1] ?? "";
    if (`${last} ${word}`.length > most) made.push(word);
    else made[made.length - 1] = last ? `${last} ${word}` : word;
  }
  return made;
}

/** @param {HTMLCanvasElement} picture @param {Sheet} sheet @returns {Promise<Blob | null>} */
function png(picture, sheet) {
  const scale = 2;
  const words = sheet.caption.flatMap((text) => lines(text, sheet.width - 16));
  const canvas = document.createElement("canvas");
  canvas.width = sheet.width * scale;
  canvas.height = (sheet.height + LINE * words.length + 14) * scale;
  const pen = canvas.getContext("2d");
  if (!pen) return Promise.resolve(null);
  pen.scale(scale, scale);
  pen.fillStyle = sheet.paper;
  pen.fillRect(0, 0, sheet.width, canvas.height);
  pen.drawImage(picture, 0, 0, sheet.width, sheet.height);
  pen.font = FONT;
  pen.strokeStyle = sheet.ink;
  pen.fillStyle = sheet.ink;
  pen.lineWidth = 0.8;
  pen.textBaseline = "middle";
  for (const spot of sheet.spots) {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = spot.line;
    pen.beginPath();
    pen.moveTo(x1, y1);
    pen.lineTo(x2, y2);
    pen.stroke();
    pen.textAlign = spot.end ? "right" : "left";
    pen.fillText(spot.text, spot.x, spot.y);
  }
  pen.textAlign = "left";
  words.forEach((text, i) => pen.fillText(text, 8, sheet.height + 12 + LINE * i));
  return new Promise((resolve) => canvas.toBlob(resolve, "image/png"));
}

/** @param {import("three").Scene} scene @param {import("three").Camera} camera @param {Sheet} sheet */
function svg(scene, camera, sheet) {
  const renderer = new SVGRenderer();
  renderer.setSize(sheet.width, sheet.height);
  renderer.setQuality("high");
  renderer.render(scene, camera);
  const drawn = renderer.domElement;
  const words = sheet.caption.flatMap((text) => lines(text, sheet.width - 16));
  const escaped = (/** @type {string} */ text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;");
  const height = sheet.height + LINE * words.length + 14;
  const tags = sheet.spots.map(({ text, x, y, end, line }) => {
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = line.map((value) => Math.round(value * 10) / 10);
    return (
      `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="${sheet.ink}" stroke-width="0.8"/>` +
      `<text x="${x}" y="${(y + 4).toFixed(1)}" text-anchor="${end ? "end" : "start"}">${escaped(text)}</text>`
    );
  });
  const caption = words.map((text, i) => `<text x="8" y="${sheet.height + 16 + LINE * i}">${escaped(text)}</text>`);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${sheet.width}" height="${height}" viewBox="0 0 ${sheet.width} ${height}" ` +
    `font-family="system-ui, sans-serif" font-size="13" fill="${sheet.ink}"><rect width="100%" height="100%" fill="${sheet.paper}"/>` +
    `<g transform="translate(${sheet.width / 2} ${sheet.height / 2})" fill="none">${drawn.innerHTML}</g>${tags.join("")}${caption.join("")}</svg>`
  );
}

/** The package's own drawing as a file: the page's styles written into it. @param {SVGSVGElement} drawing @param {Sheet} sheet */
function drawnSvg(drawing, sheet) {
  const copy = /** @type {SVGSVGElement} */ (drawing.cloneNode(true));
  const wanted = ["fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-opacity", "opacity", "font-size", "paint-order"];
  const own = [...drawing.querySelectorAll("*")];
  [...copy.querySelectorAll("*")].forEach((one, i) => {
    const style = getComputedStyle(own[i] ?? drawing);
    one.setAttribute("style", wanted.map((name) => `${name}:${style.getPropertyValue(name)}`).join(";"));
  });
  copy.setAttribute("style", `background:${sheet.paper};font-family:system-ui,sans-serif`);
  const title = document.createElementNS("http://www.w3.org/2000/svg", "title");
  title.textContent = sheet.caption.join(" ");
  copy.prepend(title);
  return new XMLSerializer().serializeToString(copy);
}

/** @param {"png" | "svg"} kind @param {import("./solid.js").Solid} solid @param {Sheet} sheet @param {string} name */
export async function saveSolid(kind, solid, sheet, name) {
  solid.render(); // the picture is only in the canvas right after it is drawn
  const blob = kind === "png" ? await png(solid.canvas, sheet) : new Blob([svg(solid.scene, solid.eye.camera, sheet)], { type: "image/svg+xml" });
  if (blob) download(blob, name);
}

/** @param {"png" | "svg"} kind @param {SVGSVGElement} drawing @param {Sheet} sheet @param {string} name */
export async function saveDrawing(kind, drawing, sheet, name) {
  const text = drawnSvg(drawing, sheet);
  if (kind === "svg") {
    download(new Blob([text], { type: "image/svg+xml" }), name);
    return;
  }
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 2 * sheet.width;
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await png(canvas, { ...sheet, spots: [] });
  if (blob) download(blob, name);
}
