// Words for the keys and choices of an order that are no readings. The names of readings come
// from the program.

/// Labels by the key without foot; section and key where one key has two meanings.
const labels = {
  dancer: "Dancer's code",
  pair: "Which pair",
  date: "Day of the order",
  note: "Note",
  quantity: "How many pairs",
  due: "To be delivered by",
  deliver_to: "Deliver to",
  pose: "How the foot was measured",
  estimates: "Estimates from the feet of",
  read_by: "Reader's code",
  decided_by: "Who decides (a code)",
  growing: "The foot is still growing",
  roll: "Where the foot rolls on pointe",
  board: "The board",
  "board.state": "The board",
  "board.material": "What the board is made of",
  "board.widths": "Widths of the board",
  sides: "Sides of the shoe",
  "sides.heights": "More heights of the side",
  "sides.medial": "The big-toe side, where it differs",
  "sides.lateral": "The little-toe side, where it differs",
  platform: "Platform",
  stiffness: "How stiff the board is",
  clamp: "Where the box holds the board",
  style: "Style of the shoe, in a word of your own",
  stock: "What the maker is told about the stock shoe",
  shank: "Shorten the board",
  "shank.end": "End of the board",
  "shank.accept": "A fitter's word",
  "shank.reach.until": "Last day on record of these pairs",
  "alterations.sides": "Lower the sides",
  "alterations.sides.edge": "How the new edge is made",
  "alterations.sides.drawstring": "Drawstring",
  thinned: "Thin the board instead of cutting it",
  filler: "Soft filler in the emptied heel seat",
  liner: "Full-length liner",
  darning: "Darn the platform",
  "darning.face": "Darn the platform's face as well",
  ribbons: "Ribbons",
  "ribbons.ring": "Kind of ribbon",
  elastics: "Elastics",
  "elastics.heel_loop": "A loop at the back seam as well",
  tuck: "A tuck at the back seam",
  tolerances: "Tolerances",
};

const rolls = {in: "in, to the big toe", out: "out, to the little toe", none: "nowhere"};
const choices = {
  pose: {pointed: "seated, foot pointed", in_shoe: "on pointe in the uncut shoe"},
  "board.state": {loose: "taken out of the shoe", in_shoe: "stays in the shoe"},
  "board.material": {plastic: "moulded plastic (is not cut)"},
  "roll.side": rolls,
  roll: rolls,
  "shank.accept": {
    outside_window: "cut outside the window",
    in_stop_band: "cut inside the stop band",
  },
  "shank.reach": {
    short: "short: ends before the heel front",
    edge: "edge: ends at the heel's front edge",
    tucked: "tucked: ends under the heel",
    learned: "learned: from the archive's tries of this foot",
  },
  "ribbons.ring": {true: "a ring of stretch ribbon", false: "tied ribbons"},
  clamp: {wing: "at the wings", ball: "at the ball"},
  "tolerances.other": {bench: "as usual at the bench", knife: "as good as a knife can"},
};

const hints = {
  dancer: "A code such as M-07, not a name.",
  pair: "In your own words, such as: touring, spring, second pair.",
  deliver_to: "A code or a place, not a person's name.",
  read_by: "Of the one person who took every reading, such as R2. Leave it out if there were two.",
  decided_by: "A teacher, fitter or parent. A code such as T-4, not a name.",
  "board.widths": "Straight across the board. Two places are enough: near its heel end, and where the cut will be.",
  "sides.heights": "Where the top line dips more than once.",
  "board.state": "Moulded plastic boards are not cut.",
  "shank.bevel": "A length, or the word none for a square edge.",
  "tolerances.other": "The word bench or knife, or one figure for all.",
  "shank.accept": "Neither cuts ahead of the arch break.",
  "darning.yarn": "From the band of the yarn, such as 50 tex or Nm 20.",
  estimates: "They stand in for what was not measured.",
};

const units = {mm: "mm", deg: "°", "%": "%", g: "g"};

/// The key without its section and foot: feet.left.arch_break.medial is arch_break.medial.
export function shortKey(path) {
  const rest = ["feet", "shoe", "alterations"].includes(path[0]) ? path.slice(1) : path;
  return (["left", "right"].includes(rest[0]) ? rest.slice(1) : rest).join(".");
}

/// One side of the shoe has the words of both: sides.medial.low is sides.low.
const oneSide = key => key.replace(/^sides\.(medial|lateral)\./, "sides.");

/// The reading that a path of the order holds, or undefined.
export function readingOf(readings, path) {
  const key = shortKey(path);
  if (path[0] === "alterations" && key === "sides.back") return readings.get("sides.back_depth");
  return readings.get(key) ?? readings.get(oneSide(key));
}

/// Keys without which no line can be worked out: nothing stands in for them.
const needed = new Set(["dancer", "length", "arch_break", "arch_break.medial", "board.state", "board.length", "board.inset", "board.widths"]);

export function isNeeded(path) {
  const oneShoe = path[0] !== "feet" && ["left", "right"].includes(path[1]);
  return path[0] !== "alterations" && !oneShoe && needed.has(shortKey(path));
}

const capital = text => text.charAt(0).toUpperCase() + text.slice(1);

function ofTable(table, path) {
  const key = shortKey(path);
  return table[`${path[0]}.${key}`] ?? table[key] ?? table[oneSide(key)];
}

export function labelOf(readings, path) {
  return ofTable(labels, path) ?? capital(readingOf(readings, path)?.name ?? path[path.length - 1].replaceAll("_", " "));
}

export function hintOf(path) {
  return ofTable(hints, path);
}

export function choiceWords(path, value) {
  return ofTable(choices, path)?.[String(value)] ?? String(value).replaceAll("_", " ");
}

export function unitOf(readings, path) {
  const reading = readingOf(readings, path);
  return reading ? (units[reading.unit] ?? "") : "";
}

/// A path in words for a sentence: "left heel front", "board length"; without the foot where the
/// sentence is about that `foot` already.
export function pathWords(readings, path, foot) {
  const own = ["left", "right"].find(side => path[1] === side);
  const side = own && own !== foot ? `${own} ` : "";
  let known = path;
  while (known.length > 1 && !readingOf(readings, known) && !ofTable(labels, known)) known = known.slice(0, -1);
  const name = labelOf(readings, known);
  return side + name.charAt(0).toLowerCase() + name.slice(1);
}

export const seen = {
  good: "Good: it bends where the foot bends",
  "too-low": "Too low: the shoe still bends ahead of where the foot bends",
  "too-far-back": "Too far back: it bends at the board's end, near the heel",
  "cut-too-far": "Cut too far: the board is too short, support is gone",
  "rolls-over": "Rolls over: the foot is carried over the platform",
  pain: "Pain: it hurts",
};
