// What each cut would do (the break chart), and left against right or against another order.

import {button, drawing, el, freshId, plainText, table} from "./dom.js";
import {attempt, findingList} from "./findings.js";
import {millimetres, percent, rulerDown} from "./figures.js";

const names = {left: "Left", right: "Right"};

export function createCloser({root, order, server, readFile}) {
  const chart = el("div", {"aria-live": "polite"});
  const comparison = el("div", {"aria-live": "polite"});
  const fileId = freshId("other");
  const other = el("input", {type: "file", id: fileId, accept: ".yaml,.yml,.json,text/plain"});

  /// Shows every third point and those at the lines. In the stop band there are no figures:
  /// nothing is cut there, so nothing is promised there.
  function chartTable(side, foot) {
    const points = foot.chart?.points ?? [];
    const board = foot.trim?.board;
    if (points.length === 0 || !board?.final) return el("p", {text: `${names[side]}: where the shoe breaks is not estimated.`});
    const near = at => points.reduce((best, point) => (Math.abs(point.board - at) < Math.abs(best.board - at) ? point : best));
    const first = board.first && near(board.first.centre);
    const final = near(board.final.centre);
    const place = point => {
      if (point === final) return "near the final cut";
      if (point === first) return "near the first cut";
      if (point.board > board.stop) return "past the stop line";
      if (point.board >= board.stop_from) return "in the stop band";
      return point.board > board.final.centre ? "past the final line" : "";
    };
    const rows = points.filter((point, i) => i % 3 === 0 || point === first || point === final).map(point => {
      const known = point.board < board.stop_from;
      return {
        class: point === first || point === final ? "first" : "",
        cells: [rulerDown(point.board), ...[millimetres(point.break), percent(point.gap), percent(point.heel_pry), percent(point.heel_gap)].map(text => (known ? text : "–")), place(point)],
      };
    });
    return table(`${names[side]}: what each cut would do, by estimate`, ["Cut off, mm", "Breaks at, mm from the heel", "Largest gap, of uncut", "Heel pry, of uncut", "Heel gap, of uncut", "Where"], rows);
  }

  const showChart = () => attempt(chart, async () => {
    const answer = await server.json("/chart", order.body());
    if (!answer.ok) return [el("p", {text: "There is no chart for this order yet."}), findingList(answer.solution?.findings ?? answer.findings ?? [])];
    return ["left", "right"].filter(side => answer.solution.feet?.[side]).map(side => [
      el("figure", {class: "chart"}, drawing(answer.pictures?.[side], `${names[side]}: foot and shoe in profile, and the curves of the table below`)),
      chartTable(side, answer.solution.feet[side])])
      .concat(el("p", {class: "hint", text: "An estimate for choosing between cuts; it depends most on the board's stiffness."}));
  });

  const compareWords = answer => (answer.ok
    ? [plainText(answer.words, "Comparison"), el("p", {class: "hint", text: "± is the uncertainty of a difference at 95 %. Two figures differ if the difference is larger than that."})]
    : [el("p", {text: "This cannot be compared."}), findingList(answer.findings ?? [])]);

  const compareFeet = () => attempt(comparison, async () => compareWords(await server.json("/compare", order.body())));
  other.addEventListener("change", () => {
    if (!other.files[0]) return;
    attempt(comparison, async () => {
      const file = await readFile(other.files[0]);
      return compareWords(await server.json("/compare", {...order.body(), with: file.text}));
    });
  });

  root.append(
    el("section", {class: "part", "aria-labelledby": "chart-title"}, el("h3", {id: "chart-title", text: "Where the shoe will break"}),
      el("p", {text: "What each cut would do to break, gap and heel pry. It needs the arch depth."}),
      el("div", {class: "row"}, button("Draw the chart", showChart)), chart),
    el("section", {class: "part", "aria-labelledby": "compare-title"}, el("h3", {id: "compare-title", text: "Left against right, or against another order"}),
      el("div", {class: "row"}, button("Left against right", compareFeet)),
      el("div", {class: "field"}, el("label", {for: fileId, text: "Another order to compare with"}), other), comparison));

  return {
    /// The order changed: what is shown belongs to an older one.
    outdate() {
      for (const place of [chart, comparison]) if (place.childElementCount > 0) place.replaceChildren(el("p", {class: "hint", text: "The order has changed; ask again."}));
    },
  };
}
