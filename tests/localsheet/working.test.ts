import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { NAMESPACE } from "../../functions/catalog/entry";
import { isFault } from "../../functions/bind/cell";
import { readCellName } from "../../functions/formula/addresses";
import { type Explained, explain } from "../../taskpane/working/explain";
import { LocalWorkbook, newModel, write } from "./load-engine";

const SHEET = "My sheet";

function sheetOf(contents: Record<string, string>) {
  const model = newModel({ sheets: [{ id: "s", name: SHEET, cells: contents }] });
  const workbook = new LocalWorkbook(model);
  return {
    model,
    workbook,
    explain: (cell: string) => explain(workbook, { sheet: SHEET, ...readCellName(cell) }),
  };
}

/** The line of a call that the selected cell shows. */
const shownLine = (explained: Explained, call = 0) =>
  explained.calls[call].at(explained.calls[call].line);
const lastValue = (explained: Explained, call = 0) =>
  shownLine(explained, call).steps.at(-1)?.value;

describe("every @example, selected", () => {
  test.each(catalog.flatMap(({ examples }) => examples))("$formula", async ({ formula }) => {
    const { workbook } = sheetOf({ B2: `=${NAMESPACE}.${formula}` });
    const spot = { sheet: SHEET, ...readCellName("B2") };
    const explained = await explain(workbook, spot);
    const { value } = await workbook.content(spot);
    const line = shownLine(explained);
    expect(explained.formula.replaceAll(" ", "")).toBe(
      `=${NAMESPACE}.${formula}`.replaceAll(" ", ""),
    );
    for (const input of line.inputs) expect(`${input.value} ${input.from}`).toMatch(/\S \S/);
    const last = [line.steps.at(-1)?.value].flat(3)[0];
    if (typeof value === "number") expect(last).toBeCloseTo(value, 9);
    else expect(last).toBe(value);
    expect(explained.calls[0].caution).toMatch(/\.$/);
  });
});

