// The board, always in sight: both boards with the first cut in large figures, how well the line
// is known, and what moved it.

import {drawing, el} from "./dom.js";
import {boardFigures} from "./figures.js";
import {differences} from "./order.js";
import {pathWords} from "./words.js";

const sides = ["left", "right"];
const capital = foot => foot.charAt(0).toUpperCase() + foot.slice(1);

/// How long an error has to last before the lines are called out of date: half a figure is none.
const patience = 700;

/// How long figures have to rest before they are read out by a screen reader.
const quiet = 1500;

const narrow = matchMedia("(max-width: 67.99rem)");

/// In a narrow window the picture shows the board alone, without the room for the names of lines.
function fitPicture(svg) {
  const edge = svg?.querySelector(".k-edge");
  if (!edge) return;
  svg.dataset.whole ??= svg.getAttribute("viewBox");
  const [, y, , height] = svg.dataset.whole.split(" ");
  const box = edge.getBBox();
  svg.setAttribute("viewBox", narrow.matches && box.width > 0 ? `${box.x - 3} ${y} ${box.width + 6} ${height}` : svg.dataset.whole);
}

export function createBoard({order, readings, parts, say}) {
  let last = null; // {tree, figures: by foot} of the last order that was solved
  let timer = 0;
  let doubtTimer = 0;
  narrow.addEventListener("change", () => sides.forEach(foot => fitPicture(parts[foot].picture.querySelector("svg"))));

  function movedWords(foot, before, now, paths) {
    if (!before || !now || paths.length === 0) return null;
    const lines = [["first", "first cut"], ["final", "final cut"]];
    for (const [key, name] of lines) {
      const a = before[key]?.centre;
      const b = now[key]?.centre;
      if (a !== undefined && b !== undefined && a !== b)
        return `${capital(foot)} ${name} ${a} → ${b}, since ${because(paths, foot)} changed.`;
    }
    if (before.stopFrom !== now.stopFrom)
      return `${capital(foot)} stop band ${before.stopFrom} → ${now.stopFrom}, since ${because(paths, foot)} changed.`;
    return null;
  }

  function because(paths, foot) {
    const names = [...new Set(paths.map(path => pathWords(readings, path, foot)))];
    if (names.length > 3) return "several boxes";
    return names.length === 1 ? names[0] : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
  }

  function heading(figures) {
    if (!figures) return [el("span", {class: "no-cut", text: "not cut"})];
    const first = figures.first ?? figures.final;
    const name = figures.first ? "first cut" : "file back to";
    return [
      el("span", {class: "what", text: name}), " ",
      el("span", {class: "number"}, first.centre, el("span", {class: "mm", text: " mm"})), " ",
      figures.first && el("span", {class: "then", text: `then try; final ${figures.final.centre} ${figures.U}`}),
    ];
  }

  function pictureWords(foot, figures) {
    if (!figures) return `The ${foot} board, not cut.`;
    return `The ${foot} board, foot side up, heel end down, not to scale. Cut off from the heel end: `
      + (figures.first ? `first cut ${figures.first.centre}, final cut ${figures.final.centre}` : `one line, ${figures.final.centre}`)
      + `, stop band from ${figures.stopFrom} to the stop line at ${figures.stop} millimetres.`;
  }

  function draw(foot, solved, answer, paths) {
    const part = parts[foot];
    const solution = answer.solution.feet[foot];
    const figures = solution ? boardFigures(solution) : null;
    part.figure.hidden = !solution;
    part.figure.classList.remove("empty");
    part.heading.replaceChildren(...heading(figures).filter(node => node));
    const picture = drawing(answer.pictures?.[foot], pictureWords(foot, figures));
    part.picture.replaceChildren(...[picture, picture && el("p", {class: "not-to-scale", "aria-hidden": "true", text: "Not to scale"})].filter(node => node));
    fitPicture(picture);
    const known = answer.known?.[foot] ?? "";
    part.known.hidden = known === "";
    part.known.replaceChildren(el("strong", {text: `${capital(foot)}: `}), known);
    const moved = movedWords(foot, last?.figures[foot], figures, paths);
    if (moved || paths.length > 0) part.moved.textContent = moved ?? "";
    part.moved.hidden = part.moved.textContent === "";
    solved[foot] = figures;
    return moved;
  }

  /// An empty board keeps the place of the one to come.
  function empty(foot) {
    const part = parts[foot];
    part.figure.hidden = false;
    part.figure.classList.add("empty");
    part.heading.replaceChildren(el("span", {class: "what", text: "first cut"}), " ", el("span", {class: "number", text: "–"}));
    part.picture.replaceChildren();
    part.known.hidden = true;
    part.moved.hidden = true;
  }

  function announce(words) {
    clearTimeout(timer);
    timer = setTimeout(() => say(words), quiet);
  }

  return {
    /// Shows the answer to a live request. `tree` is the order that it answers.
    show(answer, tree) {
      const solved = answer.ok && answer.solution?.feet;
      clearTimeout(doubtTimer);
      if (solved) parts.panel.classList.remove("stale");
      if (!solved) {
        const findings = answer.solution?.findings ?? [];
        const errors = findings.filter(finding => finding.severity === "error");
        // A growing foot without a named adult gets no cut lines, not even old ones.
        const refused = errors.some(finding => ["decided_by", "growing"].includes(finding.key));
        if (refused || !last) {
          last = null;
          sides.forEach(empty);
        }
        const words = refused ? "No cut lines: an adult has to decide for a growing foot, and the order names none."
          : last ? "Not up to date: the order has an error now. These lines are from before."
            : "No lines yet. They appear as soon as the readings are enough.";
        doubtTimer = setTimeout(() => {
          parts.panel.classList.add("stale");
          parts.state.hidden = false;
          parts.state.textContent = words;
        }, last ? patience : 0);
        announce(errors.length > 0 ? `${errors.length} ${errors.length === 1 ? "entry is" : "entries are"} missing or wrong.` : words);
        return;
      }
      parts.state.hidden = true;
      const paths = last ? differences(last.tree, tree) : [];
      const figures = {};
      const moved = sides.map(foot => draw(foot, figures, answer, paths)).filter(words => words);
      last = {tree: structuredClone(tree), figures};
      const words = sides.filter(foot => figures[foot]).map(foot => {
        const line = figures[foot].first ?? figures[foot].final;
        return `${foot} ${figures[foot].first ? "first cut" : "file back to"} ${line.centre}`;
      });
      announce(moved.length > 0 ? moved.join(" ") : words.length > 0 ? `Cut off: ${words.join(", ")} millimetres.` : "No board is cut.");
    },
    /// Another order was opened: nothing of the last one is compared with it.
    forget() {
      last = null;
      clearTimeout(doubtTimer);
      parts.panel.classList.remove("stale");
      sides.forEach(empty);
    },
    /// Nothing answers: what is shown may belong to an older order.
    lost() {
      parts.panel.classList.add("stale");
      parts.state.hidden = false;
      parts.state.textContent = "Not up to date: the program behind this page does not answer.";
    },
  };
}
