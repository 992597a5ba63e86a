/** Sentences that tell a formula. By hand, from the formula and its cells. */
import { describe, expect, test } from "vitest";
import { explain } from "../../taskpane/working/explain";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";

const cells = {
  A1: "Load",
  B1: "0.05",
  A2: "Limit",
  B2: "0.04",
  A3: "Recipe",
  B3: "Rain",
  A5: "Base",
  A6: "Birch",
  A7: "Oak",
};

async function told(formula: string): Promise<string[]> {
  const sheet = { id: "s", name: "Mine", cells: { ...cells, D9: formula } };
  const workbook = new LocalWorkbook(newModel({ sheets: [sheet] }));
  const explained = await explain(workbook, { sheet: "Mine", row: 8, column: 3 });
  return (await explained.inWords("six")).sentences;
}

describe("what is put together", () => {
  test.each([
    [
      '=B3&"|"&COUNTIF(A6:A7,B3)',
      /^It is put together from "Recipe" \(B3\) and the count of lines/,
    ],
    ['="category "&B3', /^It is "Recipe" \(B3\), with words beside it\.$/],
    ['="a"&"b"', /^It is put together from the cells below\.$/],
  ])("%s", async (formula, sentence) => {
    expect((await told(formula))[0]).toMatch(sentence);
  });
});

describe("an allowance for rounding is no part of the reason, a real one is", () => {
  test.each([
    ['=IF(B1>B2+1E-9,"over","")', '"Load" (B1: 0.05) is more than "Limit" (B2: 0.04)'],
    ['=IF(B1>B2*(1+1E-9),"over","")', '"Load" (B1: 0.05) is more than "Limit" (B2: 0.04)'],
    [
      '=IF(B1>B2+0.001,"over","")',
      '"Load" (B1: 0.05) is more than "Limit" (B2) plus 0.001 (0.041)',
    ],
    ['=IF(B1>B2*1.1,"over","")', '"Load" (B1: 0.05) is more than "Limit" (B2) times 1.1 (0.044)'],
  ])("%s", async (formula, reason) => {
    expect(await told(formula)).toEqual([`It says so, because ${reason}.`]);
  });
});

test("where a list has no more lines", async () => {
  expect(await told('=IF(B1*100>ROWS(A6:A7),"",1)')).toEqual([
    'It stays blank, because "Load" (B1) times 100 (5) is more than the number of lines in "Base" (A6 to A7: 2).',
  ]);
});

test("a count by a list of words is not told as if by its first", async () => {
  const [sentence] = await told('=IF(SUMPRODUCT(COUNTIF(A6:A7,A6:A7))=2,"all","")');
  expect(sentence).not.toContain('"Birch"');
});
