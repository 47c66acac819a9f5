// Boxes for the keys of an order. A box writes what was typed into the order and shows what was
// found about its key; the kind of box comes from the JSON Schema of the order.

import {button, choiceGroup, el, freshId, option} from "./dom.js";
import {boxText, boxValue} from "./order.js";
import {choiceWords, hintOf, isNeeded, labelOf, readingOf, shortKey, unitOf} from "./words.js";

/// `showHow(reading, container)` is called when a reading's box gets the focus.
export function createForm({order, readings, schema, showHow}) {
  /// By key with dots: {path, input, container, messages, estimate}.
  const fields = new Map();
  const resolve = node => (node.$ref ? resolve(schema.$defs[node.$ref.slice("#/$defs/".length)]) : node);

  /// The schema at a path of the order.
  function schemaAt(path) {
    let node = schema;
    for (const key of path) {
      node = resolve(node);
      const choices = node.anyOf ? node.anyOf.map(resolve) : [node];
      node = choices.map(choice => choice.properties?.[key]).find(found => found);
      if (!node) return undefined;
    }
    return resolve(node);
  }

  function register(path, field) {
    const key = path.join(".");
    fields.set(key, Object.defineProperties({path}, Object.getOwnPropertyDescriptors(field)));
    field.container.dataset.key = key;
  }

  /// The frame around a box: label, hint, messages. `input` gets the ids it is described by.
  function frame(path, input, control, {helpers, label, extra = [], estimate} = {}) {
    const id = freshId("box");
    const reading = readingOf(readings, path);
    const unit = unitOf(readings, path);
    const hint = hintOf(path);
    const parts = [];
    const described = (node, name) => {
      node.id = `${id}-${name}`;
      parts.push(node.id);
      return node;
    };
    const messages = described(el("div", {class: "messages"}), "messages");
    const hintNode = hint ? described(el("p", {class: "hint", text: hint}), "hint") : null;
    const how = reading ? described(el("p", {class: "away", text: reading.how}), "how") : null;
    extra.forEach(node => described(node, freshId("note")));
    input.id = id;
    input.setAttribute("aria-describedby", parts.join(" "));
    const container = el("div", {class: "field"},
      el("label", {for: id}, label ?? labelOf(readings, path), isNeeded(path) && el("span", {class: "needs", text: " needed"}), unit && el("span", {class: "away", text: `, ${unit}`})),
      helpers ? el("div", {class: "control"}, control, el("div", {class: "helpers"}, helpers)) : control,
      hintNode, extra, how, messages);
    if (reading) input.addEventListener("focus", () => showHow(reading, container));
    register(path, {input, container, messages, estimate});
    return container;
  }

  /// A box for a figure, or several figures as repeated readings.
  function box(path, {same, unknown, label} = {}) {
    const input = el("input", {type: "text", autocomplete: "off", spellcheck: "false"});
    const unit = unitOf(readings, path);
    const control = el("div", {class: "box"}, input, unit && el("span", {class: "unit", "aria-hidden": "true", text: unit}));
    const showUnit = () => control.classList.toggle("own-unit", /[a-z%°"]/i.test(input.value));
    const refresh = () => {
      input.value = boxText(order.get(path));
      showUnit();
    };
    const put = value => {
      order.set(path, value);
      refresh();
    };
    const helpers = [];
    const extra = [];
    const name = labelOf(readings, path).toLowerCase();
    if (same) helpers.push(button("same as left", () => put(order.get(same)), {class: "quiet", "aria-label": `same as left: ${name}`}));
    let estimate = null;
    if (unknown) {
      estimate = el("p", {class: "estimate", hidden: true});
      extra.push(estimate);
      helpers.push(button("I don't know", event => {
        put(undefined);
        event.target.setAttribute("aria-pressed", "true");
        estimate.hidden = false;
        estimate.replaceChildren(...unknown());
      }, {class: "quiet", "aria-pressed": "false", "aria-label": `I don't know: ${name}`}));
    }
    input.addEventListener("input", () => {
      showUnit();
      order.set(path, boxValue(input.value));
      if (estimate) {
        estimate.hidden = true;
        helpers[helpers.length - 1].setAttribute("aria-pressed", "false");
      }
    });
    refresh();
    return frame(path, input, control, {helpers: same || unknown || path[0] === "feet" ? helpers : null, label, extra, estimate});
  }

  /// A box for words; `long` makes it one of several lines.
  function words(path, {long, list} = {}) {
    const input = long ? el("textarea", {rows: "3"}) : el("input", {type: "text", autocomplete: "off", spellcheck: "false", list});
    input.value = boxText(order.get(path));
    input.addEventListener("input", () => order.set(path, input.value.trim() === "" ? undefined : input.value));
    return frame(path, input, input);
  }

  /// A list to choose from. A value that is not on it (a file may hold one) is added to it.
  function choice(path, values, {truth = false} = {}) {
    const value = order.get(path);
    const listed = values.map(String);
    if (value !== undefined && !listed.includes(String(value))) listed.push(String(value));
    const words = entry => {
      const known = choiceWords(path, entry);
      return truth && known === entry ? ({true: "yes", false: "no"}[entry] ?? entry) : known;
    };
    const input = el("select", {}, el("option", {value: "", text: "not said"}), listed.map(entry => el("option", {value: entry, text: words(entry)})));
    input.value = value === undefined ? "" : String(value);
    input.addEventListener("change", () => {
      order.set(path, input.value === "" ? undefined : truth ? input.value === "true" : input.value);
    });
    return frame(path, input, input);
  }

  /// Choices that are all in sight: one of them (radio), or ticks for a key that holds one word or
  /// a list of them.
  function inSight(path, values, type) {
    const name = freshId("choice");
    const messages = el("div", {class: "messages", id: `${name}-messages`});
    const options = values.map(value => option(type, choiceWords(path, value), {name, value, on: {change: write}}));
    function write() {
      const chosen = options.map(({input}) => input).filter(input => input.checked).map(input => input.value);
      order.set(path, chosen.length > 1 ? chosen : chosen[0]);
    }
    options.forEach(({input}) => (input.checked = [order.get(path)].flat().includes(input.value)));
    const container = choiceGroup(labelOf(readings, path), options.map(({node}) => node), {hint: hintOf(path), messages});
    register(path, {input: options[0].input, container, messages});
    return container;
  }

  const radios = (path, values) => inSight(path, values, "radio");

  /// A list of rows. `columns(wide)` names the columns, `read` makes rows of texts of the order's
  /// value and `store` the value of the rows that are filled in. `split` names a tick for a further column.
  function rows(path, {columns, read, store, unit, more, split, reading}) {
    const body = el("div", {class: "rows"});
    const messages = el("div", {class: "messages", id: freshId("messages")});
    const label = labelOf(readings, path);
    const list = read(order.get(path));
    let wide = list.some(row => row.length > 2);
    while (list.length < 2) list.push([]);
    const write = () => {
      const filled = list.filter(row => row.some(text => text !== ""));
      order.set(path, filled.length > 0 ? store(filled) : undefined);
    };
    function cell(row, i, j, name) {
      const input = el("input", {type: "text", autocomplete: "off", value: row[j], "aria-describedby": messages.id,
        "aria-label": `${label}, row ${i + 1}: ${name}${unit ? `, ${unit}` : ""}`,
        on: {
          input: () => {
            row[j] = input.value.trim();
            write();
          },
          focus: () => reading && showHow(reading, container),
        }});
      return el("div", {class: unit ? "box" : ""}, input, unit && el("span", {class: "unit", "aria-hidden": "true", text: unit}));
    }
    function draw() {
      const names = columns(wide);
      list.forEach(row => {
        while (row.length < names.length) row.push("");
        row.length = names.length;
      });
      body.replaceChildren(
        el("div", {class: `line head columns-${names.length}`, "aria-hidden": "true"}, names.map(name => el("span", {text: name})), el("span")),
        ...list.map((row, i) => el("div", {class: `line columns-${names.length}`}, names.map((name, j) => cell(row, i, j, name)),
          button("remove", () => {
            list.splice(i, 1);
            if (list.length === 0) list.push([]);
            write();
            draw();
            addRow.focus();
          }, {class: "quiet remove", "aria-label": `remove row ${i + 1} of ${label.toLowerCase()}`}))));
    }
    const addRow = button(more, () => {
      list.push([]);
      draw();
      body.lastElementChild.querySelector("input").focus();
    }, {class: "quiet"});
    const splitTick = split && option("checkbox", split, {checked: wide, on: {change: event => {
      wide = event.target.checked;
      draw();
      write();
    }}});
    const hint = hintOf(path);
    const container = el("fieldset", {class: "field wide"}, el("legend", {}, label, isNeeded(path) && el("span", {class: "needs", text: " needed"})), hint && el("p", {class: "hint", text: hint}),
      body, el("div", {class: "helpers"}, addRow, splitTick?.node), messages);
    draw();
    register(path, {get input() {
      return body.querySelector("input");
    }, container, messages});
    return container;
  }

  /// One of several ways to say the same thing. A case is {label, has(), clear(), body()}; what was
  /// typed for a case comes back when it is chosen again.
  function cases(label, list, {fallback = 0, path} = {}) {
    const id = freshId("cases");
    const holder = el("div", {class: "case"});
    const select = el("select", {id}, list.map((entry, i) => el("option", {value: String(i), text: entry.label})));
    const kept = new Map();
    let now = list.findIndex(entry => entry.has());
    if (now < 0) now = fallback;
    const show = () => {
      select.value = String(now);
      holder.replaceChildren(...[list[now].body()].flat(Infinity).filter(node => node));
    };
    select.addEventListener("change", () => {
      kept.set(now, list[now].keep?.());
      list[now].clear();
      now = Number(select.value);
      if (kept.get(now) !== undefined) list[now].restore?.(kept.get(now));
      else list[now].start?.();
      show();
    });
    const messages = el("div", {class: "messages"});
    show();
    const container = el("div", {class: "field cases"}, el("label", {for: id, text: label}), select, messages, holder);
    if (path) register([...path, "*"], {input: select, container, messages});
    return container;
  }

  /// A case that is one key of the order, or several keys beside each other.
  function keyCase(label, paths, has, body, start) {
    return {
      label,
      has,
      body,
      start,
      clear: () => paths.forEach(path => order.set(path, undefined)),
      keep: () => (paths.some(path => order.get(path) !== undefined) ? paths.map(path => order.get(path)) : undefined),
      restore: values => paths.forEach((path, i) => order.set(path, values[i])),
    };
  }

  /// The boxes for a key by its schema alone.
  function fromSchema(path, options = {}) {
    const node = schemaAt(path);
    if (!node) return null;
    if (node.type === "boolean") return choice(path, ["true", "false"], {truth: true});
    if (node.enum) return choice(path, node.enum);
    if (Array.isArray(node.type)) return words(path);
    if (node.type === "array") return listed(path);
    if (node.type === "object") return node.properties ? group(path, Object.keys(node.properties)) : pairs(path);
    const ways = (node.anyOf ?? []).map(resolve);
    const list = ways.find(way => way.type === "array" && resolve(way.items).enum);
    if (list) return inSight(path, resolve(list.items).enum, "checkbox");
    const trees = ways.filter(way => way.properties && !way.properties.value);
    return trees.length > 0 ? variants(path, ways, trees) : box(path, options);
  }

  /// Widths of the board or heights of a side: a list of lists.
  function listed(path) {
    const halves = path[path.length - 1] === "widths";
    return rows(path, {
      columns: wide => (!halves ? ["from the heel", "height"] : wide ? ["from the heel end", "big-toe half", "little-toe half"] : ["from the heel end", "width"]),
      read: value => (value ?? []).map(row => [row].flat().map(boxText)),
      store: filled => filled.map(row => [...row]),
      unit: "mm",
      more: halves ? "add a width" : "add a height",
      split: halves && "the two halves differ",
      reading: readings.get(halves ? "board.widths.width" : "sides.heights.height"),
    });
  }

  /// Names and words of the user's own.
  const pairs = path => rows(path, {
    columns: () => ["name, such as size", "in your words"],
    read: value => Object.entries(value ?? {}).map(([name, text]) => [name, boxText(text)]),
    store: filled => Object.fromEntries(filled),
    more: "add a row",
  });

  const caseLabels = {
    arch_break: {scalar: "one reading for both edges", trees: ["each edge by itself"], fallback: 1},
    roll: {enum: "the side alone", trees: ["the side, and how much higher it is darned"]},
    stiffness: {enum: "a grade by hand", trees: ["from a bending test", "from a hung weight"]},
    pull: {scalar: "as a figure, N/mm", trees: ["how far the sole can be pushed up"], fallback: 1},
    reach: {enum: "a usual reach", scalar: "a reach as a figure", trees: ["a learned place, as the archive gave it"]},
    liner: {enum: "full or none", trees: ["with figures of its own"]},
  };

  function variants(path, ways, trees) {
    const names = caseLabels[path[path.length - 1]] ?? {};
    const value = () => order.get(path);
    const isTree = () => typeof value() === "object" && !Array.isArray(value()) && !("value" in value());
    const enumWay = ways.find(way => way.enum);
    const list = [];
    if (enumWay) list.push(keyCase(names.enum ?? "a word", [path], () => value() !== undefined && !isTree() && enumWay.enum.includes(String(value())), () => choice(path, enumWay.enum)));
    if (ways.some(way => way.anyOf || way.type === "number" || way.type === "string"))
      list.push(keyCase(names.scalar ?? "a figure", [path], () => value() !== undefined && !isTree(), () => box(path, {label: names.scalar && shortKey(path) === "arch_break" ? labelOf(readings, path) : undefined})));
    trees.forEach((tree, i) => {
      const keys = Object.keys(tree.properties);
      list.push(keyCase(names.trees?.[i] ?? "in detail", [path], () => isTree() && Object.keys(value()).every(key => keys.includes(key)),
        () => keys.map(key => fromSchema([...path, key]))));
    });
    return cases(labelOf(readings, path), list, {fallback: names.fallback ?? 0, path});
  }

  /// Keys beside each other under the name of their group.
  function group(path, keys) {
    return el("fieldset", {class: "group"}, el("legend", {text: labelOf(readings, path)}),
      el("div", {class: "boxes"}, keys.map(key => fromSchema([...path, key]))));
  }

  /// A part that is built when it is opened; open from the start if the order speaks of it.
  function closed(title, has, build, {level = "3"} = {}) {
    const body = el("div", {class: "inside"});
    const details = el("details", {class: "closed"}, el("summary", {}, el("span", {role: "heading", "aria-level": level, text: title})), body);
    let built = false;
    const fill = () => {
      if (built) return;
      built = true;
      body.append(...[build()].flat(Infinity).filter(node => node));
    };
    details.addEventListener("toggle", () => details.open && fill());
    if (has) {
      details.open = true;
      fill();
    }
    return details;
  }

  /// An alteration with a tick that asks for it. `empty` is the value that asks for it without
  /// figures. What was typed comes back when the tick is set again.
  function wanted(path, {title, empty = () => ({}), asked = value => value !== undefined, refuse, body}) {
    const messages = el("div", {class: "messages", id: freshId("messages")});
    const {input: tick, node} = option("checkbox", title ?? labelOf(readings, path), {"aria-describedby": messages.id});
    const inside = el("div", {class: "inside"});
    let kept;
    const show = () => {
      tick.checked = asked(order.get(path));
      inside.replaceChildren(...(tick.checked ? [body()].flat(Infinity).filter(node => node) : []));
      inside.hidden = inside.childElementCount === 0;
    };
    tick.addEventListener("change", () => {
      if (!tick.checked) {
        kept = order.get(path);
        order.set(path, refuse);
      } else order.set(path, kept ?? empty());
      show();
    });
    show();
    const container = el("div", {class: "wanted"}, node, messages, inside);
    register(path, {input: tick, container, messages});
    return container;
  }

  return {box, words, choice, radios, rows, cases, keyCase, fromSchema, group, closed, wanted, schemaAt, fields,
    clear: () => fields.clear()};
}
