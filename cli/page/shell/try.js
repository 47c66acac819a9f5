// The third step: what was seen on pointe after a cut, and the next line back, or stop.

import {choiceGroup, el, freshId, option} from "./dom.js";
import {attempt, findingList} from "./findings.js";
import {rulerDown, rulerUp} from "./figures.js";
import {seen} from "./words.js";

export function createTry({root, order, server}) {
  const done = el("ol", {class: "tries"});
  const result = el("div", {class: "result", "aria-live": "polite"});
  const id = freshId("try");
  const messages = el("div", {class: "messages", id: `${id}-messages`});

  const radio = (name, value, text, checked) => option("radio", text, {name: `${id}-${name}`, value, checked});
  const chosen = list => list.find(entry => entry.input.checked)?.input.value;
  const foot = [radio("foot", "left", "Left", true), radio("foot", "right", "Right")];
  const from = [radio("from", "cut", "cut off so far, from the heel end (0 for the uncut board)", true),
    radio("from", "back", "back from the witness line to the board's end")];
  const what = Object.entries(seen).map(([value, text]) => radio("seen", value, text));
  const end = el("input", {type: "text", id: `${id}-end`, autocomplete: "off", "aria-describedby": messages.id});
  const past = option("checkbox", "past the final line, with a teacher's or fitter's word (never into the stop band)");
  const worn = option("checkbox", "seen after wear, not at the barre");
  const keep = option("checkbox", "keep this try in the archive");
  const by = el("input", {type: "text", id: `${id}-by`, autocomplete: "off"});
  const keeping = el("div", {hidden: true}, keep.node,
    el("div", {class: "field"}, el("label", {for: by.id, text: "Who judged (a code)"}), by));

  const complain = (text, input) => {
    messages.replaceChildren(el("p", {class: "message error"}, el("strong", {text: "Error: "}), text));
    input.focus();
  };

  async function submit(event) {
    event.preventDefault();
    end.removeAttribute("aria-invalid");
    messages.replaceChildren();
    if (end.value.trim() === "") {
      end.setAttribute("aria-invalid", "true");
      complain("Say where the board ends now, in millimetres.", end);
      return;
    }
    if (!chosen(what)) {
      complain("Say what was seen.", what[0].input);
      return;
    }
    const asked = {...order.body(), foot: chosen(foot), [chosen(from)]: end.value.trim(), seen: chosen(what),
      past_final: past.input.checked, worn: worn.input.checked, save: keep.input.checked && !keeping.hidden};
    if (by.value.trim() !== "") asked.by = by.value.trim();
    await attempt(result, async () => show(asked, await server.json("/try", asked)));
  }

  function headline(next) {
    if (!next) return null;
    if (!next.next) return el("p", {class: "verdict stop"}, el("strong", {text: next.seen === "good" ? "Stop cutting: it is right." : "Stop: cut nothing more."}));
    const side = next.foot === "left" ? "Left" : "Right";
    const edges = Object.values(next.next.back).map(rulerUp);
    const skew = new Set(edges).size > 1;
    return el("p", {class: "verdict"},
      el("span", {class: "what", text: `${side}, next line`}), " ",
      el("span", {class: "number"}, rulerUp(next.next.back.centre), el("span", {class: "mm", text: " mm"})), " ",
      el("span", {class: "then", text: `back from the witness line (${rulerDown(next.next.board.centre)} cut off)`
        + (skew ? `; big-toe edge ${rulerUp(next.next.back.medial)}, little-toe edge ${rulerUp(next.next.back.lateral)}` : "")}));
  }

  function show(asked, answer) {
    if (!answer.ok) return [el("p", {class: "message error"}, el("strong", {text: "No next line. "}), "The program could not use this try."), findingList(answer.findings)];
    const parts = [headline(answer.next), el("p", {class: "words", text: answer.words.trim()}), findingList(answer.findings),
      el("p", {class: "hint", text: "An estimate. Stop at pain, or when the foot is carried over the platform, and ask the teacher, the fitter, or a licensed physiotherapist or podiatrist."})];
    done.append(el("li", {text: `${asked.foot}, ${asked.cut !== undefined ? `${asked.cut} cut off` : `${asked.back} back from the witness line`}: ${seen[asked.seen]}${asked.save ? " (kept in the archive)" : ""}`}));
    tried.hidden = false;
    return parts;
  }

  const tried = el("section", {class: "part", hidden: true, "aria-labelledby": `${id}-done`}, el("h3", {id: `${id}-done`, text: "Tries so far, on this page"}), done);
  const choice = (legend, list, props) => choiceGroup(legend, list.map(entry => entry.node), props);
  root.append(
    el("p", {class: "notice", text: "Tape the cut edge, baste the ribbons on, put the liner in. Both hands on the barre. Stop at pain, or when the foot is carried over the platform."}),
    el("form", {class: "part", novalidate: true, on: {submit}},
      choice("Which foot", foot, {kind: "field choice inline"}),
      choice("Where the board ends now is measured as", from),
      el("div", {class: "field"}, el("label", {for: end.id}, "The board ends at", el("span", {class: "away", text: ", mm"})),
        el("div", {class: "box"}, end, el("span", {class: "unit", "aria-hidden": "true", text: "mm"}))),
      choice("What was seen on pointe", what),
      worn.node, past.node,
      keeping, messages,
      el("div", {class: "row"}, el("button", {type: "submit", class: "main", text: "What next?"}))),
    result, tried);

  return {
    /// An archive exists, so a try can be kept.
    offerKeeping: present => (keeping.hidden = !present),
    forget() {
      result.replaceChildren();
      done.replaceChildren();
      tried.hidden = true;
    },
  };
}
