import { afterAll, beforeEach, describe, expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { handOver } from "../../functions/files/hand-over";
import { repair } from "../../taskpane/host/repair";
import { explain } from "../../taskpane/working/explain";
import { asExcel } from "../files/as-excel";
import { FakeExcel, newSheet } from "./fake-excel";

let excel: FakeExcel;
/** Files of the document that were closed again. */
let closed = 0;

/** A document that is handed out in slices of at most so many bytes. */
function documentOf(bytes: Uint8Array, slice: number, failsAt = -1) {
  const file = {
    size: bytes.length,
    sliceCount: Math.ceil(bytes.length / slice),
    closeAsync: (callback: (result: unknown) => void) => {
      closed++;
      callback({ status: "succeeded" });
    },
    getSliceAsync: (index: number, callback: (result: unknown) => void) => {
      if (index === failsAt) return callback({ status: "failed", error: new Error("no memory") });
      const data = [...bytes.slice(index * slice, (index + 1) * slice)];
      callback({ status: "succeeded", value: { data } });
    },
  };
  return {
    getFileAsync: (type: string, _: unknown, callback: (result: unknown) => void) => {
      expect(type).toBe("compressed");
      callback({ status: "succeeded", value: file });
    },
  };
}

function stub(document: unknown = {}) {
  vi.stubGlobal("Office", {
    context: { requirements: Office.context.requirements, document },
    FileType: { Compressed: "compressed" },
    AsyncResultStatus: { Failed: "failed", Succeeded: "succeeded" },
  });
}

// Other tests of the same worker load the engine, which looks for a page.
afterAll(() => vi.unstubAllGlobals());

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
  closed = 0;
  stub();
});

const put = (cells: Record<string, object>, sheet = "Sheet1") => {
  for (const [place, cell] of Object.entries(cells)) excel.sheet(sheet).cells.set(place, cell);
};
const spot = { sheet: "Sheet1", row: 0, column: 2 };

test("a sheet is brought to the front", async () => {
  await new ExcelWorkbook().show("Sheet1");
  expect(excel.activated).toBe("Sheet1");
});

