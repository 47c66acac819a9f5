// The archive: what was ordered for whom, what came of it, the same again, and what was learned.

import {button, el, freshId, keepFile, plainText, table} from "./dom.js";
import {attempt, findingList} from "./findings.js";

export function createArchive({root, order, server, openOrder, onPresence}) {
  const presence = el("p");
  const saved = el("div", {"aria-live": "polite"});
  const overview = el("div");
  const shown = el("div", {"aria-live": "polite"});
  const listId = freshId("dancers");
  const dancers = el("datalist", {id: listId});
  const dancer = el("input", {type: "text", id: freshId("dancer"), list: listId, autocomplete: "off"});
  const inside = el("div", {class: "inside", hidden: true});

  const trouble = answer => [el("p", {class: "message error", text: "The archive has no answer to this."}), findingList(answer.findings)];

  async function reload() {
    try {
      const answer = await server.json("/archive", {do: "list"});
      const present = !answer.absent;
      presence.textContent = present ? "" : "There is no archive on this machine yet. Saving an order makes one.";
      inside.hidden = !present;
      onPresence(present);
      const entries = answer.result?.entries ?? [];
      dancers.replaceChildren(...[...new Set(entries.map(entry => entry.dancer))].map(value => el("option", {value})));
      overview.replaceChildren(entryTable("What was cut, the newest first", entries));
    } catch (error) {
      presence.textContent = error.message;
    }
  }

  const reprint = id => attempt(shown, async () => {
    const name = `entry-${id}.pdf`;
    const address = keepFile(name, [await server.file("/archive/reprint", {id})], "application/pdf");
    return el("p", {}, "The sheets of then are ready: ", el("a", {href: address, download: name, text: name}), ".");
  });

  const openEntry = id => attempt(shown, async () => {
    const answer = await server.json("/archive", {do: "show", id});
    if (!answer.ok || !answer.result?.order) return trouble(answer);
    await openOrder({text: answer.result.order, name: `entry-${id}.yaml`});
    return el("p", {text: `The order of entry ${id} is open.`});
  });

  function entryTable(caption, entries) {
    if (entries.length === 0) return el("p", {text: "Nothing is kept yet."});
    const note = text => el("span", {class: "note", text});
    return table(caption, ["Entry", "Pair, and what was done"], entries.map(entry => ({cells: [
      [String(entry.id), note(entry.dancer), note(entry.date ?? "")],
      [entry.pair ?? "", note(entry.summary ?? ""), entry.notes?.length > 0 && note(`notes: ${entry.notes.length}`),
        el("span", {class: "row"},
          button("Reprint", () => reprint(entry.id), {class: "quiet", "aria-label": `Reprint entry ${entry.id}`}),
          button("Open", () => openEntry(entry.id), {class: "quiet", "aria-label": `Open the order of entry ${entry.id}`}))],
    ]})), {class: "text"});
  }

  function ofDancer(job) {
    const code = dancer.value.trim();
    if (code === "") {
      shown.replaceChildren(el("p", {class: "message error"}, el("strong", {text: "Error: "}), "Write the dancer's code first."));
      dancer.focus();
      return;
    }
    attempt(shown, () => job(code));
  }

  const words = (what, label) => async code => {
    const answer = await server.json("/archive", {do: what, dancer: code});
    return answer.ok ? plainText(answer.words, `${label} of ${code}`) : trouble(answer);
  };

  const history = async code => {
    const answer = await server.json("/archive", {do: "history", dancer: code});
    return answer.ok ? [entryTable(`Pairs of ${code}`, answer.result?.cuts ?? []), plainText(answer.words, `History of ${code}`)] : trouble(answer);
  };

  const again = async code => {
    const answer = await server.json("/again", {dancer: code});
    if (!answer.ok) return trouble(answer);
    await openOrder({text: answer.text, name: answer.name});
    return el("p", {text: `The next order of ${code} is open, from the last pair that was good. Check its readings before you cut.`});
  };

  const save = () => attempt(saved, async () => {
    const answer = await server.json("/archive/save", {...order.body(), paper: "a4"});
    if (!answer.ok) return trouble(answer);
    reload();
    return el("p", {text: answer.words.trim()});
  });

  root.append(presence,
    el("div", {class: "row"}, button("Save this order in the archive", save, {class: "main"})), saved,
    inside);
  inside.append(
    el("section", {class: "part", "aria-labelledby": "dancer-title"}, el("h3", {id: "dancer-title", text: "One dancer"}),
      el("div", {class: "field"}, el("label", {for: dancer.id, text: "Dancer's code"}), dancer, dancers),
      el("div", {class: "row"},
        button("History", () => ofDancer(history)),
        button("The same again", () => ofDancer(again)),
        button("Pairs in use", () => ofDancer(words("pairs", "Pairs in use"))),
        button("What was learned", () => ofDancer(words("learn", "What was learned")))),
      shown),
    el("section", {class: "part", "aria-labelledby": "list-title"}, el("h3", {id: "list-title", text: "Everything kept"}), overview,
      el("div", {class: "row"}, button("What needs doing", () => attempt(shown, async () => {
        const answer = await server.json("/archive", {do: "overview"});
        return answer.ok ? plainText(answer.words, "What needs doing") : trouble(answer);
      })))));

  return {reload};
}
