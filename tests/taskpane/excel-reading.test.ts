import { beforeEach, describe, expect, test, vi } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { handOver } from "../../functions/files/hand-over";
import { repair } from "../../taskpane/host/repair";
import { explain } from "../../taskpane/working/explain";
import { asExcel } from "../files/as-excel";
import { FakeExcel } from "./fake-excel";

let excel: FakeExcel;
const opened: string[] = [];

/** A document that is handed out in slices of at most so many bytes. */
function documentOf(bytes: Uint8Array, slice: number, failsAt = -1) {
  const file = {
    size: bytes.length,
    sliceCount: Math.ceil(bytes.length / slice),
    closeAsync: () => undefined,
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
    context: { requirements: { isSetSupported: () => true }, document },
    FileType: { Compressed: "compressed" },
    AsyncResultStatus: { Failed: "failed", Succeeded: "succeeded" },
  });
}

beforeEach(() => {
  excel = new FakeExcel();
  opened.length = 0;
  vi.stubGlobal("Excel", {
    run: (_: unknown, batch: unknown) => excel.run((batch ?? _) as never),
    createWorkbook: async (base64: string) => void opened.push(base64),
  });
  stub();
});

const put = (cells: Record<string, object>, sheet = "Sheet1") => {
  for (const [place, cell] of Object.entries(cells)) excel.sheet(sheet).cells.set(place, cell);
};
const spot = { sheet: "Sheet1", row: 0, column: 2 };

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
      ["60", 'from B1, "Batch (g)"'],
      ["5 %", 'from B2, "Load"'],
    ]);
    expect(line.steps.at(-1)?.value).toBe(3);
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

  test("names, tables and expressions are worked out by a name that is gone again", async () => {
    excel.tableColumns.set("Packs.Size", 1).set(".Load", 3);
    excel.evaluates
      .set("=Sheet1!$B$1*2", [[120]])
      .set("=rate", [[0.05]])
      .set("=Sheet1!$D$1/2", [[0.1]])
      .set("=Packs[Price]", [[10], [15]]);
    put({
      "0,2": { formula: "=MIST.OILFOR(Packs[@Size]*2,rate)+MIST.OILFOR(60,[@Load]/2)", value: 12 },
      "1,2": { formula: "=MIST.BLENDOF({1;1},Packs[Price])", value: 12.5 },
    });
    const explained = await explain(new ExcelWorkbook(), spot);
    const last = explained.calls.map((call) => call.at(call.line).steps.at(-1)?.value);
    expect(last).toEqual([6, 6]);
    const list = await explain(new ExcelWorkbook(), { ...spot, row: 1 });
    expect(list.calls[0].at(list.calls[0].line).steps.at(-1)?.value).toBe(12.5);
    expect(excel.names.size).toBe(0);
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
    excel.evaluates.set("=Sheet1!$A$1*2", [[120]]);
    put({
      "0,0": { formula: 60 },
      "0,2": { formula: "=LET(a,A1,b,a*2,MIST.OILFOR(b,5%))", value: 6 },
      "1,2": { formula: "=MAP(A1:A1,LAMBDA(x,MIST.OILFOR(x,5%)))", value: 3 },
    });
    const explained = await explain(new ExcelWorkbook(), spot);
    const line = explained.calls[0].at(explained.calls[0].line);
    expect(line.steps.at(-1)?.value).toBe(6);
    expect(line.inputs[0].from).toBe("worked out: A1*2");
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

  test("it hears of another selection, and of another content", async () => {
    let heard = 0;
    await new ExcelWorkbook().onChange(() => heard++);
    for (const listener of excel.listeners) await listener();
    expect([excel.listeners.length, heard]).toEqual([2, 2]);
  });
});

describe("repair in Excel", () => {
  test("unknown names of ours are entered again, listed, and what refuses is told", async () => {
    excel.sheets.push({ ...excel.sheet("Locked"), isProtected: true });
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

describe("hand over in Excel", () => {
  test("the workbook's own file, slice by slice, becomes a new workbook", async () => {
    const bytes = asExcel();
    stub(documentOf(bytes, 1000));
    const workbook = new ExcelWorkbook();
    const file = await workbook.file();
    expect(file).toEqual(bytes);
    const { bytes: copy } = handOver(file);
    expect(await workbook.give(copy)).toMatch(/^The copy is open as a new workbook/);
    expect(new Uint8Array(Buffer.from(opened[0], "base64"))).toEqual(copy);
  });

  test.each([
    ["a slice that fails", documentOf(asExcel(), 1000, 2), "no memory"],
    ["an empty file", documentOf(new Uint8Array(), 1000), "it is empty"],
  ])("%s is told, with what to do instead", async (_, document, reason) => {
    stub(document);
    await expect(new ExcelWorkbook().file()).rejects.toThrow(
      `Excel did not hand out this workbook's file: ${reason}. Save a copy of it on your computer`,
    );
  });
});
