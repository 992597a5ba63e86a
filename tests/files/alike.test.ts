/** Formulas that are alike are worked on once: each must become what it becomes in a workbook where it is alone. */
import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { LONGEST, nativeFormula } from "../../functions/files/native-formula";
import { cellName } from "../../functions/formula/addresses";
import { readFormula } from "../../functions/formula/reader";
import { newModel, toXlsx } from "../localsheet/load-engine";

type Cells = Record<string, string>;

const PLAIN: Cells = {
  A1: "10",
  A2: "$12.50",
  A3: "14",
  A4: "16",
  B1: "1",
  B2: "2",
  B3: "£3",
  B4: "4",
  C1: "0.9",
  C2: "0.8",
  C3: "0.95",
  C4: "0.85",
};

function bookOf(formulas: Cells): Promise<Uint8Array> {
  const sheets = [
    { id: "s", name: "Costs", colNumber: 120, cells: { ...PLAIN, ...formulas } },
    { id: "t", name: "Other costs", cells: { A2: "5", B2: "$6" } },
  ];
  return toXlsx(newModel({ sheets }));
}

/** What each formula became, as it is listed, by its cell. */
async function became(formulas: Cells) {
  const { replaced } = handOver(await bookOf(formulas));
  return new Map(replaced.map((line) => [line.cell.replace(/:.*/, ""), line]));
}

async function holdsAlone(formulas: readonly string[]) {
  // Beside each other, so that each has room for an answer of several cells.
  const cells = Object.fromEntries(formulas.map((formula, i) => [cellName(0, 4 + 6 * i), formula]));
  const together = await became(cells);
  for (const [cell, formula] of Object.entries(cells)) {
    const alone = await became({ [cell]: formula });
    expect(together.get(cell), formula).toEqual(alone.get(cell));
  }
}

test("filled down, past prices that are texts, and over other sheets", async () => {
  await holdsAlone([
    '=MIST.FLOZCOST(A1,B1,"lb",C1)',
    '=MIST.FLOZCOST(A2,B2,"lb",C2)',
    '=MIST.FLOZCOST(A3,B3,"lb",C3)',
    '=MIST.FLOZCOST(A4,B4,"lb",C4)',
    "=MIST.FLOZCOST(A4,B4,\"lb\",'Other costs'!A2)",
    "=MIST.FLOZCOST('Other costs'!B2,B4,\"lb\",C4)",
    "=MIST.FLOZCOST('Other costs'!A2,B4,\"lb\",C4)",
    '=mist.flozcost(a1,b1,"lb",c1)',
    '=MIST.FLOZCOST($A$1,B$1,"lb",C1)',
    '=MIST.FLOZCOST($A$4,B$4,"lb",C4)',
    '=MIST.FLOZCOST(A1,B1,"kg",C1)',
  ]);
});

test("ranges that grow as they are filled, and one cell read twice", async () => {
  await holdsAlone([
    "=MIST.BLENDDENSITY($B$1:B1,$C$1:C1)",
    "=MIST.BLENDDENSITY($B$1:B2,$C$1:C2)",
    "=MIST.BLENDDENSITY($B$1:B4,$C$1:C4)",
    "=MIST.BLENDDENSITY($B$1:B4,$C$1:C2)",
    "=MIST.OILFOR(C1,C1)",
    "=MIST.OILFOR(C1,C2)",
    "=MIST.OILFOR(C3,C4)",
    "=SUM(MIST.OILFOR(C1,C2),MIST.OILFOR(C1,C2))*A1",
    "=SUM(MIST.OILFOR(C3,C4),MIST.OILFOR(C4,C3))*A3",
    "=MIST.OILFOR(C1:C2,C1)",
    "=MIST.OILFOR(C1:C3,C1)",
    '=IF(A1>10,"A1 > 10",MIST.OILFOR(C1,5%))',
    '=IF(A4>10,"A1 > 10",MIST.OILFOR(C4,5%))',
    "=MIST.STANDING(B1:C2,B1:C1)",
    "=MIST.STANDING(B3:C4,B3:C3)",
  ]);
});

test("any of them, in any order", { timeout: 60_000 }, async () => {
  const cell = fc.tuple(fc.constantFrom("A", "B", "$B", "C"), fc.integer({ min: 1, max: 4 }));
  const one = cell.map(([column, row]) => `${column}${row}`);
  const place = fc.oneof(
    one,
    one.map((name) => `'Other costs'!${name}`),
    one.map((name) => `$B$1:${name}`),
    fc.constantFrom("C:C", "0.9", "5%"),
  );
  const formula = fc.oneof(
    fc.tuple(place, place).map(([a, b]) => `=MIST.OILFOR(${a},${b})`),
    fc.tuple(place, place).map(([a, b]) => `=MIST.BLENDDENSITY(${a},${b})`),
    fc.tuple(place, place, place).map(([a, b, c]) => `=MIST.FLOZCOST(${a},${b},"lb",${c})`),
    fc.tuple(place, place).map(([a, b]) => `=SUM(MIST.LANDED(${a},1,${b}),${b})`),
  );
  const sheets = fc.array(formula, { minLength: 6, maxLength: 10 });
  await fc.assert(fc.asyncProperty(sheets, holdsAlone), { seed: 15, numRuns: 12 });
});

test("of two that are alike, one may be too long for Excel", async () => {
  const call = (row: number) => `_xldudf_MIST_OILFOR(A${row},C${row})`;
  const sum = (row: number, calls: number) =>
    Array.from({ length: calls }, () => call(row)).join("+");
  const file = await bookOf({ E1: "=MIST.OILFOR(A1,C1)", K1: "=MIST.OILFOR(A4,C4)" });
  const nativeOf = (row: number) => nativeFormula(readFormula(call(row)), () => null).text;
  // As many as Excel takes of cells with short names.
  const calls = Math.floor((LONGEST + 1) / (nativeOf(1).length + 1));
  for (const [first, second] of [
    [1, 100_000],
    [100_000, 1],
  ]) {
    const parts = unzipSync(file);
    const path = "xl/worksheets/sheet0.xml";
    const sheet = strFromU8(parts[path])
      .replace(call(1), sum(first, calls))
      .replace(call(4), sum(second, calls));
    const { replaced } = handOver(zipSync({ ...parts, [path]: strToU8(sheet) }));
    const became = replaced.map((line) => line.became);
    expect(became).toEqual([first, second].map((row) => (row === 1 ? "formula" : "value")));
  }
});
