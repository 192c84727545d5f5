// The journal of a pocket card as one line of text, for a file, a link or a code. Read by
// crankwise/files/journal_text.py, which tells the form.

const KIND_LETTERS = {
  began: "b", done: "d", back: "k", skipped: "s", bad: "x", good: "g", paused: "p",
  resumed: "r", overshot: "o", ring: "i", returned: "f", note: "n", undone: "u",
};
const WITHOUT_ROW = ["began", "paused", "resumed", "undone"];

/** `entries` are all of this card's own, in order; their names count on from `device`-1. */
export function journalText(told, device, entries) {
  let before = entries.length ? Math.round(entries[0].at * 10) : 0;
  let last = -1;
  const body = entries.map((entry) => {
    const at = Math.round(entry.at * 10);
    const step = at - before;
    before = at;
    let row = "";
    if (!WITHOUT_ROW.includes(entry.kind)) {
      row = entry.row === last + 1 ? "" : entry.row.toString(36);
      last = entry.row;
    }
    return `${KIND_LETTERS[entry.kind]}${row}${step < 0 ? "_" : "-"}${Math.abs(step).toString(36)}${moreOf(entry)}`;
  });
  const first = entries.length ? Math.round(entries[0].at * 10) : 0;
  const form = entries.some(({ kind }) => kind === "returned") ? "cw2" : "cw1"; // an older workshop reads cw1
  const text = [form, told.run, told.schedule, told.journal_length, device, first, body.join(".")].join("~");
  return `${text}~${checkFigure(text)}`;
}

function moreOf(entry) {
  const more = {};
  if (entry.kind === "began") more.grow = entry.numbers_grow;
  for (const key of ["reading", "angle", "note", "of", "off_mm", "means"]) if (entry[key] !== undefined) more[key] = entry[key];
  if (!Object.keys(more).length) return "";
  const bytes = new TextEncoder().encode(JSON.stringify(more));
  const plain = btoa(String.fromCharCode(...bytes));
  return `X${plain.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "")}`;
}

/** CRC-32, in eight hexadecimal digits: a text that was changed by hand no longer agrees with it. */
export function checkFigure(text) {
  let rest = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) {
    rest ^= byte;
    for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? 0xedb88320 : 0);
  }
  return ((rest ^ 0xffffffff) >>> 0).toString(16).padStart(8, "0");
}
