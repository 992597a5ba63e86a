/**
 * The proof of a handed-over copy: LibreOffice, which has none of our functions, opens it, works out every
 * cell anew and shows what ours show; after an input is changed, too, wherever the copy is live.
 *
 * Without LibreOffice these tests are skipped, and say so.
 */
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { cellsIn } from "../../functions/files/cells";
import { cellName } from "../../functions/formula/addresses";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet } from "../../taskpane/sheets/insert";
import { templates } from "../../taskpane/templates/index";
import { asExcel } from "../files/as-excel";
import { type Changes, readBook, writeInto } from "../files/read-book";
import { LocalWorkbook, fromXlsx, newModel, toXlsx, write } from "../localsheet/load-engine";
import { cellOf, isSame, notFollowing, tell } from "./compare";
import { libreOffice, recalculated } from "./libreoffice";
import { type RandomSheet, randomSheet } from "./random-sheet";

const SHEETS = 200;
const BOOKS = 4;

const proof = describe.skipIf(!libreOffice);
if (!libreOffice)
  console.warn("No LibreOffice was found: the handed-over copies were not recalculated.");

proof("LibreOffice, as these tests start it, works out anew what a file says", () => {
  test("a wrong value beside a formula is put right", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    write(model, "A1", "2");
    write(model, "A2", "=A1*3");
    const wrong = writeInto(await toXlsx(model), new Map([["Sheet", new Map([["A2", 7]])]]));
    expect(cellOf(readBook(wrong), "Sheet", "A2").value).toBe(7);
    expect(cellOf(readBook(recalculated(wrong)), "Sheet", "A2").value).toBe(6);
  }, 60_000);
});

proof("a workbook that LibreOffice has saved, without our functions", () => {
  test("holds them still, and the local sheet knows them again", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    write(model, "A1", "60");
    write(model, "A2", "=MIST.OILFOR(A1,0.05)");
    write(model, "A3", "=IF(A1>0,2*MIST.BASEFOR(MIST.OILFOR(A1,0.05),0.05),0)");
    const saved = recalculated(await toXlsx(model));
    expect(cellOf(readBook(saved), "Sheet", "A2").isError).toBe(true);
    const sheets = Object.values(fromXlsx(saved)).join("");
    expect(sheets).toContain(">MIST.OILFOR(A1,0.05)<");
    expect(sheets).toContain("2*MIST.BASEFOR(MIST.OILFOR(A1,0.05),0.05)");
  }, 60_000);
});

proof("every template, handed over and recalculated", () => {
  test.each(templates)(
    "$title",
    async (template) => {
      const model = newModel({ sheets: [{ id: "s", name: "First" }] });
      const drawing = drawingOf(template, true);
      const sheet = await new LocalWorkbook(model).drawOnNewSheet(template.title, drawing);
      const bytes = await toXlsx(model);
      const copy = handOver(bytes);
      const hasOurs = drawing.cells.some(({ content }) => String(content).includes("MIST."));
      expect(copy.replaced.length > 0).toBe(hasOurs);
      const [before, theirs] = [readBook(bytes), readBook(recalculated(copy.bytes))];
      for (const [cell, own] of before.get(sheet) ?? []) {
        const other = cellOf(theirs, sheet, cell);
        expect(isSame(own, other), tell(sheet, cell, own, other)).toBe(true);
      }

      // Every number that is typed in, a little other; shares still sum to 100 % within 0.1 %.
      const inputs = drawing.cells.filter(
        ({ look, content }) => look === "input" && typeof content === "number",
      );
      const changes = new Map(
        inputs.map(({ row, column, content, format }): [string, number] => {
          const now = content as number;
          if (format?.includes("%")) return [cellName(row, column), now * 0.9995];
          return [cellName(row, column), Number.isInteger(now) ? now + 1 : now * 1.03];
        }),
      );
      for (const [cell, number] of changes) write(model, cell, String(number), sheet);
      const changed = readBook(recalculated(writeInto(copy.bytes, new Map([[sheet, changes]]))));
      const after = readBook(await toXlsx(model));
      const fixed = copy.replaced.filter(({ became }) => became === "value");
      const still = notFollowing(
        readBook(copy.bytes),
        fixed,
        (on, cell) => cellOf(after, on, cell).value !== cellOf(before, on, cell).value,
      );
      let moved = 0;
      for (const [cell, own] of after.get(sheet) ?? []) {
        if (still.has(`${sheet}!${cell}`)) continue;
        const other = cellOf(changed, sheet, cell);
        expect(isSame(own, other), tell(sheet, cell, own, other, "changed inputs")).toBe(true);
        if (!changes.has(cell) && own.value !== cellOf(before, sheet, cell).value) moved++;
      }
      // A list without ours may only count its lines.
      if (hasOurs) expect(moved).toBeGreaterThan(3);
    },
    120_000,
  );
});

