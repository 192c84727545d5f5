// A QR code of a text, for the screen of a phone that has no network: bytes, error correction L, up to
// version 30. Source: ISO/IEC 18004; the tests read the codes back with somebody else's reader.

// Error correction codewords in each block, and blocks, for versions 1 to 30 at level L (Table 9).
const CHECKS = [7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28, 28, 28, 30, 30, 26, 28, 30, 30, 30, 30];
const BLOCKS = [1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8, 8, 9, 9, 10, 12, 12, 12, 13, 14, 15];
const FORMAT_L_MASK_0 = 0b111011111000100; // level L, mask 0, with its own check bits (Annex C)

// Powers and logarithms in the field of 256 elements, by x^8 + x^4 + x^3 + x^2 + 1.
const POWER = new Uint8Array(512);
const LOG = new Uint8Array(256);
for (let exponent = 0, value = 1; exponent < 255; exponent += 1) {
  POWER[exponent] = POWER[exponent + 255] = value;
  LOG[value] = exponent;
  value = (value << 1) ^ (value & 128 ? 0x11d : 0);
}
const times = (one, other) => (one && other ? POWER[LOG[one] + LOG[other]] : 0);

function codewordsIn(version) {
  const size = 17 + 4 * version;
  let modules = size * size - 3 * 64 - 2 * 15 - 1 - 2 * (size - 16);
  if (version > 1) {
    const marks = Math.floor(version / 7) + 2;
    modules -= (marks * marks - 3) * 25 - 2 * (marks - 2) * 5;
  }
  if (version > 6) modules -= 36;
  return Math.floor(modules / 8);
}

const roomIn = (version) => codewordsIn(version) - CHECKS[version - 1] * BLOCKS[version - 1];

/** The rows of a code's modules, dark ones true; null when the text is too long for one. */
export function codeModules(text) {
  const bytes = new TextEncoder().encode(text);
  let version = 1;
  while (version <= CHECKS.length && roomIn(version) * 8 < 4 + (version < 10 ? 8 : 16) + 8 * bytes.length) version += 1;
  return version > CHECKS.length ? null : drawn(version, withChecks(version, packed(version, bytes)));
}

function packed(version, bytes) {
  const bits = [];
  const put = (value, length) => {
    for (let at = length - 1; at >= 0; at -= 1) bits.push((value >> at) & 1);
  };
  put(4, 4);
  put(bytes.length, version < 10 ? 8 : 16);
  bytes.forEach((byte) => put(byte, 8));
  const room = roomIn(version);
  put(0, Math.min(4, room * 8 - bits.length));
  while (bits.length % 8) bits.push(0);
  const data = [];
  for (let at = 0; at < bits.length; at += 8) data.push(parseInt(bits.slice(at, at + 8).join(""), 2));
  for (let pad = 0xec; data.length < room; pad ^= 0xec ^ 0x11) data.push(pad);
  return data;
}

function withChecks(version, data) {
  const count = BLOCKS[version - 1];
  const checks = CHECKS[version - 1];
  const short = Math.floor(data.length / count);
  const shortBlocks = count - (data.length % count);
  let generator = [1];
  for (let root = 0; root < checks; root += 1) {
    const next = [...generator, 0];
    generator.forEach((value, at) => (next[at + 1] ^= times(value, POWER[root])));
    generator = next;
  }
  const blocks = [];
  for (let block = 0, at = 0; block < count; block += 1) {
    const length = short + (block < shortBlocks ? 0 : 1);
    const part = data.slice(at, at + length);
    at += length;
    const rest = [...part, ...Array(checks).fill(0)];
    part.forEach((_, place) => {
      const lead = rest[place];
      if (lead) generator.forEach((value, shift) => (rest[place + shift] ^= times(value, lead)));
    });
    blocks.push([part, rest.slice(part.length)]);
  }
  const woven = [];
  for (let place = 0; place <= short; place += 1) for (const [part] of blocks) if (place < part.length) woven.push(part[place]);
  for (let place = 0; place < checks; place += 1) for (const [, check] of blocks) woven.push(check[place]);
  return woven;
}

