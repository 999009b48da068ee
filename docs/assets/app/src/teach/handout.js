/** A sheet on paper: questions with room for the answers, drawings, the link and its code; and the key, apart. */

import { make } from "../dom.js";
import { qrSvg } from "../qr.js";
import { hasPublicUrl } from "../site.js";

/** @typedef {import("../types.js").Asked} Asked */

const LETTERS = "ABCDEFGH";

/** Room for an answer, by kind. @param {Asked} asked */
function room(asked) {
  if (asked.kind === "choice") {
    const rows = asked.options.map((text, i) => make("li", {}, [make("span", { class: "hd-tick" }), make("span", { class: "hd-letter" }, [LETTERS[i] ?? ""]), make("span", {}, [text])]));
    return make("ul", { class: "hd-paper-options" }, rows);
  }
  if (asked.kind === "order") {
    const rows = asked.items.map((text, i) => make("li", {}, [make("span", { class: "hd-letter" }, [LETTERS[i] ?? ""]), make("span", {}, [text])]));
    return make("div", {}, [make("ul", { class: "hd-paper-options" }, rows), make("p", { class: "hd-paper-line" }, ["Order, as letters: "])]);
  }
  if (asked.kind === "mark") return make("p", { class: "hd-paper-line" }, ["Mark it on the rose. Degrees clockwise from the nose: "]);
  const unit = asked.unit === "°" ? "degrees" : asked.unit === "%" ? "per cent" : asked.unit;
  return make("p", { class: "hd-paper-line" }, [`Answer${unit ? `, in ${unit}` : ""}: `]);
}

/**
 * @param {{title: string, head: string, learner: number | null, seed: string, asked: Asked[], figures: string[], address: string}} sheet
 * figures: HTML made by the package
 */
export function handout({ title, head, learner, seed, asked, figures, address }) {
  const questions = asked.map((one) => {
    const drawing = make("div", { class: "hd-ask-drawing" });
    drawing.innerHTML = one.drawing; // the package's own SVG
    return make("li", {}, [make("p", { class: "hd-ask-prompt" }, [one.prompt]), ...(one.drawing ? [drawing] : []), room(one)]);
  });
  const drawings = figures.map((html) => {
    const figure = make("figure", { class: "hd-paper-figure" });
    figure.innerHTML = html;
    return figure;
  });
  const foot = make("div", { class: "hd-paper-foot" }, [
    make("p", {}, [`For learning only: the manuals, local rules and licensed people decide. Invented figures. Sheet ${seed}. ${address}`]),
  ]);
  if (hasPublicUrl()) foot.insertAdjacentHTML("beforeend", qrSvg(address));
  return make("article", { class: "hd-paper" }, [
    make("h2", {}, [title]),
    make("p", { class: "hd-paper-name" }, [make("span", {}, [learner === null ? "Name: " : `Name (number ${learner}): `]), make("span", {}, ["Date: "])]),
    make("p", { class: "hd-paper-head" }, [`All questions are for the head ${head}.`]),
    ...(drawings.length > 0 ? [make("div", { class: "hd-paper-figures" }, drawings)] : []),
    make("ol", { class: "hd-paper-questions" }, questions),
    foot,
  ]);
}

/** The answers of a sheet. @param {{title: string, head: string, learner: number | null, seed: string, asked: Asked[]}} sheet */
export function key({ title, head, learner, seed, asked }) {
  const rows = asked.map((one, i) =>
    make("tr", {}, [make("th", { scope: "row" }, [String(i + 1)]), make("td", {}, [one.answer ?? ""]), make("td", {}, [one.why ?? ""])]),
  );
  const words = learner === null ? `Answers: ${title}` : `Answers for number ${learner}`;
  const caption = make("caption", {}, [`${words}. Head ${head}, sheet ${seed}.`]);
  const top = make("thead", {}, [make("tr", {}, ["No.", "Answer", "Why"].map((text) => make("th", { scope: "col" }, [text])))]);
  return make("table", { class: "hd-key" }, [caption, top, make("tbody", {}, rows)]);
}
