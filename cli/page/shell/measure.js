// The first step: who and which pair, the readings of both feet, the shoe and its board, and what
// is to be done. It knows the order of the work; form.js knows the boxes.

import {button, el} from "./dom.js";
import {isNeeded, labelOf, readingOf} from "./words.js";

const feet = ["left", "right"];
const footNames = {left: "Left foot", right: "Right foot"};
const usual = ["length", "ball_length", "heel_front", "arch_break", "arch_depth", "fold"];

export function createMeasure({order, readings, form, showDrawings}) {
  const millimetres = value => `${value.toFixed(1)} mm`;

  /// Words under an empty box: the estimate that is used, and what not knowing costs.
  function notKnown(reading, estimate, asked) {
    const parts = [];
    const out = reading.left_out;
    const general = out?.estimate ?? null;
    if (estimate !== undefined) parts.push(el("em", {text: `Estimate used: ${millimetres(estimate)}. `}));
    else if (asked && general !== null) parts.push(el("em", {text: `Estimate for an ordinary foot: ${millimetres(general)}. `}));
    if (!asked) return parts;
    const cost = out ? out.U_left_out - out.U : 0;
    if (cost > 0.05)
      parts.push(`Not knowing it costs about ${millimetres(cost)}: the line is known to ±${out.U_left_out.toFixed(1)} instead of ±${out.U.toFixed(1)}.`);
    else parts.push("Not knowing it costs 0 mm: this does not make the cut less certain.");
    return parts;
  }

  let estimates = {};
  /// A box of a foot, with its buttons.
  function footBox(path, same) {
    const reading = readingOf(readings, path);
    return form.box(path, {
      same: path[1] === "right" ? same ?? path.map(part => (part === "right" ? "left" : part)) : null,
      unknown: reading && !isNeeded(path) ? () => notKnown(reading, estimates[path.join(".")], true) : null,
    });
  }

  function archBreak(foot) {
    const path = ["feet", foot, "arch_break"];
    const value = () => order.get(path);
    const scalar = () => value() !== undefined && (typeof value() !== "object" || Array.isArray(value()) || "value" in value());
    return form.cases("Where the arch breaks", [
      form.keyCase("each edge by itself", [path], () => value() !== undefined && !scalar(),
        () => ["medial", "lateral", "across"].map(edge => footBox([...path, edge]))),
      form.keyCase("one reading for both edges", [path], scalar, () => footBox(path)),
    ], {path});
  }

  function foot(side) {
    const path = ["feet", side];
    const more = Object.keys(form.schemaAt(path).properties).filter(key => !usual.includes(key) && !["left", "right", "both"].includes(key));
    const build = () => {
      const parts = usual.map(key => (key === "arch_break" ? archBreak(side) : footBox([...path, key])));
      parts.push(form.closed(`More readings of the ${side} foot`, more.some(key => order.get([...path, key]) !== undefined),
        () => more.map(key => (key === "roll" ? form.fromSchema([...path, key]) : footBox([...path, key])))));
      return parts;
    };
    const group = form.wanted(path, {title: `${footNames[side]} is part of this order`, body: build});
    group.classList.add("presence");
    return el("div", {class: `foot ${side}`, role: "group", "aria-labelledby": `foot-${side}`},
      el("h4", {id: `foot-${side}`}, el("span", {class: "letter", "aria-hidden": "true", text: side === "left" ? "L" : "R"}), ` ${footNames[side]}`), group);
  }

  function pair() {
    return part("Who, and which pair", "who", [
      el("div", {class: "boxes"}, form.words(["dancer"]), form.words(["pair"]), form.words(["date"]), form.words(["read_by"])),
      form.radios(["pose"], ["pointed", "in_shoe"]),
      form.closed("For the maker, and rarer matters", ["quantity", "due", "deliver_to", "note", "estimates", "tolerances"].some(key => order.get([key]) !== undefined),
        () => [el("div", {class: "boxes"}, form.box(["quantity"]), form.words(["due"]), form.words(["deliver_to"]),
          form.fromSchema(["estimates"])), form.words(["note"], {long: true}), form.fromSchema(["tolerances"])]),
    ]);
  }

  function shoe() {
    const board = key => ["shoe", "board", key];
    const length = form.box(board("length"));
    const sole = form.box(board("sole_length"));
    // A loose board has a length; a board in the shoe has none that can be measured, but the outer
    // sole has. A box that holds something stays in sight whatever the state.
    const fit = () => {
      const state = order.get(board("state"));
      length.hidden = state === "in_shoe" && order.get(board("length")) === undefined;
      sole.hidden = state !== "in_shoe" && order.get(board("sole_length")) === undefined;
    };
    fit();
    const rest = Object.keys(form.schemaAt(["shoe", "board"]).properties).filter(key => !["state", "length", "sole_length", "inset", "thickness", "widths"].includes(key));
    const has = (...keys) => keys.some(key => order.get(["shoe", key]) !== undefined);
    const keys = path => Object.keys(form.schemaAt(path).properties);
    const sideKeys = keys(["shoe", "sides"]).filter(key => !["medial", "lateral", "heights"].includes(key));
    const node = part("The shoe and its board", "shoe", [
      form.radios(board("state"), ["loose", "in_shoe"]),
      el("div", {class: "boxes"}, length, sole, form.box(board("inset")), form.box(board("thickness"))),
      form.fromSchema(board("widths")),
      form.closed("More about the board", rest.some(key => order.get(board(key)) !== undefined), () => el("div", {class: "boxes"}, rest.map(key => form.fromSchema(board(key))))),
      form.closed("How stiff the board is, and how the shoe gives", has("stiffness", "pull", "clamp"),
        () => ["stiffness", "pull", "clamp"].map(key => form.fromSchema(["shoe", key]))),
      form.closed("Sides of the shoe (needed to lower them)", has("sides"), () => [
        el("div", {class: "boxes"}, sideKeys.map(key => form.fromSchema(["shoe", "sides", key]))),
        ["heights", "medial", "lateral"].map(key => form.fromSchema(["shoe", "sides", key]))]),
      form.closed("Platform (needed to darn it)", has("platform"), () => form.fromSchema(["shoe", "platform"])),
      form.closed("Style and stock shoe", has("style", "stock"), () => [form.fromSchema(["shoe", "style"]), form.fromSchema(["shoe", "stock"])]),
      sidesApart("shoe", side => Object.keys(form.schemaAt(["shoe", side]).properties).filter(key => !["left", "right", "both"].includes(key)).map(key => {
        const path = ["shoe", side, key];
        return form.schemaAt(path).properties
          ? form.closed(labelOf(readings, path), order.get(path) !== undefined, () => form.fromSchema(path), {level: "4"}) : form.fromSchema(path);
      })),
    ]);
    return {node, fit};
  }

  /// Closed parts for what holds for one shoe only.
  function sidesApart(section, build) {
    return feet.map(side => form.closed(`Only the ${side} shoe`, order.get([section, side]) !== undefined, () => build(side)));
  }

  function shank(prefix) {
    const path = [...prefix, "shank"];
    const at = key => [...path, key];
    const rule = () => ["reach", "keep", "mark"].map(key => order.get(at(key)));
    const presets = ["short", "edge", "tucked", "learned"];
    const reach = () => order.get(at("reach"));
    const isTree = () => typeof reach() === "object";
    const list = [
      form.keyCase("by a usual reach", [at("reach")], () => presets.includes(reach()) || rule().every(value => value === undefined),
        () => form.choice(at("reach"), presets), () => order.set(at("reach"), "edge")),
      form.keyCase("by a reach as a figure", [at("reach")], () => reach() !== undefined && !isTree() && !presets.includes(reach()), () => form.box(at("reach"))),
      form.keyCase("by the share of the board that stays", [at("keep")], () => order.get(at("keep")) !== undefined, () => form.box(at("keep"))),
      form.keyCase("by a mark on the board", [at("mark")], () => order.get(at("mark")) !== undefined, () => form.box(at("mark"))),
    ];
    if (prefix.length > 1 || isTree())
      list.push(form.keyCase("by a learned place, as the archive gave it", [at("reach")], isTree,
        () => el("div", {class: "boxes"}, ["learned", "U", "pairs", "until", "model", "worn_good", "too_far"].map(key => form.fromSchema([...at("reach"), key])))));
    const more = Object.keys(form.schemaAt(path).properties).filter(key => !["reach", "keep", "mark", "bevel"].includes(key));
    return form.wanted(path, {
      empty: () => (prefix.length > 1 ? {} : {reach: "edge"}),
      body: () => [
        form.cases("Where the board ends", list, {path}),
        form.box(at("bevel")),
        form.closed("More about the cut", more.some(key => order.get(at(key)) !== undefined),
          () => el("div", {class: "boxes"}, more.map(key => form.fromSchema(at(key))))),
      ],
    });
  }

  /// An alteration with a few boxes first and the rarer ones closed.
  function work(prefix, name, first) {
    const path = [...prefix, name];
    const rest = Object.keys(form.schemaAt(path).properties).filter(key => !first.includes(key));
    return form.wanted(path, {body: () => [
      el("div", {class: "boxes"}, first.map(key => form.fromSchema([...path, key]))),
      rest.length > 0 && form.closed("More", rest.some(key => order.get([...path, key]) !== undefined),
        () => el("div", {class: "boxes"}, rest.map(key => form.fromSchema([...path, key])))),
    ]});
  }

  function liner(prefix) {
    const path = [...prefix, "liner"];
    return form.wanted(path, {
      empty: () => "full",
      asked: value => value !== undefined && value !== "none",
      body: () => el("div", {class: "boxes"}, form.fromSchema([...path, "clearance"]), form.fromSchema([...path, "length"])),
    });
  }

  const isTrue = value => value === true || value === "true";

  function works(prefix) {
    const one = prefix.length > 1;
    return [
      shank(prefix),
      work(prefix, "sides", ["medial", "lateral", "back", "edge"]),
      one ? form.fromSchema([...prefix, "liner"]) : liner(prefix),
      work(prefix, "darning", ["passes", "height", "pitch", "yarn"]),
      work(prefix, "ribbons", ["ring", "stretch", "width", "rise"]),
      work(prefix, "elastics", ["over", "width", "stretch", "sewn_at", "heel_loop"]),
      one ? form.fromSchema([...prefix, "filler"])
        : form.wanted([...prefix, "filler"], {empty: () => true, asked: isTrue, body: () => null}),
      work(prefix, "tuck", ["depth", "down"]),
      work(prefix, "thinned", ["from", "to", "thickness"]),
    ];
  }

  function alterations() {
    return part("What is to be done", "work", [
      works(["alterations"]),
      sidesApart("alterations", side => works(["alterations", side])),
      el("p", {}, button("Show the drawings of these works", showDrawings)),
    ]);
  }

  function part(title, id, children) {
    return el("section", {class: "part", "aria-labelledby": `part-${id}`}, el("h3", {id: `part-${id}`, text: title}), children);
  }

  return {
    /// Builds the boxes for the order as it stands now.
    build() {
      estimates = {};
      const shoePart = shoe();
      const nodes = [
        pair(),
        part("The feet", "feet", [
          el("p", {class: "hint", text: "Several values in one box, such as 238; 238.5; 238, are the same reading taken again. They make the line more certain. 61 within 2 says how sure you are." }),
          el("div", {class: "feet"}, feet.map(foot)),
        ]),
        shoePart.node,
        alterations(),
      ];
      return {nodes, fit: shoePart.fit};
    },
    /// Shows which estimates stand in for empty boxes, after an order was solved.
    showEstimates(answer) {
      estimates = {...answer.estimates};
      for (const [key, field] of form.fields) {
        if (!field.estimate || !field.container.isConnected) continue;
        const empty = field.input.value.trim() === "";
        const asked = field.container.querySelector("[aria-pressed]")?.getAttribute("aria-pressed") === "true";
        const words = empty ? notKnown(readingOf(readings, field.path), estimates[key], asked) : [];
        const text = words.map(word => word.textContent ?? word).join("");
        field.estimate.hidden = text === "";
        if (field.estimate.textContent !== text) field.estimate.replaceChildren(...words);
      }
    },
  };
}
