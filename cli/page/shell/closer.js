// What each cut would do (the break chart), and left against right or against another order.

import {button, el, freshId, pageFigures, plainText} from "./dom.js";
import {attempt, findingList} from "./findings.js";

export function createCloser({root, order, server, readFile}) {
  const chart = el("div", {"aria-live": "polite"});
  const comparison = el("div", {"aria-live": "polite"});
  const fileId = freshId("other");
  const other = el("input", {type: "file", id: fileId, accept: ".yaml,.yml,.json,text/plain"});

  const showChart = () => attempt(chart, async () => {
    const answer = await server.json("/chart", order.body());
    if (!answer.ok) return [el("p", {text: "There is no chart for this order yet."}), findingList(answer.solution?.findings ?? answer.findings)];
    return [
      plainText(answer.words, "What each cut would do"),
      pageFigures(answer.pages),
    ];
  });

  const compareWords = answer => (answer.ok
    ? [plainText(answer.words, "Comparison"), el("p", {class: "hint", text: "± is the uncertainty of a difference at 95 %. Two figures differ if the difference is larger than that."})]
    : [el("p", {text: "This cannot be compared."}), findingList(answer.findings)]);

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
