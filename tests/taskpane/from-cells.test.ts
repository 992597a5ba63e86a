/** A function over a maker's own list: which columns it takes, what it answers, what it writes. */
import { beforeEach, describe, expect, test } from "vitest";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { cellName } from "../../functions/formula/addresses";
import { fill, freeBeside } from "../../taskpane/from-cells/fill";
import { type FoundList, listAround } from "../../taskpane/from-cells/list";
import { proposals } from "../../taskpane/from-cells/proposal";
import { type Trial, tryOut } from "../../taskpane/from-cells/trial";

const entryOf = (id: string) => catalog.find((entry) => entry.id === id) as CatalogEntry;
const AT = (row: number, column: number) => ({ sheet: "Costs", row, column });

/** A costing sheet as a maker has it: a title, headings in the fourth row, a total below. */
const LINES = [
  ["My costs 2026"],
  [],
  ["paid in dollars", "", "", "", "", "last look", "May"],
  ["What", "Shop", "Cost", "Pack size", "Unit", "g/mL", "Shipping"],
  ["Moor Mist base", "Hollow & Reed", 38.4, 1, "gal", "", 12.8],
  ["Amber oil", "Hollow & Reed", 20, 1, "lb", 0.85, ""],
  ["Fern oil", "Pinefold", 18, 16, "oz", "", 4],
  ["Reed base", "Pinefold", 12, 500, "mL", "", ""],
  ["Total", "", 88.4],
];