describe("the working of a cell in Excel", () => {
  test("its arguments are read as ranges, with the labels beside them", async () => {
    put({
      "0,0": { formula: "Batch (g)" },
      "0,1": { formula: 60 },
      "1,0": { formula: "Load" },
      "1,1": { formula: 0.05 },
      "0,2": { formula: "=MIST.OILFOR(B1,$B$2)", value: 3 },
    });
    const explained = await explain(new ExcelWorkbook(), spot);
    const line = explained.calls[0].at(explained.calls[0].line);
    expect(line.inputs.map(({ value, from }) => [value, from]).slice(0, 2)).toEqual([
      ["60 g", 'from B1, "Batch (g)"'],
      ["5 %", 'from B2, "Load"'],
    ]);
    expect(line.steps.at(-1)?.value).toBe(3);
  });

  test.each([
    ["=MIST.OILFOR(60,0.05)", "certificate"],
    ["=MIST.SPIRITDENSITY(0.5)", "Strong alcohol"],
    ["=MIST.EVENPOINT(100,20,8)", "freight"],
  ])("%s has the caution of its own topic", async (formula, words) => {
    put({ "0,2": { formula, value: 1 } });
    const explained = await explain(new ExcelWorkbook(), spot);
    expect(explained.calls.map(({ caution }) => caution)).toEqual([expect.stringContaining(words)]);
  });

  test("a spilled cell is explained by the formula that fills it, for its own line", async () => {
    put({
      "0,1": { formula: 60 },
      "1,1": { formula: 120 },
      "0,2": { formula: "=MIST.OILFOR(B1:B2,5%)", value: 3 },
      "1,2": { value: 6, formula: "", spilledFrom: { row: 0, column: 2 } },
    });
    const explained = await explain(new ExcelWorkbook(), { ...spot, row: 1 });
    expect(explained.calls[0].at(explained.calls[0].line).steps.at(-1)?.value).toBe(6);
  });

  test("names, tables and expressions are read and worked out, and nothing is written", async () => {
    excel.tables
      .set("Packs.Size", { row: 0, column: 1, rows: 2, columns: 1 })
      .set("Packs.Price", { row: 0, column: 4, rows: 2, columns: 1 })
      .set(".Load", { row: 0, column: 3, rows: 2, columns: 1 });
    excel.names.push({ name: "rate", formula: "=0.05", visible: true });
    put({
      "0,1": { formula: 60 },
      "1,1": { formula: 90 },
      "0,3": { formula: 0.2 },
      "1,3": { formula: 0.3 },
      "0,4": { formula: 10 },
      "1,4": { formula: 15 },
      "0,2": { formula: "=MIST.OILFOR(Packs[@Size]*2,rate)+MIST.OILFOR(60,[@Load]/2)", value: 12 },
      "1,2": { formula: "=MIST.BLENDOF({1;1},Packs[Price])", value: 12.5 },
      "2,2": { formula: "=MIST.OILFOR(Packs[Size],rate)", value: 3 },
    });
    const before = structuredClone([excel.sheets, excel.names]);
    const explained = await explain(new ExcelWorkbook(), spot);
    const last = explained.calls.map((call) => call.at(call.line).steps.at(-1)?.value);
    expect(last).toEqual([6, 6]);
    const list = await explain(new ExcelWorkbook(), { ...spot, row: 1 });
    expect(list.calls[0].at(list.calls[0].line).steps.at(-1)?.value).toBe(12.5);
    const down = await explain(new ExcelWorkbook(), { ...spot, row: 2 });
    expect(down.calls[0].at({ row: 1, column: 0 }).inputs[0].from).toBe(
      "from the table, Packs[Size], line 2",
    );
    expect([excel.sheets, excel.names]).toEqual(before);
    expect(excel.changesAsked).toEqual([]);
    expect(excel.runs.some(({ mergeUndoGroup }) => mergeUndoGroup)).toBe(false);
  });

  test("names that hang on the cell, on too much or on nothing cannot be told; others are followed", async () => {
    put({ "0,0": { formula: 3 }, "1,0": { formula: 4 }, "5,5": { formula: 7 } });
    excel.names.push(
      { name: "held", formula: "=Sheet1!$A$1:$A$2", visible: true },
      { name: "twice", formula: "=2*held", visible: true },
      { name: "drifts", formula: "=Sheet1!A1", visible: true },
      { name: "here", formula: "=A1", visible: true },
      { name: "round", formula: "=round", visible: true },
      { name: "ours", formula: "=MIST.OILFOR(Sheet1!$A$1,50%)", visible: true },
    );
    const asked = ["held", "twice", "SUM(twice)", "drifts", "here", "round", "ours", "nowhere"];
    expect(await new ExcelWorkbook().values(spot, asked)).toEqual([
      [[3], [4]],
      [[6], [8]],
      [[14]],
      null,
      null,
      null,
      [[1.5]],
      null,
    ]);
    expect(excel.changesAsked).toEqual([]);
  });

  test("a name of the sheet's own goes before the workbook's", async () => {
    excel.names.push(
      { name: "rate", formula: "=0.05", visible: true },
      { name: "rate", formula: "=0.08", visible: true, sheet: "Sheet1" },
    );
    excel.sheets.push(newSheet("More"));
    expect(await new ExcelWorkbook().values(spot, ["rate"])).toEqual([[[0.08]]]);
    const more = { ...spot, sheet: "More" };
    expect(await new ExcelWorkbook().values(more, ["rate"])).toEqual([[[0.05]]]);
  });

  test("a cell that spills is read as far as it spills", async () => {
    const from = { row: 0, column: 4 };
    put({
      "0,4": { formula: "=SEQUENCE(2)", value: 1, spilledFrom: from },
      "1,4": { value: 2, spilledFrom: from },
      "2,4": { formula: 9 },
    });
    expect(await new ExcelWorkbook().values(spot, ["E1#", "SUM(E1#)", "A1#"])).toEqual([
      [[1], [2]],
      [[3]],
      null,
    ]);
  });

  test("what Excel cannot work out is told, and fails nothing else", async () => {
    put({ "0,2": { formula: "=MIST.OILFOR(nowhere,5%)", value: "#NAME?" } });
    const explained = await explain(new ExcelWorkbook(), spot);
    expect(explained.problem?.reason).toBe("The sheet does not know a name in this formula.");
    expect(explained.calls[0].at(explained.calls[0].line).problem?.title).toBe(
      "Why there is no working",
    );
  });

  test("names that LET gives are what they stand for; those of a LAMBDA cannot be told", async () => {
    put({
      "0,0": { formula: 60 },
      "0,2": { formula: "=LET(a,A1,b,a*2,MIST.OILFOR(b,5%))", value: 6 },
      "1,2": { formula: "=MAP(A1:A1,LAMBDA(x,MIST.OILFOR(x,5%)))", value: 3 },
    });
    const explained = await explain(new ExcelWorkbook(), spot);
    const line = explained.calls[0].at(explained.calls[0].line);
    expect(line.steps.at(-1)?.value).toBe(6);
    expect(line.inputs[0].from).toBe("worked out from A1");
    expect(explained.formula).toBe("=LET(a,A1,b,a*2,MIST.OILFOR(b,5%))");
    const lambda = await explain(new ExcelWorkbook(), { ...spot, row: 1 });
    expect(lambda.calls[0].at(lambda.calls[0].line).problem).toEqual({
      title: "Why there is no working",
      reason: "What batch holds is worked out within the formula, where it cannot be read.",
      mend: "To see the working, put that part into a cell of its own and refer to it.",
    });
  });

  test("whole columns are read as far as they are used", async () => {
    put({
      "0,0": { formula: 1 },
      "1,0": { formula: 3 },
      "0,2": { formula: "=MIST.BLENDOF(A:A,A:A)", value: 2.5 },
    });
    const [values] = await new ExcelWorkbook().values(spot, ["A:A"]);
    expect(values?.length).toBe(2);
  });

  test("of a long range that begins with blanks, MATCH counts from its first line", async () => {
    put({
      "12,0": { formula: "Birch" },
      "13,0": { formula: "Oak" },
      "14,1": { formula: 5 },
      "15,2": { formula: "below" },
    });
    const asked = [
      'MATCH("Oak",A10:A20009,0)',
      'INDEX(A10:A20009,MATCH("Oak",A10:A20009,0))',
      'COUNTIFS(A10:A20009,"",B10:B20009,5)',
      "ROWS(A10:A20009)",
      'MATCH("Oak",A30:A20009,0)',
    ];
    // By hand: Oak is in A14, the fifth from A10; in line 15, A is blank and B is 5.
    expect(await new ExcelWorkbook().values(spot, asked)).toEqual([
      [[5]],
      [["Oak"]],
      [[1]],
      [[20000]],
      [[{ fault: "#N/A" }]],
    ]);
  });

  test("a formula at the foot of the sheet is read, and nothing below", async () => {
    put({ "1048575,0": { formula: "=1+1", value: 2 } });
    const at = { sheet: "Sheet1", row: 1_048_575, column: 0 };
    expect(await new ExcelWorkbook().formulas()).toEqual([{ spot: at, formula: "=1+1", value: 2 }]);
  });

  test("it asks to hear of another selection, and of another content", async () => {
    await new ExcelWorkbook().onChange(() => undefined);
    const asked = excel.orders.map(({ name }) => name).filter((name) => /event/i.test(name));
    expect(asked).toContain("_registerDataChangedEvent");
    expect(excel.changesAsked).toEqual([]);
  });
});

