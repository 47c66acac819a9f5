// The second step: the figures for the ruler, the sheets and the files.

import {button, choiceGroup, el, freshId, keepFile, option, pageFigures, table} from "./dom.js";
import {attempt, findingList} from "./findings.js";
import {boardFigures} from "./figures.js";

const papers = [["a4", "A4"], ["a3", "A3"], ["letter", "US Letter"], ["legal", "US Legal"], ["tabloid", "Tabloid"]];
const footNames = {left: "Left board", right: "Right board"};

/// A file name from words: "M-07, touring" is m-07-touring.
export function fileStem(order) {
  const file = order.file();
  if (file) return file.name.replace(/\.[a-z]+$/i, "");
  const words = [order.get(["dancer"]), order.get(["pair"])].filter(text => text).join(" ");
  return words.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "order";
}

export function createMark({root, order, server, form, usual, say, saveOrder}) {
  const tables = el("div");
  const pages = el("div");
  const outcome = el("div", {class: "outcome", "aria-live": "polite"});
  let answered = false; // "not known" leaves the key out of the order, and is an answer all the same

  const cautions = el("div", {class: "notice"},
    el("h3", {text: "Before anything is cut"}),
    el("ul", {},
      ["A cut board cannot be put back. It changes what holds the dancer up.",
        "Students: only with a teacher or fitter. Growing feet, pain or an injury: ask a licensed physiotherapist or podiatrist first.",
        "Make the first cut first: it is the longer board. Then try at the barre, ribbons basted on and the liner in. The final cut comes only after trying.",
        "Nothing is cut in the stop band, nor past the stop line, without a teacher's or fitter's word. Moulded plastic boards are not cut.",
        "Sharp knife, cut-proof glove, several light passes, away from the hand that holds."].map(text => el("li", {text}))));

  const growingId = freshId("growing");
  const growingMessages = el("div", {class: "messages", id: `${growingId}-messages`});
  const options = [["true", "Yes, it is still growing"], ["false", "No, the dancer is fully grown"], ["", "Not known: a foot shorter than 215 mm then counts as growing"]]
    .map(([value, text]) => option("radio", text, {name: growingId, value, on: {change: () => {
      answered = true;
      growingMessages.replaceChildren();
      order.set(["growing"], value === "" ? undefined : value === "true");
    }}}));
  const refreshGrowing = () => {
    const value = order.get(["growing"]);
    options.forEach(({input}) => (input.checked = value === undefined ? answered && input.value === "" : input.value === String(value)));
  };
  const question = el("div", {class: "question-box"});

  function buildQuestion() {
    question.replaceChildren(
      el("h3", {text: "Before the first sheet: who cuts, and is the foot still growing?"}),
      el("p", {text: "The answers become part of the order. A growing foot gets no cut lines unless the order names the adult who decides. Ask a licensed physiotherapist or podiatrist first."}),
      choiceGroup("Is the foot still growing?", options.map(({node}) => node), {messages: growingMessages}),
      form.words(["decided_by"]));
    question.dataset.key = "growing";
    form.fields.set("growing", {path: ["growing"], input: options[0].input, container: question, messages: growingMessages});
    refreshGrowing();
  }

  const select = (label, list) => {
    const id = freshId("select");
    const node = el("select", {id}, list.map(([value, text]) => el("option", {value, text})));
    return {node, field: el("div", {class: "field"}, el("label", {for: id, text: label}), node)};
  };
  const tick = label => option("checkbox", label);
  const paper = select("Paper", papers);
  const units = select("Figures on the sheets", [["mm", "millimetres"], ["in", "inches to 1/32 as well"]]);
  if (papers.some(([name]) => name === usual.paper)) paper.node.value = usual.paper;
  if (usual.units) units.node.value = usual.units;
  const maker = tick("a page for the maker or workshop as well");
  const card = tick("the dancer's card as well");
  const care = tick("the page on breaking in and repair as well");
  const cutOnly = tick("nothing but the closed piece to cut (for a plotter or laser)");

  function isAnswered() {
    if (answered || order.get(["growing"]) !== undefined) return true;
    growingMessages.replaceChildren(el("p", {class: "message error"}, el("strong", {text: "Error: "}), "Answer this question before the first sheets are made."));
    options[0].input.focus();
    return false;
  }

  function makeSheets() {
    if (!isAnswered()) return;
    attempt(outcome, async () => {
      const name = `${fileStem(order)}.pdf`;
      const pdf = await server.file("/sheets", {...order.body(), paper: paper.node.value, units: units.node.value,
        maker: maker.input.checked, card: card.input.checked, care: care.input.checked});
      const address = keepFile(name, [pdf], "application/pdf");
      return [
        el("p", {}, el("strong", {text: "The sheets are ready: "}), el("a", {href: address, download: name, text: `save ${name} again`}), " or ",
          el("a", {href: address, target: "_blank", rel: "noopener", text: "open them in a new tab"}), "."),
        el("p", {text: "Print at 100 %, never “fit to page”. Then lay a bank card on its outline: if it does not fit, go by the ruler figures above."}),
      ];
    });
  }

  function makeParts(format) {
    if (!isAnswered()) return;
    attempt(outcome, async () => {
      const answer = await server.json("/parts", {...order.body(), format, cut_only: cutOnly.input.checked});
      const type = format === "svg" ? "image/svg+xml" : "image/vnd.dxf";
      const links = answer.files.map(file => el("a", {href: URL.createObjectURL(new Blob([file.text], {type})), download: file.name, text: file.name}));
      return [
        el("p", {}, el("strong", {text: `${links.length} ${format.toUpperCase()} files are ready, at true size in millimetres: `}),
          button("save them all", () => links.forEach(link => link.click()))),
        el("ul", {class: "files-made"}, links.map(link => el("li", {}, link))),
      ];
    });
  }

  const showPages = () => attempt(pages, async () => {
    const answer = await server.json("/pictures", order.body());
    say(`${answer.pages.length} pages are shown.`);
    if (answer.pages.length === 0) return el("p", {text: "There is nothing to draw yet."});
    return pageFigures(answer.pages);
  }, "The pages are being drawn …");

  function boardTable(side, foot) {
    const figures = boardFigures(foot);
    if (!figures) return el("p", {text: `${footNames[side]}: not cut.`});
    const edges = figures.skew ? ["medial", "centre", "lateral"] : ["centre"];
    const off = text => edges.map(edge => (edge === "centre" ? text : ""));
    const named = (name, note) => [name, el("span", {class: "note", text: note})];
    const cut = line => edges.map(edge => (edge === "centre" ? named(line[edge], figures.tolerance) : line[edge]));
    const back = text => named(text, figures.toleranceBack);
    const head = ["Line", ...(figures.skew ? ["Big-toe edge", "Centre", "Little-toe edge"] : ["Cut off"]), "Back from witness line", "Known to"];
    const rows = [];
    if (figures.first) {
      rows.push({class: "first", cells: [named("1 First cut", "knife on this line"), ...cut(figures.first), back(figures.firstBack), ""]});
      rows.push({class: "final", cells: [named("2 Final cut", "only after trying"), ...cut(figures.final), back(figures.finalBack), figures.U]});
    } else rows.push({class: "first", cells: [named("File back to here", "so little comes off that there is one line"), ...cut(figures.final), back(figures.finalBack), figures.U]});
    rows.push({cells: [named("Stop band begins", "nothing is cut from here on"), ...off(figures.stopFrom), "", ""]});
    rows.push({cells: [named("Stop line", "never past it"), ...off(figures.stop), "", figures.UStop]});
    rows.push({cells: [named("Witness line", "draw it first"), ...off(figures.witness), "0.0", ""]});
    if (figures.liftLimit) rows.push({cells: [named("Lift limit", "lift the board no further"), ...off(figures.liftLimit), "", ""]});
    if (figures.bevel) rows.push({cells: [named("Bevel begins", "after the last cut only"), ...off(figures.bevel), "", ""]});
    const keep = figures.keep && `Keep ${figures.keepFirst && figures.first ? `${figures.keepFirst} at the first cut, then ` : ""}${figures.keep} mm${figures.share ? ` (${figures.share} of the board)` : ""}. `;
    return [
      table(`${footNames[side]}: millimetres from the heel end, along the centre line`, head, rows),
      el("p", {class: "hint"}, keep, `The right place for this dancer is known to ${figures.URight} mm at 95 %, an estimate; the first cut is held back by so much that it is too far for only about one dancer in forty.`),
    ];
  }

  root.append(el("div", {class: "before"}, cautions, question), tables,
    el("section", {class: "part", "aria-labelledby": "sheets-title"},
      el("h3", {id: "sheets-title", text: "The sheets"}),
      el("div", {class: "boxes"}, paper.field, units.field),
      maker.node, card.node, care.node,
      el("div", {class: "row"}, button("Make the sheets (PDF)", makeSheets, {class: "main"}), button("Look at every page here", showPages))),
    el("section", {class: "part", "aria-labelledby": "files-title"},
      el("h3", {id: "files-title", text: "The files"}),
      el("div", {class: "row"}, button("Save order", saveOrder), button("Parts as SVG", () => makeParts("svg")), button("Parts as DXF", () => makeParts("dxf"))),
      cutOnly.node),
    outcome, pages);

  return {
    /// The order was opened or begun: its question is asked anew.
    build() {
      answered = false;
      buildQuestion();
      outcome.replaceChildren();
      pages.replaceChildren();
    },
    show(answer) {
      const solved = answer.ok ? answer.solution?.feet : null;
      if (!solved) {
        const errors = answer.solution?.findings?.filter(finding => finding.severity === "error") ?? [];
        tables.replaceChildren(el("p", {class: "notice", text: "There are no figures for the ruler yet:"}), findingList(errors));
        return;
      }
      const findings = answer.solution.findings ?? [];
      tables.replaceChildren(
        ...(findings.length > 0 ? [findingList(findings)] : []),
        ...["left", "right"].filter(side => solved[side]).flatMap(side => boardTable(side, solved[side])));
    },
    showPages,
  };
}