describe("a list of a maker's own", () => {
  let model: ReturnType<typeof newModel>;
  let workbook: InstanceType<typeof LocalWorkbook>;
  let list: FoundList;
  beforeEach(async () => {
    model = newModel({ sheets: [{ id: "costs", name: "Costs" }] });
    workbook = new LocalWorkbook(model);
    const cells = LINES.flatMap((line, row) =>
      line.map((content, column) => ({ spot: AT(row, column), content })),
    );
    await workbook.write(cells);
    list = (await listAround(workbook, AT(5, 2))) as FoundList;
  });

  const fields = (more: Record<string, string> = {}) =>
    new Map([...proposals(entryOf("FLOZCOST"), list), ...Object.entries(more)]);
  const tried = async (id: string, asked: ReadonlyMap<string, string>) =>
    (await tryOut(workbook, entryOf(id), asked, AT(4, 7), list)) as Trial;

  test("is found by its headings, without the title and the total", () => {
    expect([list.head, list.first, list.last]).toEqual([3, 4, 7]);
    expect(list.columns.map(({ heading }) => heading)).toEqual(LINES[3]);
  });

  test("is found from the cell beside it, and from far away", async () => {
    expect((await listAround(workbook, AT(4, 7)))?.head).toBe(3);
    expect((await listAround(workbook, AT(60, 12)))?.head).toBe(3);
  });

  test("gives its columns to the inputs that they are", () => {
    expect(Object.fromEntries(fields())).toEqual({
      price: "C5:C8",
      size: "D5:D8",
      unit: "E5:E8",
      density: "F5:F8",
      freight: "G5:G8",
    });
  });

  test("is answered line by line before anything is written, and says what a line lacks", async () => {
    const trial = await tried("FLOZCOST", fields());
    // By hand: (38.4 + 12.8) / 128 = 0.4; 20 / (453.59237 / 0.85 / 29.5735295625) = 1.108374;
    // 12 / (500 / 29.5735295625) = 0.709765.
    expect(trial.answers[0]?.[0]?.[0]).toBeCloseTo(0.4, 12);
    expect(trial.answers[1]?.[0]?.[0]).toBeCloseTo(1.108374, 6);
    expect(trial.answers[3]?.[0]?.[0]).toBeCloseTo(0.709765, 6);
    expect(trial.answered).toBe(3);
    expect(trial.gaps).toEqual([{ says: expect.stringMatching(/^density is needed/), rows: [7] }]);
    expect(read(model, "H5")).toBeNull();
  });

  test("gets a formula in every line, in the format of its money, in one step of undo", async () => {
    model.dispatch("SET_FORMATTING", {
      sheetId: "costs",
      target: [{ left: 2, right: 2, top: 4, bottom: 7 }],
      format: "[$$]#,##0.00",
    });
    const trial = await tried("FLOZCOST", fields());
    const at = await freeBeside(workbook, list);
    expect(at).toEqual(AT(4, 7));
    await fill(workbook, trial, { at, heading: "Per fl oz", spilled: false }, AT(4, 2));
    expect(read(model, "H4")).toBe("Per fl oz");
    expect(read(model, "H5")).toBeCloseTo(0.4, 12);
    expect((await workbook.content(AT(7, 7))).formula).toBe("=MIST.FLOZCOST(C8,D8,E8,F8,G8)");
    expect(await workbook.format(at)).toBe("[$$]#,##0.00");
    write(model, "G5", "0");
    // By hand: 38.4 / 128 = 0.3.
    expect(read(model, "H5")).toBeCloseTo(0.3, 12);
    model.dispatch("REQUEST_UNDO");
    model.dispatch("REQUEST_UNDO");
    expect([read(model, "H4"), read(model, "H5"), read(model, "H8")]).toEqual([null, null, null]);
  });

  test("or one formula that spills", async () => {
    const trial = await tried("FLOZCOST", fields());
    await fill(workbook, trial, { at: AT(4, 8), heading: "", spilled: true }, null);
    expect((await workbook.content(AT(4, 8))).formula).toBe(
      "=MIST.FLOZCOST(C5:C8,D5:D8,E5:E8,F5:F8,G5:G8)",
    );
    expect(read(model, "I8")).toBeCloseTo(0.709765, 6);
  });

  test("where a sheet has no room to spill, nothing stays", async () => {
    const trial = await tried("FLOZCOST", fields());
    // Excel, in a table.
    const inTable = Object.assign(Object.create(workbook) as typeof workbook, {
      content: async () => ({ formula: "=", value: { fault: "#SPILL!" }, from: AT(4, 8) }),
    });
    const filling = { at: AT(4, 8), heading: "", spilled: true };
    await expect(fill(inTable, trial, filling, null)).rejects.toThrow("cannot spill");
    expect((await workbook.content(AT(4, 8))).formula).toBeNull();
  });

  test("a limit is shown as a percent", async () => {
    const asked = new Map([
      ["labels", "A6:A6"],
      ["limits", "F6:F6"],
    ]);
    const trial = await tried("TOPLOAD", asked);
    await fill(workbook, trial, { at: AT(4, 8), heading: "", spilled: false }, null);
    expect(await workbook.format(AT(4, 8))).toBe("0.0%");
  });

  test("is never written over", async () => {
    write(model, "H7", "mine");
    const trial = await tried("FLOZCOST", fields());
    const filling = { at: AT(4, 7), heading: "", spilled: false };
    await expect(fill(workbook, trial, filling, null)).rejects.toThrow("H7 is filled");
    expect([read(model, "H5"), read(model, "H7")]).toEqual([null, "mine"]);
    expect((await freeBeside(workbook, list)).column).toBe(8);
  });

  test("what stands once, beside the list or typed, is the same for every line", async () => {
    write(model, "J2", "0.9");
    const trial = await tried("FLOZCOST", fields({ density: "J2", loss: "5 %" }));
    // By hand: 16 oz are 1 lb: 453.59237 g / 0.9 / 29.5735295625 = 17.0419 fl oz; 22 / (17.0419 x 0.95).
    expect(trial.answers[2]?.[0]?.[0]).toBeCloseTo(
      22 / (453.59237 / 0.9 / 29.5735295625) / 0.95,
      9,
    );
    expect(trial.formula(2)).toBe("=MIST.FLOZCOST(C7,D7,E7,$J$2,G7,5%)");
  });

  test.each([
    ["a cell of a column", "C6", "=MIST.FLOZCOST(C5,D5,E5,F5,G5)"],
    ["a column with its heading", "C4:C8", "=MIST.FLOZCOST(C5,D5,E5,F5,G5)"],
    ["a column with its total", "C5:C9", "=MIST.FLOZCOST(C5,D5,E5,F5,G5)"],
    ["a whole column", "C:C", "=MIST.FLOZCOST(C5,D5,E5,F5,G5)"],
    ["a cell that is held", "$C$6", "=MIST.FLOZCOST($C$6,D5,E5,F5,G5)"],
    ["money with its sign", "$46", "=MIST.FLOZCOST(46,D5,E5,F5,G5)"],
    ["money with its code", "46,50 EUR", "=MIST.FLOZCOST(46.5,D5,E5,F5,G5)"],
    ["a decimal comma", "46,5", "=MIST.FLOZCOST(46.5,D5,E5,F5,G5)"],
    ["what a formula may hold", "=C5*2", "=MIST.FLOZCOST(C5*2,D5,E5,F5,G5)"],
  ])("a field takes %s", async (_, text, formula) => {
    const trial = await tried("FLOZCOST", fields({ price: text }));
    expect(trial.formula(0)).toBe(formula);
  });

  test.each([
    ["nothing where something is needed", { price: "" }, "Still needed: price."],
    ["a number of two readings", { size: "1,500" }, "can be read in two ways"],
    ["money of two readings", { price: "$1,500" }, "price: 1,500 may be 1500, or 1.5000"],
    ["several columns", { price: "C5:D8" }, "several columns"],
    ["a column of other lines", { price: "C5:C7" }, "price has 3 lines and size 4"],
  ])("%s is told", async (_, more, told) => {
    const answer = tryOut(workbook, entryOf("FLOZCOST"), fields(more), AT(4, 7), list);
    expect(await answer.catch((error: Error) => error.message)).toContain(told);
  });

  test("a range that is read whole is held in the formula", async () => {
    const asked = new Map([
      ["amounts", "D5:D8"],
      ["values", "C5:C8"],
    ]);
    const trial = await tried("BLENDOF", asked);
    expect(trial.formula(0)).toBe("=MIST.BLENDOF($D$5:$D$8,$C$5:$C$8)");
    expect(trial.rows).toEqual([]);
  });
});