describe("repair in Excel", () => {
  test("unknown names of ours are entered again, listed, and what refuses is told", async () => {
    excel.sheets.push({ ...newSheet("Locked"), isProtected: true });
    put({
      "0,0": { formula: "=_xldudf_MIST_OILFOR(B1,5%)", value: "#NAME?" },
      "1,0": { formula: "=MIST.BASEFOR(B1,5%)", value: "#NAME?" },
      "2,0": { formula: "=MIST.BASEFOR(B1,5%)", value: 57 },
      "3,0": { formula: '="_xldudf_MIST_OILFOR("&A1', value: "#NAME?" },
      "4,0": { formula: "=OTHER.THING(1)", value: "#NAME?" },
      "5,0": { formula: "=1/0", value: "#DIV/0!" },
    });
    put({ "0,0": { formula: '=_xldudf_MIST_TURN(1,"g","oz")', value: "#NAME?" } }, "Locked");
    const repaired = await repair(new ExcelWorkbook());
    expect(repaired.map(({ place, formula, isMended }) => [place, formula, isMended])).toEqual([
      ["A1 of Sheet1", "=MIST.OILFOR(B1,5%)", true],
      ["A2 of Sheet1", "=MIST.BASEFOR(B1,5%)", true],
      ["A1 of Locked", '=MIST.TURN(1,"g","oz")', false],
    ]);
    expect(repaired[2].outcome).toBe("could not be entered: the sheet is protected");
    expect(excel.sheet("Sheet1").cells.get("0,0")?.formula).toBe("=MIST.OILFOR(B1,5%)");
    expect(excel.sheet("Sheet1").cells.get("2,0")?.value).toBe(57);
  });
});

test("a name of a file's own is mended, whatever its cell shows", async () => {
  put({ "0,0": { formula: "=_xldudf_MIST_OILFOR(B1,5%)", value: 3 } });
  expect((await repair(new ExcelWorkbook())).map(({ formula }) => formula)).toEqual([
    "=MIST.OILFOR(B1,5%)",
  ]);
});