proof("the whole workbook, handed over and recalculated", () => {
  test.each([true, false])(
    "its sheets draw from each other, filled: %s",
    async (filled) => {
      const model = newModel({ sheets: [{ id: "s", name: "First" }] });
      await insertSet(new LocalWorkbook(model), templates, filled);
      const bytes = await toXlsx(model);
      const [before, theirs] = [readBook(bytes), readBook(recalculated(handOver(bytes).bytes))];
      const unlike = [...before].flatMap(([sheet, cells]) =>
        [...cells].flatMap(([cell, own]) => {
          const other = cellOf(theirs, sheet, cell);
          return isSame(own, other) ? [] : [tell(sheet, cell, own, other)];
        }),
      );
      expect(unlike).toEqual([]);
      expect([...before.values()].flatMap((cells) => [...cells]).length).toBeGreaterThan(3000);
    },
    120_000,
  );
});

proof("one price changed in the copy of the whole workbook", () => {
  test("goes through every sheet that draws from it, as in ours", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "First" }] });
    const workbook = new LocalWorkbook(model);
    await insertSet(workbook, templates, true);
    const bytes = await toXlsx(model);
    const copy = handOver(bytes);
    const found = await findSheets(workbook, templates);
    const place = found.get("Materials")?.places.get("materials.price");
    const price = cellName(place?.row ?? -1, place?.column ?? -1);
    const before = readBook(bytes);
    const dearer = Number(cellOf(before, "Materials", price).value) * 1.25;
    write(model, price, String(dearer), "Materials");
    const after = readBook(await toXlsx(model));
    const typed = new Map([["Materials", new Map([[price, dearer]])]]);
    const changed = readBook(recalculated(writeInto(copy.bytes, typed)));
    const isOther = (on: string, cell: string) =>
      cellOf(after, on, cell).value !== cellOf(before, on, cell).value;
    const fixed = copy.replaced.filter(({ became }) => became === "value");
    const still = notFollowing(readBook(copy.bytes), fixed, isOther);
    const unlike: string[] = [];
    const moved = new Map<string, number>();
    for (const [sheet, cells] of after)
      for (const [cell, own] of cells) {
        if (still.has(`${sheet}!${cell}`)) continue;
        const other = cellOf(changed, sheet, cell);
        if (!isSame(own, other)) unlike.push(tell(sheet, cell, own, other));
        else if (isOther(sheet, cell)) moved.set(sheet, (moved.get(sheet) ?? 0) + 1);
      }
    expect(unlike).toEqual([]);
    // Where the price of a base is seen, by hand. What the scorecard makes of it is fixed in a copy.
    expect([...moved.keys()].sort()).toEqual([
      ...["Base comparison", "Bottle cost", "Buying plan", "Materials", "Price list", "Recipes"],
      "Spray trial log",
    ]);
  }, 300_000);
});

