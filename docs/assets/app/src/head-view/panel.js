/** The rows of controls round the view, put in their places in the calculator. */

import { button, make, press } from "../dom.js";
import { Lever, list, SHARES, StickPad } from "./controls.js";

const VIEWS = { corner: "corner", above: "above", side: "side", behind: "behind", pilot: "pilot’s" };
const PLACES = ["nose", "left", "tail", "right"];

/**
 * @param {HTMLElement} calculator @param {HTMLElement} stage
 * @param {{enter: import("./controls.js").Enter, turning: import("./turning.js").Turning, over: (place: string) => void,
 *   fill: () => void, leave: () => void, save: (kind: "png" | "svg") => void}} act
 */
export function buildPanel(calculator, stage, act) {
  const { enter, turning } = act;
  const screen = make("div", { class: "hd-solid", tabindex: "0", role: "application", "aria-label": "Solid view of the head. Arrow keys look at it from another side." });
  const note = make("p", { class: "hd-view-note" });
  /** @type {Record<string, HTMLButtonElement>} */
  const views = Object.fromEntries(Object.entries(VIEWS).map(([name, words]) => [name, press(words, () => enter("view", name), `View: ${words}`)]));
  const run = press("Turn slowly", () => (turning.running ? turning.stop() : turning.start()));
  run.classList.add("hd-run");
  const share = list("How slowly", SHARES.map((n) => [String(n), `1/${n} speed`]), (value) => (turning.share = Number(value)));
  share.value = String(turning.share);
  const trace = make("p", { class: "hd-trace" });
  const viewRow = make("div", { class: "hd-views", role: "group", "aria-label": "Seen from" }, Object.values(views));
  const turnRow = make("div", { class: "hd-turn", role: "group", "aria-label": "Turn the rotor" }, [
    run,
    press("−10°", () => turning.step(-1), "Back 10°"),
    press("+10°", () => turning.step(1), "On 10°"),
    share,
  ]);
  stage.append(viewRow, screen, note, turnRow, trace);

  const pad = new StickPad(enter);
  const lever = new Lever(enter);
  const blade = list("Blade", [], () => {});
  const stop = make("div", { class: "hd-stop", role: "group", "aria-label": "Stop with a blade over a place" }, [
    make("span", {}, ["Stop with blade"]),
    blade,
    make("span", {}, ["over the"]),
    make("div", { class: "hd-places" }, PLACES.map((place) => press(place, () => act.over(place)))),
  ]);
  const hands = make("div", { class: "hd-hands" }, [pad.pad, lever.box, stop]);
  calculator.querySelector("form.hd-controls")?.prepend(hands);
  const fill = button("Fill the screen", act.fill);
  const tools = [fill, button("Save as PNG", () => act.save("png"), "file"), button("Save as SVG", () => act.save("svg"), "file")];
  calculator.querySelector(".hd-tools")?.append(...tools);
  const leave = press("Leave the full screen", act.leave);
  leave.classList.add("hd-leave");
  calculator.append(leave);
  return { screen, note, views, run, share, trace, pad, lever, blade, fill };
}
