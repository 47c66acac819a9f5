// Puts errors and cautions beside the boxes that they speak of, and sums up the rest at the top.

import {el} from "./dom.js";
import {pathWords} from "./words.js";

/// How long after a key an error of that very box waits: half a figure is no mistake.
const patience = 1200;

const sections = ["feet", "shoe", "alterations"];

export function findingWords(finding) {
  const end = text => (/[.!?]$/.test(text) ? text : `${text}.`);
  const start = text => text.charAt(0).toUpperCase() + text.slice(1);
  return [
    end(start(finding.what ?? "")),
    finding.allowed && `Allowed: ${end(finding.allowed)}`,
    finding.do && end(start(finding.do)),
  ].filter(text => text).join(" ");
}

/// A list of findings, if there are any, for a place where there are no boxes.
export function findingList(findings) {
  return el("ul", {class: "findings"}, (findings ?? []).map(finding => el("li", {class: finding.severity},
    el("strong", {text: finding.severity === "error" ? "Error: " : "Caution: "}), findingWords(finding))));
}

/// Runs a job and shows in `place` what it makes, or why it could not.
export async function attempt(place, job, words = "Working …") {
  place.replaceChildren(el("p", {text: words}));
  try {
    place.replaceChildren(...[await job()].flat(Infinity).filter(node => node));
  } catch (error) {
    place.replaceChildren(el("p", {class: "message error"}, el("strong", {text: "Not done. "}), error.message));
    if (error.findings?.length > 0) place.append(findingList(error.findings));
  }
}

/// `form.fields` holds the boxes; `summary` is the element at the top; `reveal` shows a box.
export function createPlacing({form, order, readings, summary, reveal}) {
  let findings = [];
  let marked = [];
  let timer = 0;
  const typed = {key: null, at: 0};

  const shown = field => field?.container.isConnected;
  const find = key => {
    if (shown(form.fields.get(key))) return form.fields.get(key);
    for (const [name, field] of form.fields) if (name.startsWith(`${key}.`) && shown(field)) return field;
    return null;
  };

  /// The box for a finding's key, or the nearest one that is on the page.
  function fieldFor(key) {
    const parts = key.split(".");
    const least = sections.includes(parts[0]) ? 2 : 1;
    const common = ["shoe", "alterations"].includes(parts[0]) && ["left", "right"].includes(parts[1])
      ? [parts[0], ...parts.slice(2)] : null;
    for (const names of [parts, common].filter(names => names))
      for (let length = names.length; length >= least; length -= 1) {
        const field = find(names.slice(0, length).join("."));
        if (field) return field;
      }
    return null;
  }

  const fieldsFor = key => (key.startsWith("feet.both")
    ? ["left", "right"].map(foot => fieldFor(key.replace("both", foot)))
    : [fieldFor(key)]).filter(field => field);

  const isEmpty = field => field.input?.tagName === "INPUT" && field.input.type === "text"
    ? field.input.value.trim() === "" : order.get(field.path) === undefined;

  function place() {
    clearTimeout(timer);
    // Boxes keep their messages where these did not change: a screen reader is not told again.
    const wanted = new Map();
    const loose = [];
    const mend = [];
    const needed = [];
    for (const finding of findings) {
      const fields = finding.key ? fieldsFor(finding.key) : [];
      const error = finding.severity === "error";
      if (fields.length === 0) {
        loose.push(finding);
        continue;
      }
      for (const field of fields) {
        const waits = error && field.path.join(".") === typed.key && Date.now() - typed.at < patience && document.activeElement === field.input;
        if (waits) {
          timer = setTimeout(place, patience);
          continue;
        }
        const kind = error ? (isEmpty(field) ? "needed" : "error") : "caution";
        if (kind === "error") mend.push({field, finding});
        if (kind === "needed" && !needed.includes(field)) needed.push(field);
        const list = wanted.get(field) ?? [];
        if (!list.some(entry => entry.text === findingWords(finding))) list.push({kind, text: findingWords(finding)});
        wanted.set(field, list);
      }
    }
    for (const field of marked) if (!wanted.has(field)) mark(field, []);
    for (const [field, list] of wanted) mark(field, list);
    marked = [...wanted.keys()];
    sumUp(loose, mend, needed);
  }

  const names = {error: "Error: ", needed: "Still needed: ", caution: "Caution: "};
  function mark(field, list) {
    const text = JSON.stringify(list);
    if (field.messages.dataset.text === text) return;
    field.messages.dataset.text = text;
    const wrong = list.some(entry => entry.kind === "error");
    field.container.classList.toggle("has-error", wrong);
    if (field.input && field.input.type !== "radio" && field.input.type !== "checkbox")
      if (wrong) field.input.setAttribute("aria-invalid", "true");
      else field.input.removeAttribute("aria-invalid");
    field.messages.replaceChildren(...list.map(entry => el("p", {class: `message ${entry.kind}`}, el("strong", {text: names[entry.kind]}), entry.text)));
  }

  const link = field => el("a", {href: "#", text: pathWords(readings, field.path), on: {click: event => {
    event.preventDefault();
    reveal(field);
  }}});

  function sumUp(loose, mend, needed) {
    const text = JSON.stringify([loose, mend.map(({field, finding}) => [field.path, finding.what]), needed.map(field => field.path)]);
    if (summary.dataset.text === text) return;
    summary.dataset.text = text;
    const parts = [];
    if (mend.length + loose.filter(finding => finding.severity === "error").length > 0)
      parts.push(el("h3", {text: "To be put right"}), el("ul", {},
        mend.map(({field, finding}) => el("li", {}, link(field), `: ${finding.what}`)),
        loose.filter(finding => finding.severity === "error").map(finding => el("li", {class: "error"}, findingWords(finding)))));
    const cautions = loose.filter(finding => finding.severity !== "error");
    if (cautions.length > 0) parts.push(el("h3", {text: "Cautions"}), findingList(cautions));
    if (needed.length > 0)
      parts.push(el("p", {}, el("strong", {text: "Still needed: "}), needed.flatMap((field, i) => [i > 0 ? ", " : "", link(field)]), "."));
    summary.replaceChildren(...parts);
    summary.hidden = parts.length === 0;
  }

  return {
    show(list) {
      findings = list;
      place();
    },
    again: place,
    /// Remembers which box was typed in last.
    typing(path) {
      typed.key = path.join(".");
      typed.at = Date.now();
    },
    reset() {
      marked = [];
      delete summary.dataset.text;
    },
  };
}
