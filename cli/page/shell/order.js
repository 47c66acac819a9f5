// The order as it was typed: a tree in the shape of the order file, and what is known of its file.
// Nothing is computed or converted here: every value is the text of its box.

const format = "shankline-order/1";

/// A date as the order writes it, in the time zone of this machine.
function today() {
  const now = new Date();
  const two = number => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function freshTree() {
  return {format, date: today(), pose: "pointed", feet: {left: {}, right: {}}, shoe: {board: {}},
    alterations: {shank: {reach: "edge"}}};
}

const isTree = value => typeof value === "object" && value !== null && !Array.isArray(value);

/// The text of a box for a value: a list is joined, {value, within} is written "61 within 2".
export function boxText(value) {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value)) return value.map(boxText).join("; ");
  if (isTree(value)) {
    const text = boxText(value.value);
    return "within" in value ? `${text} within ${value.within}` : text;
  }
  return String(value);
}

/// The value of a box's text: undefined if empty, a list if several were written.
export function boxValue(text) {
  const doubt = /^(.*\S)\s+(?:within|±|\+-)\s*(.*)$/i.exec(text.trim());
  if (doubt) {
    const value = boxValue(doubt[1]);
    return value === undefined ? text.trim() : {value, within: doubt[2].trim()};
  }
  const parts = text.split(/;|,\s+/).map(part => part.trim()).filter(part => part !== "");
  if (parts.length === 0) return undefined;
  return parts.length === 1 ? parts[0] : parts;
}

/// Objects that mean something even when they are empty: a foot, an alteration that is wanted.
function standsEmpty(path) {
  const [section] = path;
  if (section === "feet") return path.length <= 2;
  if (section !== "alterations") return path.length === 1 || (section === "shoe" && path.length === 2 && path[1] === "board");
  return ["left", "right"].includes(path[1]) ? path.length === 3 : path.length <= 2;
}

/// Every path at which two trees differ, as lists of keys.
export function differences(a, b, path = []) {
  if (JSON.stringify(a) === JSON.stringify(b)) return [];
  if (!isTree(a ?? {}) || !isTree(b ?? {})) return [path];
  // A reading with its own doubt is one value for whoever reads about it.
  if ((a && "value" in a) || (b && "value" in b)) return [path];
  const keys = new Set([...Object.keys(a ?? {}), ...Object.keys(b ?? {})]);
  return [...keys].flatMap(key => differences(a?.[key], b?.[key], [...path, key]));
}

export function createOrder() {
  let tree = freshTree();
  let saved = JSON.stringify(tree);
  let file = null; // {bytes, text, name, comments, tree: as JSON} of the file that was opened
  const listeners = [];
  const changed = event => listeners.forEach(listener => listener(event));

  function get(path) {
    return path.reduce((node, key) => (isTree(node) || Array.isArray(node) ? node[key] : undefined), tree);
  }

  /// Sets a value; undefined takes the key out, and objects that are left empty with it.
  function set(path, value) {
    if (JSON.stringify(get(path)) === JSON.stringify(value)) return;
    if (value === undefined) {
      for (let length = path.length; length > 0; length -= 1) {
        const parent = get(path.slice(0, length - 1));
        if (isTree(parent)) delete parent[path[length - 1]];
        if (!isTree(parent) || Object.keys(parent).length > 0 || standsEmpty(path.slice(0, length - 1))) break;
      }
    } else {
      let node = tree;
      for (const key of path.slice(0, -1)) {
        if (!isTree(node[key])) node[key] = {};
        node = node[key];
      }
      node[path[path.length - 1]] = value;
    }
    changed({path});
  }

  const isChanged = () => !file || JSON.stringify(tree) !== file.tree;

  return {
    get,
    set,
    /// The listener gets {path}, {loaded: true} or {saved: true}.
    listen: listener => listeners.push(listener),
    tree: () => tree,
    file: () => file,
    isChanged,
    hasUnsavedWork: () => JSON.stringify(tree) !== saved,
    /// What a request sends: the file's own text for as long as nothing was changed.
    body: () => (isChanged() ? {document: tree} : {text: file.text}),
    startNew() {
      tree = freshTree();
      saved = JSON.stringify(tree);
      file = null;
      changed({loaded: true});
    },
    /// Takes an order that was read. `kept` is false if it is in no file of the user's yet.
    load(document, opened, kept = true) {
      tree = document;
      file = {...opened, tree: JSON.stringify(tree)};
      saved = kept ? JSON.stringify(tree) : "";
      changed({loaded: true});
    },
    markSaved() {
      saved = JSON.stringify(tree);
      changed({saved: true});
    },
  };
}
