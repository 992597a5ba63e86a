/** Lists that grow, pages and panes as orders to Excel: behind Microsoft's own client, a small Excel of ours. */
import { beforeEach, describe, expect, test } from "vitest";
import { ExcelWorkbook } from "../../taskpane/host/excel-workbook";
import { cautionOf } from "../../taskpane/sheets/page";
import type { Drawing, DrawnPage } from "../../taskpane/sheets/drawing";
import { FakeExcel, isChange } from "./fake-excel";
import { growing } from "./growing-list";

let excel: FakeExcel;

beforeEach(() => {
  excel = new FakeExcel();
  excel.install();
});

const drawNew = (drawing: Drawing = growing) =>
  new ExcelWorkbook().drawOnNewSheet("Offers", drawing);

const table = {
  id: expect.any(String),
  over: "A4:E7",
  name: "Offers",
  style: "TableStyleLight1",
  showBandedRows: false,
};

describe("a list that grows", () => {
  test("is a table of Excel's, without bands of its own, in the one request of the drawing", async () => {
    await drawNew();
    expect(excel.sheet("Offers").tables).toEqual([table]);
    expect(excel.requests.filter((orders) => orders.some(isChange))).toHaveLength(1);
  });

  test("has the formulas of its lines entered in the table, column by column", async () => {
    await drawNew();
    const orders = excel.orders.map(({ name, args }) => ({ name, args }));
    const made = orders.findIndex(({ name }) => name === "showBandedRows");
    const entered = orders.slice(made).filter(({ name }) => name === "formulas");
    expect(entered.map(({ args }) => args[0])).toEqual([
      [5, 6, 7].map((row) => [`=IF(B${row}="","",B${row}*C${row})`]),
    ]);
  });

  test("has its rules, marks and formats as far down as formulas elsewhere look", async () => {
    await drawNew();
    const { rules, marks, cells } = excel.sheet("Offers");
    expect(rules.map(({ over }) => over)).toEqual(["C5:C2004", "E5:E2004"]);
    expect(marks.map(({ over }) => over)).toEqual(["A5:A2004"]);
    expect(cells.get("2003,2")?.format).toBe("0.0%");
    expect(cells.get("2004,2")).toBeUndefined();
    expect(cells.get("2003,0")?.format).toBeUndefined();
  });

  test("is longer by what is typed right below it, before that is typed, and by nothing else", async () => {
    await drawNew();
    const typed = (row: number, column: number) => {
      return { spot: { sheet: "Offers", row, column }, content: "typed" };
    };
    await new ExcelWorkbook().write([typed(8, 1), typed(7, 0), typed(10, 0), typed(9, 5)]);
    expect(excel.sheet("Offers").tables).toEqual([{ ...table, over: "A4:E9" }]);
    const names = excel.orders.map(({ name }) => name);
    expect(names.indexOf("resize")).toBeLessThan(names.lastIndexOf("formulas"));
    expect(excel.sheet("Offers").cells.get("8,1")?.formula).toBe("typed");
    await new ExcelWorkbook().write([
      { spot: { sheet: "Offers", row: 9, column: 0 }, content: null },
    ]);
    expect(excel.sheet("Offers").tables).toEqual([{ ...table, over: "A4:E9" }]);
  });

  test("has a name of its own where the workbook has a table of that name", async () => {
    await drawNew();
    await drawNew();
    await drawNew({
      ...growing,
      lists: (growing.lists ?? []).map((list) => ({ ...list, name: "2 offers" })),
    });
    const names = excel.sheets.flatMap(({ tables }) => tables.map(({ name }) => name));
    expect(names).toEqual(["Offers", "Offers_2", "_2_offers"]);
  });

  test("at a selection stays within its place, and leaves page and panes alone", async () => {
    await new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 1, column: 1 }, growing);
    const { tables, rules, page, frozen } = excel.sheet("Sheet1");
    expect(tables).toEqual([{ ...table, over: "B5:F8" }]);
    expect(rules.map(({ over }) => over)).toEqual(["D6:D8", "F6:F8"]);
    expect([page, frozen]).toEqual([{}, undefined]);
  });

  test("is a table no more where Excel refuses a later order", async () => {
    const theirs = { id: "theirs", over: "H1:I9", name: "Theirs" };
    excel.sheet("Sheet1").tables.push(theirs);
    let isMade = false;
    let isRefused = false;
    excel.refuses = ({ name }) => {
      if (isRefused || name !== "showBandedRows") return undefined;
      isMade = excel.sheet("Sheet1").tables.length === 2;
      isRefused = true;
      return "not allowed";
    };
    const draw = new ExcelWorkbook().drawAt({ sheet: "Sheet1", row: 1, column: 1 }, growing);
    await expect(draw).rejects.toThrow("Nothing was inserted");
    expect(isMade).toBe(true);
    expect(excel.sheet("Sheet1").tables).toEqual([theirs]);
  });
});