function drawn(version, codewords) {
  const size = 17 + 4 * version;
  const dark = Array.from({ length: size }, () => Array(size).fill(null));
  const square = (x, y, reach, light) => {
    for (let dy = -reach; dy <= reach; dy += 1)
      for (let dx = -reach; dx <= reach; dx += 1)
        if (x + dx >= 0 && x + dx < size && y + dy >= 0 && y + dy < size)
          dark[y + dy][x + dx] = !light.includes(Math.max(Math.abs(dx), Math.abs(dy)));
  };
  for (let at = 0; at < size; at += 1) dark[6][at] = dark[at][6] = at % 2 === 0;
  for (const [x, y] of [[3, 3], [size - 4, 3], [3, size - 4]]) square(x, y, 4, [2, 4]);
  const marks = alignment(version, size);
  const last = marks.length - 1;
  marks.forEach((x, column) =>
    marks.forEach((y, row) => {
      const isFinder = (!column && (!row || row === last)) || (column === last && !row);
      if (!isFinder) square(x, y, 2, [1]);
    }),
  );
  formatBits(dark, size);
  if (version > 6) versionBits(dark, size, version);
  let at = 0;
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right = 5;
    const up = ((right + 1) & 2) === 0;
    for (let step = 0; step < size; step += 1) {
      const y = up ? size - 1 - step : step;
      for (const x of [right, right - 1]) {
        if (dark[y][x] !== null) continue;
        const bit = at < codewords.length * 8 ? (codewords[at >> 3] >> (7 - (at & 7))) & 1 : 0;
        dark[y][x] = (bit === 1) !== ((x + y) % 2 === 0); // mask 0
        at += 1;
      }
    }
  }
  return dark;
}

function alignment(version, size) {
  if (version === 1) return [];
  const count = Math.floor(version / 7) + 2;
  const step = Math.floor((version * 8 + count * 3 + 5) / (count * 4 - 4)) * 2;
  const marks = [6];
  for (let at = size - 7; marks.length < count; at -= step) marks.splice(1, 0, at);
  return marks;
}

function formatBits(dark, size) {
  const bit = (at) => ((FORMAT_L_MASK_0 >> at) & 1) === 1;
  for (let at = 0; at < 6; at += 1) dark[at][8] = bit(at);
  dark[7][8] = bit(6);
  dark[8][8] = bit(7);
  dark[8][7] = bit(8);
  for (let at = 9; at < 15; at += 1) dark[8][14 - at] = bit(at);
  for (let at = 0; at < 8; at += 1) dark[8][size - 1 - at] = bit(at);
  for (let at = 8; at < 15; at += 1) dark[size - 15 + at][8] = bit(at);
  dark[size - 8][8] = true;
}

function versionBits(dark, size, version) {
  let rest = version;
  for (let at = 0; at < 12; at += 1) rest = (rest << 1) ^ ((rest >> 11) * 0x1f25);
  const bits = (version << 12) | rest;
  for (let at = 0; at < 18; at += 1) {
    const value = ((bits >> at) & 1) === 1;
    const far = size - 11 + (at % 3);
    const near = Math.floor(at / 3);
    dark[near][far] = dark[far][near] = value;
  }
}

/** The code as SVG, dark on light; null when the text is too long. */
export function codePicture(text, label) {
  const modules = codeModules(text);
  if (!modules) return null;
  const size = modules.length + 8;
  const path = modules.flatMap((row, y) => row.map((isDark, x) => (isDark ? `M${x + 4} ${y + 4}h1v1h-1z` : ""))).join("");
  return `<svg viewBox="0 0 ${size} ${size}" role="img" aria-label="${label}"><path fill="#fff" d="M0 0h${size}v${size}H0z"/><path fill="#000" shape-rendering="crispEdges" d="${path}"/></svg>`;
}