describe("what goes in, and where it comes from", () => {
  test("a temperature by the scale that is named, and no other", async () => {
    const { explain } = sheetOf({
      A1: '=MIST.FLAMECLASS(62,173,"F")',
      A2: "=MIST.FLAMECLASS(200)",
      A3: '=MIST.SPIRITDENSITY(40%,"volume",15)',
    });
    const values = async (cell: string) =>
      shownLine(await explain(cell)).inputs.map(({ value }) => value);
    expect(await values("A1")).toEqual(["62 °F", "173 °F", "F"]);
    expect(await values("A2")).toEqual(["200 degrees", "blank", "blank"]);
    expect(await values("A3")).toEqual(["40 %", "volume", "15 °C"]);
  });

  test("labels beside a cell, headings above one, units and defaults", async () => {
    const { explain } = sheetOf({
      A1: "Batch (g)",
      B1: "60",
      A2: "Load",
      B2: "5%",
      B3: "=MIST.OILFOR(B1,B2)",
      A5: "Base",
      B5: "Price",
      C5: "Size",
      D5: "Unit",
      E5: "Density",
      A6: "Clear",
      B6: "46",
      C6: "1",
      D6: "gal",
      A7: "Soft",
      B7: "39",
      C7: "8",
      D7: "lb",
      E7: "0.93",
      F7: "=MIST.FLOZCOST(B7,C7,D7,E7,4.5)",
    });
    const oil = shownLine(await explain("B3")).inputs;
    expect(oil.map(({ name, value, from }) => [name, value, from])).toEqual([
      ["batch", "60 g", 'from B1, "Batch (g)"'],
      ["load", "5 %", 'from B2, "Load"'],
      ["basis", "finished", "left out: the default"],
    ]);
    const alone = sheetOf({ A1: "Batch (g)", A2: "60", C3: "=MIST.OILFOR(A2,5%)" });
    expect(shownLine(await alone.explain("C3")).inputs[0]?.from).toBe('from A2, "Batch (g)"');
    const cost = shownLine(await explain("F7")).inputs;
    expect(cost.map(({ name, value, from }) => [name, value, from])).toEqual([
      ["price", "39.00", 'from B7, "Soft"'],
      ["size", "8 lb", 'from C7, "Size"'],
      ["unit", "lb", 'from D7, "Unit"'],
      ["density", "0.93 g/mL", 'from E7, "Density"'],
      ["freight", "4.50", "typed in the formula"],
      ["loss", "0 %", "left out: the default"],
    ]);
  });

  test("units from headings, a currency, a percent, and all digits where they are asked for", async () => {
    const { explain } = sheetOf({
      A1: "Item",
      B1: "Price ($)",
      C1: "Packs",
      A2: "Alder",
      B2: "12.95",
      C2: "3",
      A3: "Cedar",
      B3: "46",
      C3: "1",
      D1: "=MIST.LANDED(B2:B3,C2:C3,18.4)",
      F1: "=MIST.BLENDSHARE(70%,0%,25%)",
    });
    const landed = await explain("D1");
    const line = shownLine(landed);
    expect(line.inputs[0]).toMatchObject({
      value: "$12.95, $46.00",
      from: 'from B2:B3, "Price ($)"',
    });
    // By hand: 3 x 12.95 and 46 are 84.85 of goods; of 18.40 freight 38.85 / 84.85 is 8.4247.
    expect(line.said.all).toBe("about $47.27, about $55.98");
    expect(line.steps[0].table).toEqual({
      heads: ["", "prices", "counts", "goods"],
      lines: [
        ["1", "$12.95", "3", "$38.85"],
        ["2", "$46.00", "1", "$46.00"],
      ],
      foot: ["all", "", "", "$84.85"],
      more: 0,
    });
    const [call] = landed.calls;
    // By decimal arithmetic, to 15 digits: 38.85 + 18.4 * 38.85 / 84.85.
    expect(call.at(call.line, "all").said.cell?.says).toBe("$47.2747495580436");
    // By hand: 25 of 70.
    expect(shownLine(await explain("F1")).steps[0].sentence).toBe(
      "The first lot's part, the step from 0 % to 25 % divided by that to 70 %, is about 35.7143 %.",
    );
  });

  test("another sheet, a name, an expression", async () => {
    const sheet = sheetOf({ A1: "60", A2: "=MIST.OILFOR(rate*2,IF(A1>0,'Other one'!B1,0))" });
    const { model } = sheet;
    model.dispatch("CREATE_SHEET", {
      sheetId: "o",
      name: "Other one",
      position: 1,
      cols: 5,
      rows: 5,
    } as never);
    write(model, "B1", "5%", "Other one");
    const zone = { top: 0, bottom: 0, left: 0, right: 0 };
    model.dispatch("CREATE_NAMED_RANGE", {
      name: "rate",
      ranges: [{ _sheetId: "s", _zone: zone }],
    } as never);
    const explained = await sheet.explain("A2");
    // By hand: 5 % of twice 60.
    expect(lastValue(explained)).toBe(6);
    expect(
      shownLine(explained)
        .inputs.map(({ from }) => from)
        .slice(0, 2),
    ).toEqual(["worked out from rate", "from B1 of Other one"]);
  });
});