test("units that headings say stand in the working of a line", async () => {
  const workbook = new LocalWorkbook(newModel({ sheets: [{ id: "costs", name: "Costs" }] }));
  const lines = [
    ["Batch (oz)", "Load"],
    [60, 0.05],
    [80, 0.04],
  ];
  await workbook.write(
    lines.flatMap((line, row) =>
      line.map((content, column) => ({ spot: AT(row, column), content })),
    ),
  );
  const list = (await listAround(workbook, AT(1, 0))) as FoundList;
  const fields = new Map([
    ["batch", "A2:A3"],
    ["load", "B2:B3"],
  ]);
  const trial = (await tryOut(workbook, entryOf("OILFOR"), fields, AT(1, 3), list)) as Trial;
  // By hand: 4 % of 80.
  expect(trial.steps(1).at(-1)?.sentence).toBe("Oil to weigh: 4 % of 80 oz is 3.2 oz.");
});

test("a pack as one text, in unlike spellings, is taken as the size", async () => {
  const model = newModel({ sheets: [{ id: "costs", name: "Costs" }] });
  const workbook = new LocalWorkbook(model);
  const lines = [
    ["Item", "Paid", "Pack"],
    ["Base A", 38.4, "1/2 gal"],
    ["Base B", 12, "4 x 250 mL"],
    ["Base C", 20, "32 FL. OZ. bottle"],
    ["Oil D", 9, "1 lb"],
    ["Oil E", 9, "10.000 mL"],
  ];
  const cells = lines.flatMap((line, row) =>
    line.map((content, column) => ({ spot: AT(row, column), content })),
  );
  await workbook.write(cells);
  const list = (await listAround(workbook, AT(1, 3))) as FoundList;
  const entry = entryOf("FLOZCOST");
  const fields = proposals(entry, list);
  expect(Object.fromEntries(fields)).toEqual({ price: "B2:B6", size: "C2:C6" });
  const trial = (await tryOut(workbook, entry, fields, AT(1, 3), list)) as Trial;
  // By hand: 38.4 / 64; 12 / (1000 / 29.5735295625); 20 / 32.
  expect(trial.answers[0]?.[0]?.[0]).toBeCloseTo(0.6, 12);
  expect(trial.answers[1]?.[0]?.[0]).toBeCloseTo(12 / (1000 / 29.5735295625), 12);
  expect(trial.answers[2]?.[0]?.[0]).toBeCloseTo(0.625, 12);
  expect(trial.gaps.map(({ rows }) => rows)).toEqual([[5], [6]]);
  expect(trial.formula(1)).toBe("=MIST.FLOZCOST(B3,C3)");
});

