// Small helpers to build the page's elements. Text always enters as text nodes, never as markup.

/// Makes an element. `props`: class, text, on {event: handler}, and attributes; a value of null,
/// undefined or false leaves an attribute out, true sets it empty. Children: nodes, strings, lists.
export function el(tag, props = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (value === null || value === undefined || value === false) continue;
    if (name === "text") node.textContent = value;
    else if (name === "class") node.className = value;
    else if (name === "on") for (const [event, handler] of Object.entries(value)) node.addEventListener(event, handler);
    else if (name === "value" || name === "checked") node[name] = value;
    else node.setAttribute(name, value === true ? "" : value);
  }
  add(node, children);
  return node;
}

function add(node, children) {
  for (const child of children.flat(Infinity)) if (child !== null && child !== undefined && child !== false) node.append(child);
}

export function button(text, handler, props = {}) {
  return el("button", {type: "button", text, on: {click: handler}, ...props});
}

let count = 0;
export function freshId(stem) {
  count += 1;
  return `${stem}-${count}`;
}

/// Turns a drawing that the server made into an element; null if it is not a drawing.
export function drawing(svg, label) {
  if (!svg) return null;
  const root = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  if (root.localName !== "svg") return null;
  const node = document.importNode(root, true);
  node.removeAttribute("width");
  node.removeAttribute("height");
  node.setAttribute("role", "img");
  node.setAttribute("aria-label", label);
  return node;
}

/// Offers bytes or text as a file to keep. The address stays valid for as long as the page lives,
/// because a browser may read it only when the user has chosen where to put the file.
export function keepFile(name, parts, type) {
  const link = el("a", {href: URL.createObjectURL(new Blob(parts, {type})), download: name});
  document.body.append(link);
  link.click();
  link.remove();
  return link.href;
}

/// Asks a question in a dialogue; resolves to true for yes. Escape means no.
export function ask(question, yes, no) {
  return new Promise(resolve => {
    const title = freshId("question");
    const dialog = el("dialog", {"aria-labelledby": title, class: "question"},
      el("p", {id: title, text: question}),
      el("div", {class: "row"},
        button(no, () => dialog.close("no"), {class: "main"}),
        button(yes, () => dialog.close("yes"))));
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(dialog.returnValue === "yes");
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}

/// A tick or a radio button with its label: {input, node}.
export function option(type, text, props = {}) {
  const input = el("input", {type, id: freshId(type), ...props});
  return {input, node: el("div", {class: "option"}, input, el("label", {for: input.id, text}))};
}

/// A question with its options and a place for messages.
export function choiceGroup(legend, nodes, {hint, messages, kind = "field choice"} = {}) {
  return el("fieldset", {class: kind, "aria-describedby": messages?.id}, el("legend", {text: legend}),
    hint && el("p", {class: "hint", text: hint}), nodes, messages);
}

/// A table that scrolls by itself where it is wider than the window.
export function table(caption, head, rows, props = {}) {
  return el("div", {class: "scroller", tabindex: "0", role: "region", "aria-label": caption},
    el("table", props,
      el("caption", {text: caption}),
      el("thead", {}, el("tr", {}, head.map(text => el("th", {scope: "col", text})))),
      el("tbody", {}, rows.map(row => el("tr", {class: row.class},
        row.cells.map((cell, i) => el(i === 0 ? "th" : "td", {scope: i === 0 ? "row" : null}, cell)))))));
}

/// Pages of the sheets as pictures: {title, svg} each.
export function pageFigures(pages) {
  return el("div", {class: "pages"}, pages.map(page => el("figure", {}, el("figcaption", {}, page.title, " ", button("larger", event => {
      const large = event.target.closest("figure").classList.toggle("large");
      event.target.setAttribute("aria-pressed", String(large));
    }, {class: "quiet", "aria-pressed": "false", "aria-label": `larger: ${page.title}`})),
    drawing(page.svg, `${page.title}. Not to scale on a screen.`))));
}

/// Words of several lines that the program wrote as a table of letters.
export function plainText(words, label) {
  return el("pre", {text: words, tabindex: "0", role: "region", "aria-label": label});
}