describe("calls in calls, in other formulas, and spilled", () => {
  test("from the inside out, then what the rest of the formula makes of them", async () => {
    const { explain } = sheetOf({
      A1: "3",
      A2: "5%",
      A3: "=2*MIST.BASEFOR(MIST.BATCHFROM(A1,A2),A2)+1",
    });
    const explained = await explain("A3");
    // By hand: 3 g are 5 % of 60 g, of which 57 g are base; twice that and one.
    expect(explained.calls.map(({ entry }) => entry.id)).toEqual(["BATCHFROM", "BASEFOR"]);
    expect([lastValue(explained, 0), lastValue(explained, 1)]).toEqual([60, 57]);
    expect(shownLine(explained, 1).inputs[0]).toMatchObject({
      value: "60",
      from: "the answer of MIST.BATCHFROM above",
    });
    expect(await explained.inWords("six")).toMatchObject({
      sentences: ["It is 2 times the answer of MIST.BASEFOR plus 1."],
      how: ["2 × 57 + 1"],
    });
    expect(explained.value).toBe(115);
  });

  test("a weight on the scale's step, and one that is never below nothing", async () => {
    const { explain } = sheetOf({
      A1: "Batch (g)",
      B1: "103",
      A2: "Step (g)",
      B2: "0.5",
      C1: "=ROUND(ROUND(0.05*B1/B2,0)*B2,6)",
      C2: "=MAX(0,ROUND(ROUND((0.05*B1-6)/B2,0)*B2,6))",
      C3: "=ROUND(ROUND(B1/B2,0)*B1,6)",
    });
    const [weight, add, other] = [await explain("C1"), await explain("C2"), await explain("C3")];
    // By hand: 5.15 lies between 5 and 5.5, nearer to 5; 5.15 less 6 is below nothing.
    expect([weight.value, add.value]).toEqual([5, 0]);
    expect((await weight.inWords("six")).sentences).toEqual([
      'It is 0.05 times "Batch" (B1), rounded to whole steps of "Step" (B2).',
    ]);
    expect((await add.inWords("six")).sentences).toEqual([
      'It is 0.05 times "Batch" (B1) less 6, rounded to whole steps of "Step" (B2), or 0 where that is less.',
    ]);
    // Another cell than the one that it was divided by is no step.
    expect((await other.inWords("six")).sentences.join()).not.toContain("whole steps");
  });

  test("each cell of a spilled answer has its own line", async () => {
    const { explain } = sheetOf({
      A1: "60",
      A2: "120",
      A3: "",
      B1: "5%",
      C1: "10%",
      D1: "=MIST.OILFOR(A1:A3,B1:C1)",
    });
    const explained = await explain("E2");
    expect(explained.calls[0].lines).toEqual({ rows: 3, columns: 2 });
    expect(lastValue(explained)).toBe(12);
    expect(
      shownLine(explained)
        .inputs.map(({ value, from }) => `${value} ${from}`)
        .slice(0, 2),
    ).toEqual(["120 from A2, of A1:A3", "10 % from C1, of B1:C1"]);
    // Any other line can be asked for.
    expect(explained.calls[0].at({ row: 0, column: 0 }).steps.at(-1)?.value).toBe(3);
  });

  test("which part of an answer the cell shows", async () => {
    const { explain } = sheetOf({
      A1: "3",
      B1: "57",
      A2: "6",
      B2: "54",
      C1: "=MIST.LOADSPAN(A1:A2,B1:B2,0.1)",
      A5: "3",
      B5: "6",
      A6: "57",
      B6: "54",
      A7: "=MIST.LOADSPAN(A5:B5,A6:B6,0.1)",
      F1: "=MIST.SIZERUN({95%;5%},{60,120})",
    });
    const second = shownLine(await explain("D2"));
    expect(second.answer[0][second.part?.column ?? 9]).toBeCloseTo(6.05 / 60, 12);
    expect(second.part).toEqual({ row: 0, column: 1 });
    // Of lines in a row, the low ends stand above the high ends.
    for (const [cell, column] of Object.entries({ A7: 0, A8: 1, B7: 0, B8: 1 }))
      expect(shownLine(await explain(cell)).part, cell).toEqual({ row: 0, column });
    const grid = shownLine(await explain("G2"));
    expect([grid.part, grid.answer[1][1]]).toEqual([{ row: 1, column: 1 }, 6]);
  });
});

test.each([
  // By hand: 1 +- 0.05 of oil in 11 in all, then 3 in 13; 5 % of each batch.
  ["a row of lines", "=MIST.LOADSPAN(A1:B1,10,0.1)", { row: 0, column: 1 }, [2.95 / 13, 3.05 / 13]],
  ["a column", "=MIST.LOADSPAN(A1:A2,10,0.1)", { row: 1, column: 0 }, [1.95 / 12, 2.05 / 12]],
  ["a table", "=MIST.OILFOR(A1:B2,5%)", { row: 1, column: 1 }, [0.2]],
  ["one", "=MIST.LOADSPAN(A1,10,0.1)", { row: 0, column: 0 }, [0.95 / 11, 1.05 / 11]],
])("the answer of one line of %s", async (_, formula, line, answer) => {
  const { explain } = sheetOf({ A1: "1", B1: "3", A2: "2", B2: "4", E5: formula });
  const [call] = (await explain("E5")).calls;
  const shown = call?.at(line).answer;
  expect(shown).toHaveLength(1);
  shown?.[0]?.forEach((cell, i) => expect(cell).toBeCloseTo(answer[i] ?? NaN, 9));
  expect(shown?.[0]).toHaveLength(answer.length);
});

