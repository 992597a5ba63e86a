import { crc32, deflateSync, inflateSync } from "node:zlib";
import { expect, test } from "vitest";
import { inFewColours } from "../browser/small-png";

function chunk(type: string, data: number[] | Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), Buffer.from(data)]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

test("a picture keeps its colours, whichever filter its lines have", () => {
  // By hand, from ISO/IEC 15948: two pixels a line; none, left, up, average and the nearest of the three.
  const lines = [
    [0, 10, 20, 30, 10, 20, 30],
    [1, 10, 20, 30, 0, 0, 0],
    [2, 0, 0, 0, 1, 1, 1],
    [3, 5, 10, 15, 0, 0, 0],
    [4, 0, 0, 0, 0, 0, 0],
  ];
  const png = Buffer.concat([
    Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]),
    chunk("IHDR", [0, 0, 0, 2, 0, 0, 0, 5, 8, 2, 0, 0, 0]),
    chunk("IDAT", deflateSync(Buffer.from(lines.flat()))),
    chunk("IEND", []),
  ]);
  const small = inFewColours(png);
  const [palette, packed] = ["PLTE", "IDAT"].map((type) => {
    const at = small.indexOf(type);
    return small.subarray(at + 4, at + 4 + small.readUInt32BE(at - 4));
  });
  const indices = inflateSync(packed ?? Buffer.alloc(0));
  const colours = Array.from({ length: 5 }, (_, row) =>
    [1, 2].map((column) => {
      const index = indices[row * 3 + column] ?? 0;
      return [...(palette ?? [])].slice(index * 3, index * 3 + 3).join();
    }),
  );
  // The fourth line, second pixel: half of the sum of left (10) and up (11), rounded down.
  expect(colours).toEqual([
    ["10,20,30", "10,20,30"],
    ["10,20,30", "10,20,30"],
    ["10,20,30", "11,21,31"],
    ["10,20,30", "10,20,30"],
    ["10,20,30", "10,20,30"],
  ]);
});
