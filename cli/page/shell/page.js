// Puts the page together: the order, the program behind it, the board and the steps of the work.

import {createArchive} from "./archive.js";
import {createBoard} from "./board.js";
import {createCloser} from "./closer.js";
import {ask, button, drawing, el, keepFile} from "./dom.js";
import {createPlacing, findingList} from "./findings.js";
import {createForm} from "./form.js";
import {createMark, fileStem} from "./mark.js";
import {createMeasure} from "./measure.js";
import {createOrder} from "./order.js";
import {createServer, Gone, newestWins, Refused, takeToken} from "./request.js";
import {createTry} from "./try.js";

const byId = id => document.getElementById(id);
const stepNames = {measure: "Measure", mark: "Mark", try: "Try", closer: "Look closer", archive: "Archive"};

/// The longest order file that the program reads.
const longestFile = 65536;
/// How long the page waits after a key before it asks for new lines.
const pause = 120;

const say = words => {
  byId("status").textContent = words;
};

function showTrouble(words, order) {
  const place = byId("trouble");
  if (!words) {
    place.hidden = true;
    place.replaceChildren();
    return;
  }
  if (!place.hidden) return;
  place.hidden = false;
  place.replaceChildren(el("p", {}, el("strong", {text: words})),
    el("p", {text: "Start “shankline page” again and open the address that it prints. Save what you typed first: the file can be opened there."}),
    el("div", {class: "row"}, button("Save what was typed", () => {
      // An order may be written in JSON too, so this needs nobody's help.
      if (order.isChanged()) keepFile(`${fileStem(order)}.json`, [JSON.stringify(order.tree(), null, 1)], "application/json");
      else keepFile(order.file().name, [order.file().bytes], "application/yaml");
      order.markSaved();
    })));
}

/// Reads a file of the user's as text. Its bytes are kept, so that an unchanged order goes back as
/// it came; a byte order mark stays in the text for the same reason.
async function readFile(file) {
  if (file.size > longestFile) throw new Refused(`${file.name} is larger than 64 KB. That is not an order.`);
  const bytes = await file.arrayBuffer();
  try {
    return {bytes, text: new TextDecoder("utf-8", {fatal: true, ignoreBOM: true}).decode(bytes), name: file.name};
  } catch {
    throw new Refused(`${file.name} is not a text file in UTF-8.`);
  }
}