test("the headline shows a value as its cell does, in six digits unless all are asked for", async () => {
  const { explain, model } = sheetOf({
    A1: "Item",
    B1: "Landed ($)",
    C1: "Part",
    D1: "Made",
    A2: "Alder",
    B2: "=MIST.OILFOR(1520,5%)",
    C2: "=MIST.LOADOF(1,2)",
    D2: "=MIST.OILFOR(46351,100%)",
  });
  const sheetId = model.getters.getActiveSheetId();
  const format = (column: number, format: string) =>
    model.dispatch("SET_FORMATTING", {
      sheetId,
      target: [{ top: 1, bottom: 1, left: column, right: column }],
      format,
    } as never);
  format(1, "0.00");
  format(2, "0.0%");
  format(3, "yyyy-mm-dd");
  const shows = async (cell: string, digits: "six" | "all" = "six") =>
    (await explain(cell)).shows(digits);
  // By hand: 5 % of 1520; 1 in 3; 46351 days after 1899-12-30 are 2026-11-25 by Python's calendar.
  expect(await shows("B2")).toBe("$76.00");
  expect(await shows("C2")).toBe("about 33.3333 %");
  expect(await shows("C2", "all")).toBe("33.3333333333333 %");
  expect(await shows("D2")).toBe("2026-11-25");
});

test("an answer that has no room is told, whichever line is looked at", async () => {
  const { explain } = sheetOf({
    A1: "1",
    B1: "3",
    A2: "2",
    B2: "4",
    E5: "=MIST.LOADSPAN(A1:B2,10,0.1)",
  });
  const [call] = (await explain("E5")).calls;
  expect(call?.at({ row: 1, column: 1 }).problem?.reason).toMatch(/give it one row or one column/);
});