describe("a new sheet on paper", () => {
  const margins = [
    "Inches",
    { left: 0.25, right: 0.25, top: 0.9, bottom: 0.75, header: 0.3, footer: 0.3 },
  ];

  test("has what the drawing says: its sections one page wide each, columns and headings on each, without an end", async () => {
    await drawNew();
    expect(excel.sheet("Offers").page).toEqual({
      orientation: "Landscape",
      zoom: { horizontalFitToPages: 1 },
      margins,
      area: "A1:C1048576,D1:E1048576",
      titleColumns: "$A:$B",
      titleRows: "$4:$4",
      leftHeader: "Wear gloves && goggles.",
      centerFooter: "&A, page &P of &N",
    });
  });

  test("prints what the drawing says, and begins pages where it says", async () => {
    const only: DrawnPage["only"] = { columns: [0, 1] };
    await drawNew({ ...growing, page: { breaks: [2, 4], only } });
    // A break stands above the cell that it is given; columns have no end.
    expect(excel.sheet("Offers").page).toMatchObject({
      area: "A1:B1048576",
      breaks: ["A3", "A5"],
    });
  });

  test("is one page wide with a page number where the drawing says nothing", async () => {
    const { rows, columns, cells, rules, marks, charts, widths } = growing;
    await drawNew({ rows, columns, cells, rules, marks, charts, widths });
    expect(excel.sheet("Offers").page).toEqual({
      orientation: "Portrait",
      zoom: { horizontalFitToPages: 1 },
      margins,
      centerFooter: "&A, page &P of &N",
    });
    expect(excel.sheet("Offers").frozen).toBeUndefined();
  });

  test.each([
    [{ rows: 4, columns: 1 }, "A1:A4"],
    [{ rows: 4, columns: 0 }, "4 rows"],
    [{ rows: 0, columns: 2 }, "2 columns"],
  ])("keeps %j in sight", async (frozen, then) => {
    await drawNew({ ...growing, frozen });
    expect(excel.sheet("Offers").frozen).toBe(then);
  });

  test("an older Excel is asked for none of it", async () => {
    excel.install("1.6");
    await drawNew();
    expect([excel.sheet("Offers").page, excel.sheet("Offers").frozen]).toEqual([{}, undefined]);
    expect(excel.sheet("Offers").tables).toHaveLength(1);
  });
});

describe("a caution on the page", () => {
  test("is parted into lines that fit, at its words", () => {
    const caution = "Wear gloves. ".repeat(12).trim();
    const upright = cautionOf({ caution }).split("\n");
    expect(upright).toHaveLength(2);
    expect(Math.max(...upright.map((line) => line.length))).toBeLessThanOrEqual(90);
    expect(upright.join(" ")).toBe(caution);
    expect(cautionOf({ caution, landscape: true }).split("\n")[0]?.length).toBeGreaterThan(90);
  });

  test("of more than 255 characters, an & counted twice, is refused", () => {
    expect(cautionOf({ caution: "&".repeat(127) })).toHaveLength(254);
    expect(() => cautionOf({ caution: "&".repeat(128) })).toThrow("at most 255 characters");
  });
});