function start({order, server, readings, schema, usual}) {
  const howPlace = byId("how-place");
  const wide = matchMedia("(min-width: 68rem)");
  const panel = el("div", {class: "how", tabindex: "0", role: "region", "aria-label": "How the reading is taken"},
    el("p", {class: "hint", text: "How a reading is taken is shown here when its box is chosen."}));
  howPlace.append(panel);

  /// How the reading of the box that has the focus is taken: beside the board where there is room,
  /// else below the box.
  function showHow(reading, container) {
    const range = reading.allowed ? `From ${reading.allowed[0]} to ${reading.allowed[1]} ${reading.unit}.` : null;
    panel.replaceChildren(...[
      el("p", {class: "name", text: reading.name.charAt(0).toUpperCase() + reading.name.slice(1)}),
      drawing(reading.sketch, `Sketch: where the ${reading.name} is taken`),
      reading.between && el("p", {}, el("strong", {text: reading.between})),
      el("p", {text: reading.how}), reading.why && el("p", {class: "hint", text: reading.why}), range && el("p", {class: "hint", text: range})].filter(node => node));
    if (wide.matches) howPlace.append(panel);
    else container.append(panel);
  }

  const form = createForm({order, readings, schema, showHow});
  const summary = byId("summary");
  const placing = createPlacing({form, order, readings, summary, reveal});
  const boardParts = {panel: byId("board"), state: byId("board-state")};
  for (const foot of ["left", "right"]) {
    const figure = document.querySelector(`.board-of[data-foot=${foot}]`);
    boardParts[foot] = {figure, heading: figure.querySelector(".line"), picture: figure.querySelector(".picture"),
      moved: figure.querySelector(".moved"), known: document.querySelector(`.known[data-foot=${foot}]`)};
  }
  const board = createBoard({order, readings, parts: boardParts, say});
  const mark = createMark({root: byId("mark"), order, server, form, usual, say, saveOrder});
  const measure = createMeasure({order, readings, form, showDrawings: () => {
    go("mark");
    mark.showPages();
  }});
  const tries = createTry({root: byId("try"), order, server});
  const closer = createCloser({root: byId("closer"), order, server, readFile});
  const archive = createArchive({root: byId("archive"), order, server, openOrder, onPresence: tries.offerKeeping});
  let fit = () => {};

  function go(step, {focus = true} = {}) {
    for (const name of Object.keys(stepNames)) byId(name).hidden = name !== step;
    for (const entry of byId("steps").querySelectorAll("button"))
      if (entry.dataset.step === step) entry.setAttribute("aria-current", "step");
      else entry.removeAttribute("aria-current");
    document.title = `${stepNames[step]} – ${order.get(["dancer"]) ?? "new order"} – Shankline`;
    howPlace.hidden = step !== "measure";
    if (step === "archive") archive.reload();
    if (focus) byId(`${step}-title`).focus();
  }

  /// Brings a box into sight, whatever it is hidden in, and puts the focus there.
  function reveal(field) {
    const step = field.container.closest("main > section")?.id;
    if (step) go(step, {focus: false});
    for (let node = field.container; node; node = node.parentElement) if (node.tagName === "DETAILS") node.open = true;
    field.input?.focus();
  }

  const live = newestWins(async () => {
    const tree = structuredClone(order.tree());
    const asked = order.tree();
    try {
      const answer = await server.json("/live", order.body());
      // Another order was opened while this one was on its way.
      if (asked !== order.tree()) return;
      board.show(answer, tree);
      placing.show(answer.solution?.findings ?? answer.findings ?? []);
      measure.showEstimates(answer);
      mark.show(answer);
    } catch (error) {
      board.lost();
      if (error instanceof Refused) placing.show(error.findings.length > 0 ? error.findings : [{severity: "error", key: null, what: error.message}]);
      else if (!(error instanceof Gone)) throw error;
    }
  }, pause);

  function showName() {
    const file = order.file();
    const words = [order.get(["dancer"]), order.get(["pair"])].filter(text => text).join(", ");
    byId("order-name").textContent = words || (file ? file.name : "New order");
    byId("unsaved").hidden = !order.hasUnsavedWork();
  }

  function showFileNotice() {
    const file = order.file();
    const place = byId("file-notice");
    if (!file?.comments) {
      place.replaceChildren();
      return;
    }
    place.replaceChildren(el("p", {class: "notice", text: order.isChanged()
      ? `The comments of ${file.name} are not in the changed order. Save it under another name to keep them.`
      : `${file.name} has comments. They stay as long as you change nothing here; the first change loses them.`}));
  }

  function build() {
    form.clear();
    placing.reset();
    const built = measure.build();
    fit = built.fit;
    byId("form").replaceChildren(...built.nodes);
    mark.build();
    placing.show([]);
    tries.forget();
    board.forget();
    showName();
    showFileNotice();
  }

  order.listen(event => {
    if (event.loaded) build();
    if (event.path) {
      placing.typing(event.path);
      fit();
      closer.outdate();
      showFileNotice();
    }
    showName();
    if (!event.saved) live();
  });

  function complain(what, error) {
    byId("file-notice").replaceChildren(el("div", {class: "notice", role: "alert"}, el("p", {}, el("strong", {text: what}), error.message), findingList(error.findings)));
  }

  async function mayLeave() {
    return !order.hasUnsavedWork() || ask("What you typed is not saved. Leave it and go on?", "Leave it", "Stay here");
  }

  /// Opens an order file. Nothing of it is computed here: the program reads it.
  async function openOrder(opened, kept = false) {
    if (!(await mayLeave())) return;
    try {
      const answer = await server.json("/open", {text: opened.text, name: opened.name});
      if (!answer.ok || !answer.document) throw new Refused(`${opened.name} could not be read.`, answer.findings);
      const bytes = opened.bytes ?? new TextEncoder().encode(opened.text);
      order.load(answer.document, {...opened, bytes, comments: answer.comments === true}, kept);
      go("measure", {focus: false});
      say(`${opened.name} is open.`);
    } catch (error) {
      if (error instanceof Gone) return;
      complain("Not opened. ", error);
    }
  }

  async function openFile(file) {
    try {
      await openOrder(await readFile(file), true);
    } catch (error) {
      complain("Not opened. ", error);
    }
  }

  async function saveOrder() {
    try {
      if (!order.isChanged()) keepFile(order.file().name, [order.file().bytes], "application/yaml");
      else {
        const answer = await server.json("/text", order.body());
        keepFile(order.file()?.name ?? answer.name, [answer.text], "application/yaml");
      }
      order.markSaved();
      say("The order was handed to the browser to save.");
    } catch (error) {
      if (!(error instanceof Gone)) complain("Not saved. ", error);
    }
  }

  byId("steps").addEventListener("click", event => {
    const step = event.target.closest("button")?.dataset.step;
    if (step) go(step);
  });
  byId("new").addEventListener("click", async () => {
    if (!(await mayLeave())) return;
    order.startNew();
    go("measure");
  });
  byId("open").addEventListener("click", () => byId("file").click());
  byId("file").addEventListener("change", () => {
    const [file] = byId("file").files;
    byId("file").value = "";
    if (file) openFile(file);
  });
  byId("save").addEventListener("click", saveOrder);
  byId("form").addEventListener("submit", event => event.preventDefault());
  // What waited because its box was being typed in is said when the box is left.
  byId("form").addEventListener("focusout", () => setTimeout(placing.again, 0));
  window.addEventListener("beforeunload", event => {
    if (order.hasUnsavedWork()) event.preventDefault();
  });
  let depth = 0;
  const showDrop = by => {
    depth = Math.max(0, depth + by);
    byId("drop").hidden = depth === 0;
  };
  window.addEventListener("dragenter", () => showDrop(1));
  window.addEventListener("dragleave", () => showDrop(-1));
  window.addEventListener("dragover", event => event.preventDefault());
  window.addEventListener("drop", event => {
    event.preventDefault();
    depth = 0;
    byId("drop").hidden = true;
    const [file] = event.dataTransfer.files;
    if (file) openFile(file);
  });

  build();
  archive.reload();
  live();
}

async function begin() {
  const order = createOrder();
  const server = createServer(takeToken(), words => showTrouble(words, order));
  try {
    const answer = await server.json("/readings", {});
    const readings = new Map(answer.readings.readings.map(reading => [reading.key,
      {...reading, sketch: answer.sketches?.[reading.key], between: answer.between?.[reading.key]}]));
    start({order, server, readings, schema: answer.schema, usual: answer.usual ?? {}});
  } catch (error) {
    byId("form").replaceChildren(el("p", {class: "notice", text: `${error.message} The page could not be built.`}), button("Try again", () => location.reload()));
    if (!(error instanceof Gone)) throw error;
  }
}

begin();