describe("a cell without a number gets the reason and the mend", () => {
  const problem = async (contents: Record<string, string>, cell: string, call = 0) => {
    const explained = await sheetOf(contents).explain(cell);
    return explained.problem ?? shownLine(explained, call).problem;
  };

  test.each([
    [
      "a percent typed as a whole number",
      { A1: "60", B1: "5", C1: "=MIST.OILFOR(A1,B1)" },
      "C1",
      "Load must be from 0 % to 100 %, got 500 %: type 5 %.",
      "Type 5 % in B1.",
    ],
    [
      "the same in the formula",
      { C1: "=MIST.OILFOR(60,5)" },
      "C1",
      "Load must be from 0 % to 100 %, got 500 %: type 5 %.",
      "Type 5 % for load in the formula.",
    ],
    [
      "a pound without a density",
      { A1: "8", C1: '=MIST.TURN(A1,"lb","floz")' },
      "C1",
      "Density is needed: lb is a weight and floz a volume; weigh a known volume to find it.",
      /^Give density \(g\/mL; /,
    ],
    [
      "a price that is blank",
      { B1: "8", C1: '=MIST.FLOZCOST(A1,B1,"floz")' },
      "C1",
      "Price is blank.",
      /^Fill in price in A1: Price of the pack/,
    ],
    [
      "an error that comes in",
      { A1: "=1/0", C1: "=MIST.OILFOR(A1,5%)" },
      "C1",
      /^The argument batch, from A1, is the error #DIV\/0!/,
      "Mend A1 first; this one then follows.",
    ],
    [
      "an error within a range",
      { A1: "1", A2: "=1/0", C1: "=MIST.BLENDOF(A1:A2,{1;2})" },
      "C1",
      /is the error #DIV\/0! in A2/,
      "Mend A1:A2 first; this one then follows.",
    ],
    [
      "a spare line",
      { C1: "=MIST.OILFOR(A1,B1)" },
      "C1",
      "Nothing is filled in on this line, so it shows blank.",
      "Fill in batch in A1, load in B1.",
    ],
    [
      "a spare line below a load that is typed once",
      { A1: "60", A3: "20", B1: "5%", C1: "=MIST.OILFOR(A1:A3,B1)" },
      "C2",
      "Nothing is filled in on this line, so it shows blank.",
      "Fill in batch in A2, load in B1.",
    ],
    [
      "no room for the answer",
      { A1: "60", A2: "120", B2: "mine", B1: "=MIST.OILFOR(A1:A2,5%)" },
      "B1",
      /fills several cells/,
      /^Empty the cells/,
    ],
    [
      "a text for a number",
      { A1: "sixty", C1: "=MIST.OILFOR(A1,5%)" },
      "C1",
      'Batch must be a number, got "sixty".',
      "Change batch in A1: Finished batch, zero or more, in any unit of weight.",
    ],
    [
      "ranges of unlike length",
      { A1: "60", A2: "60", A3: "60", B1: "5%", B2: "5%", C1: "=MIST.OILFOR(A1:A3,B1:B2)" },
      "C3",
      /this range has ended|unlike length/,
      /./,
    ],
    [
      "an error of the rest of the formula",
      { C1: "=MIST.OILFOR(60,5%)/0" },
      "C1",
      "The rest of the formula divides by zero or by a blank.",
      /look at what the rest/,
    ],
    [
      "a function that no sheet knows",
      { C1: "=FOO(MIST.OILFOR(60,5%))" },
      "C1",
      "The sheet does not know a name in this formula.",
      /press Repair under Hand over/,
    ],
  ])("%s", async (_, contents, cell, reason, mend) => {
    const found = await problem(contents, cell);
    if (typeof reason === "string") expect(found?.reason).toBe(reason);
    else expect(found?.reason).toMatch(reason);
    if (typeof mend === "string") expect(found?.mend).toBe(mend);
    else expect(found?.mend).toMatch(mend);
  });

  test("the outer call points to the inner one", async () => {
    const found = await problem({ A1: "=MIST.BASEFOR(MIST.OILFOR(60,5),5%)" }, "A1", 1);
    expect(found?.reason).toMatch(
      /^The argument batch, from MIST\.OILFOR above, is the error #VALUE!: load must be/,
    );
    expect(found?.mend).toBe("Mend MIST.OILFOR above first; this one then follows.");
  });

  test("also where the inner one names its argument as the outer one does", async () => {
    // The batch of the inner call is what is wrong; the outer call's batch is only its answer.
    const found = await problem({ A1: '=MIST.BASEFOR(MIST.OILFOR("sixty",5%),5%)' }, "A1", 1);
    expect(found?.reason).toBe(
      "The argument batch, from MIST.OILFOR above, is the error #VALUE!: " +
        'batch must be a number, got "sixty".',
    );
    expect(found?.mend).toBe("Mend MIST.OILFOR above first; this one then follows.");
  });
});

test.each([
  ["A9", "A9 of My sheet is empty. Select a cell with a formula."],
  ["A1", "A1 of My sheet holds a number that was typed in. Select a cell with a formula."],
  [
    "A3",
    "A3 of My sheet holds a text that was typed in: a formula opens with =. Select a cell with a formula.",
  ],
])("%s has nothing to explain, and is told so", async (cell, text) => {
  const { explain } = sheetOf({ A1: "60", A3: "MIST.OILFOR(60,5%)" });
  await expect(explain(cell)).rejects.toThrow(text);
});

test("a fault passes through a formula that is read with it", async () => {
  const { explain } = sheetOf({ A1: "=IFERROR(MIST.OILFOR(60,5),7)" });
  const explained = await explain("A1");
  expect(explained.value).toBe(7);
  expect(shownLine(explained).answer.flat().some(isFault)).toBe(true);
  expect((await explained.inWords("six")).sentences).toEqual([
    "It shows 7, because MIST.OILFOR has no answer.",
  ]);
});

test("a part that only asks whether it would come out needs no mend where the formula does", async () => {
  const { explain } = sheetOf({
    A1: '=IF(ISERROR(MIST.TURN(1,"floz","g")),5,MIST.OILFOR(60,5%))',
    A2: '=IF(ISERROR(MIST.TURN(1,"floz","g")),1/0,2)',
  });
  const [asked] = (await explain("A1")).calls;
  expect(asked?.at(asked.line).problem).toEqual({
    title: "Why this part gives no number",
    reason: expect.stringMatching(/^Density is needed/) as string,
    mend: "Nothing needs mending here: the formula has an answer without this part.",
  });
  const [failed] = (await explain("A2")).calls;
  expect(failed?.at(failed.line).problem?.mend).not.toMatch(/^Nothing/);
});

describe("prices that are texts", () => {
  test("are shown as the money read, in the currency that they name", async () => {
    const { explain } = sheetOf({
      ...{ A1: "'6,50 €", B1: "'12 USD", C1: "'$1,234" },
      A2: "=MIST.ASKPRICE(A1,50%)",
      B2: "=MIST.ASKPRICE(B1,50%)",
      C2: "=MIST.ASKPRICE(C1,50%)",
    });
    const [a, b, c] = [await explain("A2"), await explain("B2"), await explain("C2")].map((each) =>
      shownLine(each),
    );
    expect(a.inputs[0].value).toBe("€6.50");
    // By hand: 6.50 at half is 13, 12 is 24.
    expect(a.steps.at(-1)?.sentence).toContain("€13.00");
    expect([b.inputs[0].value, b.said.all]).toEqual(["USD 12.00", "USD 24.00"]);
    expect(c.inputs[0].value).toBe("$1,234");
    expect(c.problem?.reason).toContain("1,234 may be 1234, or 1.2340");
  });
});
