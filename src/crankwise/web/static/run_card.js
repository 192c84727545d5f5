// A pocket card: the run page in one file, worked from the phone's own storage with no network at all.

import { after, freshState, replayed } from "./run_engine.js";
import { handsFree, SecondTap } from "./run_hands.js";
import { RunInHand } from "./run_journal.js";
import { newName, openKeep } from "./run_keep.js";
import { alsoOf, enterTaps, entryOfButton, panelOf, sentenceOf, typedBeside } from "./run_panel.js";
import { typedReading } from "./run_ring.js";
import { codePicture } from "./run_code.js";
import { askWhere } from "./run_where_asked.js";
import { journalText } from "./run_text.js";

const LONGEST_LINK = 30_000; // servers and phones cut longer ones; the file takes any

/** Rows packed as crankwise/sheets/pocket_rows.py packs them: a pattern, and the figures to put in it, some of them again. */
export function unpackedRows(patterns, packed) {
  return packed.map(([pattern, figures]) => {
    const given = figures.split(" ");
    let next = 0;
    const figure = (_, again) => (again === undefined ? given[next++] : given[again]);
    return JSON.parse(patterns[pattern].replace(/#|\u0002(\d+)\u0002/g, figure).replaceAll("\u0001", "#"));
  });
}

/**
 * The name of this card's taps on this phone, the same in every window: two that tap at once meet in one
 * place of what is kept, and the later one is told.
 */
function deviceOf(name, run) {
  const kept = `crankwise-device ${name}`;
  const own = run.pending.length ? run.pending[0].tap.replace(/-\d+$/, "") : newName(6);
  try {
    if (run.pending.length || !localStorage.getItem(kept)) localStorage.setItem(kept, own);
    return localStorage.getItem(kept);
  } catch {
    return own;
  }
}

/** What is kept of this card's taps, without those that do not count: another window may have tapped beside it. */
async function taken(told, keep) {
  let state = replayed(freshState(told.row_count, told.gates), told.journal);
  return (await keep.records()).filter(({ entry }) => {
    const before = state;
    state = after(state, entry);
    return state !== before;
  });
}

async function start() {
  const [panel, said, line, home, where] = ["panel", "said", "line", "home", "where"].map((id) => document.getElementById(id));
  const card = JSON.parse(document.getElementById("card").textContent);
  const told = { ...card.told, rows: unpackedRows(card.patterns, card.rows) };
  const name = `card ${told.run} ${told.schedule} ${told.journal_length}`;
  const keep = await openKeep(name);
  let run = new RunInHand(told, keep, await taken(told, keep));
  let device = deviceOf(name, run);
  const askedWhere = askWhere(where, card.words.where, () => run, keepFound);
  const hands = handsFree(panel.parentElement);
  const second = new SecondTap(panel);
  let asked = {};
  let busy = false;

  function show(isNew) {
    panel.innerHTML = panelOf(run, card.words, asked);
    const sentence = sentenceOf(run) || (panel.querySelector("h2")?.textContent ?? "");
    if (said.textContent !== sentence) said.textContent = sentence;
    if (isNew) {
      second.came();
      if (panel.querySelector("#position")) hands.came(sentence, run.row(run.state.at_row).is_long === true);
    }
    const count = run.pending.length;
    document.getElementById("kept").textContent = keep.lasts
      ? `${count} ${count === 1 ? "tap" : "taps"} kept on this phone.`
      : "This browser keeps nothing: leave this page open, and bring the journal home before you close it.";
    askedWhere.paint();
  }

  function tell(sentence) {
    line.hidden = !sentence;
    line.textContent = sentence;
  }

  enterTaps(panel);
  panel.addEventListener("click", async (event) => {
    const button = event.target.closest("button[data-kind]");
    if (!button || busy) return;
    const { kind, answer, sure } = button.dataset;
    if (kind === "where") {
      askedWhere.open(button.dataset.reading);
      return;
    }
    if (kind === "again") {
      asked = { ...asked, doubted: undefined };
      show(false);
      return;
    }
    if (kind === "ring-zero") {
      const { reading, fault } = typedReading(typedBeside(button), told.scales.ring);
      tell(fault ?? "");
      if (fault) return;
      asked = { ...asked, ringZero: reading };
      show(false);
      return;
    }
    const verdict = button.id === "done" ? second.verdict() : second.isSettling() ? "ignore" : "go";
    if (verdict === "ask") button.innerHTML = 'So soon? <span class="small">Tap again if the cut is made</span>';
    if (verdict !== "go") return;
    const grows = { yes: true, no: false }[answer];
    if (kind === "began" && sure === undefined && grows !== undefined && card.words.expected !== null && grows !== card.words.expected) {
      asked = { ...asked, doubted: grows };
      show(false);
      return;
    }
    const { entry, fault } = entryOfButton(button, `${device}-${run.pending.length + 1}`, run);
    if (fault) tell(fault);
    else await keepTaps([entry, alsoOf(button.dataset, entry, `${device}-${run.pending.length + 2}`)].filter(Boolean));
  });

  /** Keep taps, all of them or none; whether they count. */
  async function keepTaps(entries) {
    busy = true;
    try {
      const counted = await run.tapAll(entries);
      asked = {};
      tell("");
      show(true);
      if (counted) hands.kept();
      if (home.open) bringHome();
      return counted;
    } catch {
      const records = await taken(told, keep);
      if (records.length > run.pending.length) {
        run = new RunInHand(told, keep, records);
        device = deviceOf(name, run);
        show(true);
        tell("This card was worked in another window meanwhile. Nothing was skipped; this is where it stands.");
        return false;
      }
      tell("This tap is not kept: the phone has no room left for it. It does not count. Free some room, and tap again.");
      return false;
    } finally {
      busy = false;
    }
  }

  /** Keep what the answer to “Where am I?” makes of the run. */
  async function keepFound(entriesOf) {
    const nameOf = (more) => `${device}-${run.pending.length + 1 + more}`;
    const entries = busy ? null : entriesOf(run, nameOf, Math.round(Date.now() / 100) / 10);
    return entries ? keepTaps(entries) : false;
  }

  function bringHome() {
    const text = journalText(told, device, run.pending);
    const link = card.site && text.length < LONGEST_LINK ? `${card.site}/runs/${told.run}/bring?journal=${text}` : "";
    document.getElementById("journal-text").value = text;
    const file = document.getElementById("journal-file");
    file.href = `data:text/plain;charset=utf-8,${encodeURIComponent(text)}`;
    file.download = `run-${told.run}-${device}.txt`;
    const way = document.getElementById("journal-link");
    way.hidden = !link;
    if (link) way.href = link;
    const place = document.getElementById("journal-code");
    const drawn = run.pending.length ? codePicture(link || text, "The journal, for the camera of another phone") : "";
    place.innerHTML = drawn ?? "<p>The journal is too long for a code: take the file.</p>";
  }
  home.addEventListener("toggle", () => home.open && bringHome());
  show(false);
}

if (document.getElementById("card")) start();
