/** A sheet as a link says it: topics, how many questions, the seed, drawings, whether every learner gets another seed. */

import { typedCount } from "../typed.js";
import { request, trouble } from "./ask.js";

/** @typedef {import("./index.js").Site} Site */
/** @typedef {import("../types.js").Asked} Asked */
/** @typedef {import("../types.js").Dealt} Dealt */
/** @typedef {{topics: string[], number: string, seed: string, figures: string[], forClass: boolean}} Paper number: as typed */
/** @typedef {{head: import("../types.js").Head, units: import("../types.js").Units}} For */

export const SHEET = "teaching/sheet.html";
export const NAME = "sheet";

/** @param {Paper} paper @returns {Record<string, string>} */
export function inputsOf({ topics, number, seed, figures, forClass }) {
  return { topics: topics.join("."), n: number, seed, ...(figures.length > 0 ? { figures: figures.join(".") } : {}), ...(forClass ? { class: "1" } : {}) };
}

/** @param {Record<string, string>} inputs @returns {Paper} */
export function paperOf(inputs) {
  const list = (/** @type {string | undefined} */ text) => (text ? text.split(".").filter(Boolean).slice(0, 40) : []);
  return { topics: list(inputs.topics), number: inputs.n ?? "", seed: inputs.seed ?? "", figures: list(inputs.figures), forClass: inputs.class === "1" };
}

/** The questions of a sheet. @param {Site} site @param {Paper} paper @param {string} seed @returns {Promise<Dealt[] | string>} or what is wrong */
export async function deal(site, paper, seed) {
  const number = typedCount(paper.number);
  if (number === null) return `Number of questions: “${paper.number.trim().slice(0, 20)}” is not a whole number; write one between 1 and 40.`;
  const answer = await site.engine.ask(`paper ${seed}`, { op: "paper", topics: paper.topics, number, seed });
  return answer.state === "result" ? (answer.questions ?? []) : trouble(answer) || "Overtaken by another sheet.";
}

/** A question with its answer, for paper. @param {Site} site @param {Dealt} dealt @param {For} head @returns {Promise<Asked | string>} */
export async function withKey(site, dealt, head) {
  const answer = await request(site, { ...dealt, ...head }, { op: "ask", key: true });
  return answer.state === "result" ? /** @type {Asked} */ (/** @type {unknown} */ (answer)) : trouble(answer) || "Overtaken by another question.";
}

/** Drawings of the head by name. @param {Site} site @param {string[]} figures @param {For} head @returns {Promise<{label: string, figures: Record<string, string>} | string>} */
export async function drawingsOf(site, figures, { head, units }) {
  const answer = await site.engine.ask("sheet's drawings", { op: "values", names: [], figures, head, units });
  if (answer.state !== "result") return trouble(answer) || "Overtaken.";
  return { label: answer.head.label, figures: answer.figures };
}

/** @param {string} seed @param {number | null} learner */
export const seedOf = (seed, learner) => (learner === null ? seed : `${seed}-${learner}`);