describe("a large workbook", () => {
  test("is read sheet by sheet and block by block, each formula once", async () => {
    const names = ["Sheet1", "More", "Empty"];
    excel.sheets = names.map((name) => newSheet(name));
    // 30 columns wide: more than one block.
    for (const sheet of excel.sheets.slice(0, 2)) {
      for (let row = 0; row < 1500; row++)
        sheet.cells.set(`${row + 3},${row % 30}`, { formula: `=${row}+1`, value: row + 1 });
    }
    const found = await new ExcelWorkbook().formulas();
    expect(found).toHaveLength(3000);
    for (const { spot, formula, value } of found) {
      expect(spot.column).toBe((spot.row - 3) % 30);
      expect([formula, value]).toEqual([`=${spot.row - 3}+1`, spot.row - 2]);
    }
    // The names; for each sheet its size, and for those that are filled three blocks of 666 rows.
    const loads = excel.requests.filter((orders) => orders.some(({ kind }) => kind === "load"));
    expect(loads).toHaveLength(1 + 3 + 3 + 3);
    expect(excel.changesAsked).toEqual([]);
  });
});

describe("names that an older version left", () => {
  test("are taken away; those of others, and those that are seen, stay", async () => {
    const own = `Mistwright_${crypto.randomUUID().replaceAll("-", "_")}`;
    const names = [
      { name: own, formula: "=1", visible: false },
      { name: "Mistwright_notes", formula: "=1", visible: false },
      { name: `${own}0`, formula: "=1", visible: true },
      { name: "rate", formula: "=0.05", visible: false },
    ];
    excel.names.push(...names);
    expect(await new ExcelWorkbook().sweep()).toBe(1);
    expect(excel.names.map(({ name }) => name)).toEqual(names.slice(1).map(({ name }) => name));
    expect(await new ExcelWorkbook().sweep()).toBe(0);
  });
});

describe("hand over in Excel", () => {
  test("the workbook's own file, slice by slice, becomes a new workbook", async () => {
    const bytes = asExcel();
    stub(documentOf(bytes, 1000));
    const workbook = new ExcelWorkbook();
    const file = await workbook.file();
    expect(file).toEqual(bytes);
    expect(closed).toBe(1);
    const { bytes: copy } = handOver(file);
    expect(await workbook.give(copy, "copy.xlsx")).toMatch(/^The copy is open as a new workbook/);
    expect(new Uint8Array(Buffer.from(excel.opened[0], "base64"))).toEqual(copy);
  });

  test.each([
    ["a slice that fails", documentOf(asExcel(), 1000, 2), "no memory"],
    ["an empty file", documentOf(new Uint8Array(), 1000), "it is empty"],
  ])("%s is told, with what to do instead", async (_, document, reason) => {
    stub(document);
    await expect(new ExcelWorkbook().file()).rejects.toThrow(
      `Excel did not hand out this workbook's file: ${reason}. Save a copy of it on your computer`,
    );
    expect(closed).toBe(1);
  });

  test("a slice that lacks bytes is told, and the file is closed", async () => {
    const short = documentOf(asExcel(), 1000);
    stub({
      getFileAsync: (type: string, options: unknown, callback: (result: unknown) => void) =>
        short.getFileAsync(type, options, (result) => {
          const { value } = result as { value: object };
          callback({ ...(result as object), value: { ...value, sliceCount: 1 } });
        }),
    });
    await expect(new ExcelWorkbook().file()).rejects.toThrow(/1000 of \d+ bytes came/);
    expect(closed).toBe(1);
  });

  test("a copy that Excel does not open is handed over as a download, and told so", async () => {
    const links: { download?: string; href?: string; clicked?: boolean }[] = [];
    vi.stubGlobal("document", {
      createElement: () => {
        const link = { click: () => void Object.assign(link, { clicked: true }) };
        links.push(link as object);
        return link;
      },
    });
    excel.refuses = ({ name }) =>
      name === "open" || /^createAndOpen/.test(name) ? "no" : undefined;
    const told = await new ExcelWorkbook().give(asExcel(), "Costs handed over.xlsx");
    expect(told).toMatch(
      /^Excel did not open the copy \(no\), so it was handed over as a download/,
    );
    expect(links).toMatchObject([{ download: "Costs handed over.xlsx", clicked: true }]);
    expect(links[0].href).toMatch(/^blob:/);
  });
});
