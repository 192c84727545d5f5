// The pictures of a row: the scale round its index line, the holes, the arrow. The same as those of
// crankwise/draw/scale_window.py and crankwise/draw/move.py; the tests hold both sides to each other.

const HALF = 160, HEIGHT = 84, TOP = 14, LONG = 44, MIDDLE = 36, SHORT = 29, NUMERAL = 64;
const MOST_DRAWN = 240;
const CIRCLE = 80;

const number = (value) => String(Number(value.toFixed(2)) + 0);
const path = (d, name) => `<path d="${d}" class="${name}"/>`;
const picture = (label, box, body, name) =>
  `<svg viewBox="${box}" class="${name}" role="img" aria-label="${label}">${body}</svg>`;
const onCircle = (turns, radius) =>
  `${number(radius * Math.sin(2 * Math.PI * turns))} ${number(-radius * Math.cos(2 * Math.PI * turns))}`;

function arc(start, end, radius, name) {
  const far = Math.abs(end - start) > 0.5 ? 1 : 0;
  const size = number(radius);
  return path(`M${onCircle(start, radius)}A${size} ${size} 0 ${far} ${end > start ? 1 : 0} ${onCircle(end, radius)}`, name);
}

const dots = (turns, name) => path(turns.map((place) => `M${onCircle(place, CIRCLE)}h0`).join(""), name);

/** The number that a reading is told by: 33.5, or 56 1/3. */
export function numberOf(reading) {
  return reading.split(" ").reduce((sum, piece) => {
    const [top, bottom = 1] = piece.split("/");
    return sum + top / bottom;
  }, 0);
}

/** A bold arrow round a circle, seen from the operator's side. */
export function turningArrow(turn) {
  const way = turn === "clockwise" ? 1 : -1;
  const neck = way * 0.28;
  const head = [onCircle(neck, 18), onCircle(neck + way * 0.11, 47), onCircle(neck, 54)].join("L");
  return picture(turn, "-56 -56 112 112", arc(-way * 0.36, neck, 36, "sweep") + path(`M${head}Z`, "tip"), "arrow");
}

/** A circle of holes with the one that the pin leaves and the one that it comes up to; empty where they are too many. */
export function holeMove(places, start, end, turn) {
  if (places > MOST_DRAWN) return "";
  const way = turn === "clockwise" ? 1 : -1;
  const [leaves, comes] = [start % places, end % places];
  const sweep = ((comes - leaves + places) % places) / places;
  const body =
    `<circle r="${CIRCLE + 14}" class="body"/>` +
    dots(Array.from({ length: places }, (_, index) => index / places), "hole") +
    (sweep ? arc((way * leaves) / places, way * (leaves / places + sweep), CIRCLE - 18, "swept") : "") +
    dots([(way * leaves) / places], "hole leaves") +
    dots([(way * comes) / places], "hole comes");
  const label = `Circle of ${places} holes: from ${leaves} to ${comes}, counted ${turn} from the first one at the top`;
  return picture(label, "-100 -100 200 200", body, "face hole-move");
}

/** The dial round a reading, in marks, with the numerals on either side. */
export function dialWindow(dial, reading, growsClockwise) {
  const every = dial.numbered_every;
  const lower = every ? Math.floor(reading / every) * every : 0;
  const upper = lower + every < dial.marks ? lower + every : 0;
  const near = every ? `, between ${lower} and ${upper}` : "";
  const label = `The dial at ${number(reading)}${near}; the larger numbers lie to the ${growsClockwise ? "left" : "right"}`;
  return scale(label, dial.marks, reading, every, String, growsClockwise);
}

/** The ring round a reading, in the units of its numerals, seen from the front. */
export function ringWindow(ring, reading) {
  const { graduations, full_circle: full } = ring;
  const tens = (10 * graduations) / full;
  const near = Math.round(tens);
  // Halves go to the even count, as the workshop rounds them.
  const every = Math.max(1, near - tens === 0.5 && near % 2 ? near - 1 : near);
  const numeral = (line) => ((line * full) % graduations ? "" : String((line * full) / graduations));
  return scale(`The ring at ${number(reading)}`, graduations, (reading * graduations) / full, every, numeral, ring.numbered === "anticlockwise");
}

function scale(label, lines, at, every, numeral, largerLeft) {
  const reach = Math.max(every, 6) * 1.25;
  const spacing = HALF / reach;
  const middle = every && every % 2 === 0 ? every / 2 : 5;
  const strokes = { line: "", "line long": "" };
  let numerals = "";
  for (let line = Math.floor(at - reach); line < Math.floor(at + reach) + 2; line += 1) {
    const x = (line - at) * spacing * (largerLeft ? -1 : 1);
    if (Math.abs(x) > HALF + 20) continue;
    const shown = ((line % lines) + lines) % lines;
    const isNumbered = every > 0 && shown % every === 0;
    const foot = isNumbered ? LONG : shown % middle === 0 ? MIDDLE : SHORT;
    if (isNumbered || spacing > 1.5 || foot === MIDDLE) strokes[isNumbered ? "line long" : "line"] += `M${number(x)} ${TOP}V${foot}`;
    if (isNumbered && Math.abs(x) < HALF - 16) numerals += `<text x="${number(x)}" y="${NUMERAL}" class="numeral near"${numeral(shown) ? `>${numeral(shown)}</text>` : "/>"}`;
  }
  const drawn = Object.entries(strokes).map(([name, d]) => (d ? path(d, name) : "")).join("");
  const body =
    `<rect x="${-HALF}" y="${TOP}" width="${2 * HALF}" height="${HEIGHT - TOP}" class="body"/>` +
    drawn + numerals + path(`M-7 0H7L0 ${TOP + 1}Z`, "pointer") + path(`M0 ${TOP}V${LONG + 6}`, "index");
  return picture(label, `${-HALF} 0 ${2 * HALF} ${HEIGHT}`, body, "window");
}