describe("prices that are texts", () => {
  const written = async (prices: string[]) => {
    const model = newModel({ sheets: [{ id: "costs", name: "Costs" }] });
    const workbook = new LocalWorkbook(model);
    // Nothing but texts: a line of them is none of headings.
    const lines = [
      ["Item", "Paid", "Pack"],
      ...prices.map((price, i) => [`Oil ${i}`, `'${price}`, "2 fl oz"]),
    ];
    for (const [row, line] of lines.entries())
      for (const [column, text] of line.entries()) write(model, cellName(row, column), text);
    const list = (await listAround(workbook, AT(1, 3))) as FoundList;
    const fields = proposals(entryOf("FLOZCOST"), list);
    const trial = tryOut(workbook, entryOf("FLOZCOST"), fields, AT(1, 3), list);
    return { model, workbook, list, trial: trial as Promise<Trial> };
  };

  test("are proposed and read, and their currency stays in the new column", async () => {
    const { model, workbook, list, trial } = await written([
      "6,00 €",
      "€ 7,50",
      "8.00",
      "on request",
    ]);
    expect([list.head, list.last]).toEqual([0, 4]);
    const tried = await trial;
    expect(tried.shown(tried.answers[0]?.[0]?.[0] ?? null)).toBe("€3.00");
    expect(tried.gaps).toEqual([{ says: 'price must be a number, got "on request"', rows: [5] }]);
    const filling = { at: AT(1, 3), heading: "", spilled: false };
    await fill(workbook, tried, filling, AT(1, 1));
    // By hand: 6, 7.50 and 8 for two fluid ounces.
    expect(["D2", "D3", "D4"].map((cell) => read(model, cell))).toEqual([3, 3.75, 4]);
    expect(await workbook.format(AT(1, 3))).toBe("[$€]#,##0.00");
  });

  test("in two currencies are refused before anything is written", async () => {
    const { trial } = await written(["$6", "€6"]);
    await expect(trial).rejects.toThrow('prices must be in one currency, got "$6" and "€6"');
  });
});

test("loads that are 5 in place of 5 % are proposed, and told with what to type", async () => {
  const workbook = new LocalWorkbook(newModel({ sheets: [{ id: "costs", name: "Costs" }] }));
  const lines = [
    ["Batch", "Load"],
    [60, 5],
    [80, 5],
    [90, 4],
  ];
  const told = async (count: number) => {
    await workbook.write(
      lines.flatMap((line, row) =>
        line.map((content, column) => ({
          spot: AT(row, column),
          content: row > count ? null : content,
        })),
      ),
    );
    const list = (await listAround(workbook, AT(1, 0))) as FoundList;
    const fields = proposals(entryOf("OILFOR"), list);
    return (await tryOut(workbook, entryOf("OILFOR"), fields, AT(1, 3), list)) as Trial;
  };
  expect((await told(2)).gaps).toEqual([
    { says: "load must be from 0 % to 100 %, got 500 %: type 5 %", rows: [2, 3] },
  ]);
  // Of unlike loads, no one is told for all.
  expect((await told(3)).gaps).toEqual([
    { says: "load must be from 0 % to 100 %", rows: [2, 3, 4] },
  ]);
});
