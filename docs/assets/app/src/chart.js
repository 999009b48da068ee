/** Line charts, bundled apart and loaded when a page draws its first one: chart.js. Data come from Python as they are. */

import uPlot from "uplot";

import "./disc-field.js";

/** @typedef {import("./types.js").ChartData} ChartData */

/** Dashes say the role as well as the colour, as in the drawings. @type {Record<string, number[]>} */
const DASHES = { pitch: [5, 4], disc: [12, 5] };
/** @type {Record<string, number>} */
const WIDTHS = { hand: 2.4, plate: 1.8, pitch: 2, disc: 2, structure: 1 };
const HEIGHT = 250;

/** @param {Element} host @param {string} role */
function colour(host, role) {
  return getComputedStyle(host).getPropertyValue(`--hd-${role}`).trim() || "gray";
}

/** @param {number} value */
function figure(value) {
  return Number(value.toPrecision(4)).toString().replace("-", "\u2212");
}

/**
 * @param {HTMLElement} host
 * @param {ChartData} data
 * @param {(x: number) => void} pick a place on x was tapped
 */
function draw(host, data, pick) {
  let cursor = data.cursor;
  const ink = colour(host, "ink");
  const faint = { stroke: colour(host, "structure"), width: 0.5 };
  const font = `13px ${getComputedStyle(host).fontFamily}`;
  const axis = { stroke: ink, grid: faint, ticks: faint, font, labelFont: font };
  /** @type {import("uplot").Options} */
  const options = {
    width: Math.max(280, host.clientWidth),
    height: HEIGHT,
    scales: { x: { time: false } },
    // The legend's boxes have the lines' dashes and widths: without colours they'd all be alike.
    legend: {
      live: true,
      markers: {
        width: (_chart, at) => Math.ceil(WIDTHS[data.lines[at - 1]?.role ?? ""] ?? 2),
        dash: (_chart, at) => (DASHES[data.lines[at - 1]?.role ?? ""] ? "dashed" : "solid"),
      },
    },
    cursor: { drag: { x: false, y: false }, points: { size: 7 } },
    axes: [
      { ...axis, label: data.x.label, values: (_chart, ticks) => ticks.map(figure), ...(data.x.turn ? { incrs: [15, 30, 45, 90] } : {}) },
      { ...axis, label: `${data.y.label}, ${data.y.unit}`, size: 64, values: (_chart, ticks) => ticks.map(figure) },
    ],
    series: [
      { label: data.x.label, value: (_chart, x) => (x == null ? "" : figure(x)) },
      ...data.lines.map((line) => ({
        label: line.name,
        stroke: colour(host, line.role),
        width: WIDTHS[line.role] ?? 2,
        dash: DASHES[line.role] ?? [],
        points: { show: data.points, size: 7, fill: colour(host, line.role) },
        value: (/** @type {uPlot} */ _chart, /** @type {number | null} */ y) => (y == null ? "" : `${figure(y)} ${data.y.unit}`),
      })),
    ],
    hooks: {
      draw: [
        (chart) => {
          if (cursor === null) return;
          const x = Math.round(chart.valToPos(cursor, "x", true));
          const { ctx, bbox } = chart;
          ctx.save();
          ctx.strokeStyle = colour(host, "hand");
          ctx.lineWidth = 1.5 * devicePixelRatio;
          ctx.setLineDash([]); // or it would take over the last line's dashes
          ctx.beginPath();
          ctx.moveTo(x, bbox.top);
          ctx.lineTo(x, bbox.top + bbox.height);
          ctx.stroke();
          ctx.restore();
        },
      ],
    },
  };
  /** @param {ChartData} from @returns {import("uplot").AlignedData} */
  const table = (from) => [from.x.values, ...from.lines.map((line) => line.values)];
  const chart = new uPlot(options, table(data), host);
  chart.over.addEventListener("click", () => {
    const left = chart.cursor.left ?? -1;
    if (left >= 0) pick(chart.posToVal(left, "x"));
  });
  const watch = new ResizeObserver(() => chart.setSize({ width: Math.max(280, host.clientWidth), height: HEIGHT }));
  watch.observe(host);
  return {
    /** @param {ChartData} next same lines, new values */
    update(next) {
      cursor = next.cursor;
      chart.setData(table(next));
    },
    /** @param {number} x only the cursor has moved */
    cursor(x) {
      cursor = x;
      chart.redraw(false);
    },
    destroy() {
      watch.disconnect();
      chart.destroy();
    },
  };
}

window.handToDiscChart = draw;