proof("a workbook as Excel stores it: names, a table, filled and spilled formulas", () => {
  const copy = handOver(asExcel());
  const ours = readBook(asExcel());
  // LibreOffice 7.4 does not know A1#, which is none of ours.
  const known = copy.replaced.filter(({ sheet, cell }) => sheet === "Costs" && /^[A-Z]/.test(cell));
  const cells = known.flatMap(({ cell }) => cellsIn(cell)).filter((cell) => cell !== "I1");

  test("as it was", () => {
    const theirs = readBook(recalculated(copy.bytes));
    expect(cells.length).toBeGreaterThan(20);
    for (const cell of ["B4", ...cells]) {
      const [own, other] = [cellOf(ours, "Costs", cell), cellOf(theirs, "Costs", cell)];
      expect(isSame(own, other), tell("Costs", cell, own, other)).toBe(true);
    }
  }, 60_000);

  test("with other inputs: what is live follows, what is fixed does not", () => {
    const inputs = new Map([
      ["B1", 80],
      ["B2", 0.1],
      ["E2", 100],
      ["A11", 20],
      ["B12", 2000],
    ]);
    const theirs = readBook(recalculated(writeInto(copy.bytes, new Map([["Costs", inputs]]))));
    const shown = (cell: string) => cellOf(theirs, "Costs", cell).value as number;
    // By hand: 10 % of 80 g, twice that, 95 % of 80 g, ounces of 100 g, 10 % of 100 g.
    expect(["B3", "B4", "B6", "H2"].map(shown)).toEqual([8, 16, "76 g", 10]);
    expect(shown("F2")).toBeCloseTo(100 / 28.349523125, 12);
    // By hand: a fluid ounce of the first pack; sizes times prices; prices and freight.
    expect(shown("C11")).toBeCloseTo((20 / 500) * 29.5735295625, 12);
    expect(shown("B14")).toBeCloseTo((500 * 20 + 2000 * 15) / 2500, 12);
    expect(shown("B15")).toBeCloseTo(20 + 15 + 5, 12);
    expect(["K1", "M1", "K2", "B5"].map(shown)).toEqual([0, 2, 3, 2]);
  }, 60_000);
});

proof(`${SHEETS} random sheets, handed over and recalculated`, () => {
  const each = SHEETS / BOOKS;
  test.each(Array.from({ length: BOOKS }, (_, i) => [i * each + 1, (i + 1) * each]))(
    "%i to %i",
    async (from, to) => {
      const book = new RandomBook(from, to);
      const copy = handOver(await book.bytes());
      const live = copy.replaced.filter(({ became }) => became === "formula");
      expect(live.length).toBeGreaterThan(3 * each);

      const before = readBook(await book.bytes());
      const theirs = readBook(recalculated(copy.bytes));
      for (const [sheet, cells] of before) {
        for (const [cell, own] of cells) {
          const other = cellOf(theirs, sheet, cell);
          expect(isSame(own, other), tell(sheet, cell, own, other)).toBe(true);
        }
      }

      const changed = readBook(recalculated(book.change(copy.bytes)));
      const after = readBook(await book.bytes());
      let [moved, answered] = [0, 0];
      for (const { sheet, cell, was } of live) {
        // An answer that has grown or shrunk keeps its first cell; LibreOffice cannot spill anew.
        const [first] = cellsIn(cell);
        const own = cellOf(after, sheet, first);
        const other = cellOf(changed, sheet, first);
        expect(isSame(own, other), tell(sheet, first, own, other, was)).toBe(true);
        if (typeof own.value === "number" && !own.isError) answered++;
        if (own.value !== cellOf(before, sheet, first).value) moved++;
      }
      expect(answered).toBeGreaterThan(live.length / 3);
      expect(moved).toBeGreaterThan(live.length / 4);
    },
    240_000,
  );
});

/** Sheets of random calls in the local sheet's engine, and in a copy, changed alike. */
class RandomBook {
  private readonly sheets = new Map<string, RandomSheet>();

  constructor(from: number, to: number) {
    for (let seed = from; seed <= to; seed++) this.sheets.set(`Sheet ${seed}`, randomSheet(seed));
  }

  bytes(): Promise<Uint8Array> {
    const sheets = [...this.sheets].map(([name, { contents }]) => {
      return { id: name, name, colNumber: 150, rowNumber: 90, cells: contents };
    });
    return toXlsx(newModel({ sheets }));
  }

  /** Every third input a little more, here and in the copy; a whole number stays one. Every 30th is emptied. */
  change(copy: Uint8Array): Uint8Array {
    const changes: Changes = new Map();
    for (const [name, { contents, inputs }] of this.sheets) {
      const ofSheet = new Map<string, number | null>();
      inputs.forEach((cell, i) => {
        if (i % 3 > 0) return;
        const content = contents[cell];
        const now = content.endsWith("%") ? Number(content.slice(0, -1)) / 100 : Number(content);
        const more = Number.isInteger(now) ? now + 1 : now * 1.03;
        ofSheet.set(cell, i % 30 === 27 ? null : more);
      });
      for (const [cell, number] of ofSheet) contents[cell] = number === null ? "" : String(number);
      changes.set(name, ofSheet);
    }
    return writeInto(copy, changes);
  }
}
