/** A PNG of a page with a palette of 256 colours: a third of the bytes, and no difference that one sees. */
import { crc32, deflateSync, inflateSync } from "node:zlib";

const SIGNATURE = 8;
const TRUE_COLOUR = 2;
const MOST_COLOURS = 256;
/** So many of them are those that are most frequent; the rest is for what is rare and like none of these: a red word. */
const FREQUENT = 192;

/** The picture in few colours. It takes what the browser writes: 8 bits a channel, no alpha, no interlacing. */
export function inFewColours(png: Buffer): Buffer {
  const chunks = chunksOf(png);
  const head = chunks.find(({ type }) => type === "IHDR")?.data;
  if (!head || head[8] !== 8 || head[9] !== TRUE_COLOUR || head[12] !== 0)
    throw new Error("not a PNG of 8 bits a channel, without alpha and interlacing");
  const width = head.readUInt32BE(0);
  const packed = chunks.filter(({ type }) => type === "IDAT").map(({ data }) => data);
  const pixels = unfiltered(inflateSync(Buffer.concat(packed)), width * 3);
  const { palette, indices } = inPalette(pixels);
  const rows = pixels.length / (width * 3);
  const lines = Buffer.alloc(rows * (width + 1));
  for (let row = 0; row < rows; row++)
    indices.copy(lines, row * (width + 1) + 1, row * width, (row + 1) * width);
  const header = Buffer.from(head);
  header[9] = 3;
  return Buffer.concat([
    png.subarray(0, SIGNATURE),
    chunk("IHDR", header),
    chunk("PLTE", palette),
    chunk("IDAT", deflateSync(lines, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunksOf(png: Buffer) {
  const chunks: { type: string; data: Buffer }[] = [];
  for (let at = SIGNATURE; at < png.length;) {
    const length = png.readUInt32BE(at);
    const type = png.toString("latin1", at + 4, at + 8);
    chunks.push({ type, data: png.subarray(at + 8, at + 8 + length) });
    at += length + 12;
  }
  return chunks;
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

/** Bytes without the filters of PNG (ISO/IEC 15948, 9.2): each line says which of five it has. */
function unfiltered(bytes: Buffer, lineLength: number): Buffer {
  const rows = bytes.length / (lineLength + 1);
  const out = Buffer.alloc(rows * lineLength);
  for (let row = 0; row < rows; row++) {
    const filter = bytes[row * (lineLength + 1)] ?? 0;
    for (let i = 0; i < lineLength; i++) {
      const at = row * lineLength + i;
      const left = i < 3 ? 0 : (out[at - 3] ?? 0);
      const up = row === 0 ? 0 : (out[at - lineLength] ?? 0);
      const corner = i < 3 || row === 0 ? 0 : (out[at - lineLength - 3] ?? 0);
      const guess = [0, left, up, (left + up) >> 1, nearest(left, up, corner)][filter] ?? 0;
      out[at] = (bytes[row * (lineLength + 1) + 1 + i] ?? 0) + guess;
    }
  }
  return out;
}

function nearest(left: number, up: number, corner: number): number {
  const [a, b, c] = [left, up, corner].map((each) => Math.abs(left + up - corner - each)) as [
    number,
    number,
    number,
  ];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

/** The colours that are kept, and for each pixel the one that is nearest to it. */
function inPalette(pixels: Buffer): { palette: Buffer; indices: Buffer } {
  const counts = new Map<number, number>();
  for (let i = 0; i < pixels.length; i += 3) {
    const colour = pixels.readUIntBE(i, 3);
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const byCount = [...counts].sort(([, a], [, b]) => b - a).map(([colour]) => colour);
  const kept = [...byCount.slice(0, FREQUENT), ...unlike(byCount, FREQUENT)];
  const place = new Map(byCount.map((colour) => [colour, nearestOf(kept, colour)]));
  const indices = Buffer.alloc(pixels.length / 3);
  for (let i = 0; i < indices.length; i++) indices[i] = place.get(pixels.readUIntBE(i * 3, 3)) ?? 0;
  return { palette: Buffer.from(kept.flatMap(channels)), indices };
}

/** Behind the first colours, those that lie farthest from any that is kept, one after another. */
function unlike(colours: readonly number[], first: number): number[] {
  const kept = colours.slice(0, first);
  const far = new Map(
    colours.slice(first).map((each) => [each, distance(each, kept[nearestOf(kept, each)] ?? 0)]),
  );
  const added: number[] = [];
  while (far.size > 0 && first + added.length < MOST_COLOURS) {
    const [next] = [...far].reduce((most, each) => (each[1] > most[1] ? each : most));
    added.push(next);
    far.delete(next);
    for (const [each, before] of far) far.set(each, Math.min(before, distance(each, next)));
  }
  return added;
}

const channels = (colour: number) => [colour >> 16, (colour >> 8) & 255, colour & 255];

function distance(a: number, b: number): number {
  const from = channels(b);
  return channels(a).reduce((sum, value, i) => sum + (value - (from[i] ?? 0)) ** 2, 0);
}

function nearestOf(kept: readonly number[], colour: number): number {
  let best = 0;
  let least = Infinity;
  for (const [i, other] of kept.entries()) {
    const far = distance(other, colour);
    if (far < least) [best, least] = [i, far];
  }
  return best;
}
