/**
 * A workbook of 2,000 materials, 200 recipes of five lines, each in two sizes, and nearly 5,000 batches of four
 * weighings each: a price is changed, a run is booked and a lot is traced; and the same look-ups as plain native
 * formulas, as a practised person would write them.
 */
import { LocalWorkbook, newModel, write } from "../localsheet/load-engine";
import { cellName } from "../../functions/formula/addresses";
import { bookRun, takeBack } from "../../taskpane/pane/runs";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import type { Part } from "../../taskpane/sheets/parts";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";
import { type Case, type Times, timed } from "./measure";

const MATERIALS = 2000;
const RECIPES = 200;
const LINES = 5;
const PRICED = 400;
/** Of the 5,000 that the book holds, so that one more can be booked. */
const BATCHES = 4990;
const WEIGHINGS = 4;
/** The day that the first batch was made, and everything on hand counted. */
const COUNTED = 46_000;

type Typed = Record<string, (line: number) => string | number | null>;

/** The template with as many lines, and these typed. */
function longer(title: string, list: string, lines: number, typed: Typed): Template {
  const template = templates.find((each) => each.title === title);
  if (!template?.parts) throw new Error(`${title} has no parts`);
  const parts = template.parts.map((part): Part => {
    if (!("list" in part) || part.list !== list) return part;
    const columns = part.columns.map((column) => {
      const type = typed[column.name ?? ""];
      if (column.formula !== undefined || !column.demo) return column;
      const width = Array.isArray(column.heading) ? column.heading.length : 1;
      const demo = Array.from({ length: lines }, (_, i) => Array(width).fill(type?.(i) ?? null));
      return { ...column, demo };
    });
    return { ...part, lines, columns };
  });
  return { ...template, parts };
}

const material = (i: number) => `Material ${i}`;
const recipe = (i: number) => `Recipe ${i}`;
const batch = (i: number) => `B-${i}`;
const weighing = {
  batch: (i: number) => batch(Math.floor(i / WEIGHINGS)),
  material: (i: number) => material((i * 7) % MATERIALS),
  lot: (i: number) => `L-${(i * 7) % MATERIALS}`,
  grams: (i: number) => 100 + (i % 50),
};

async function ours(): Promise<Times> {
  const set = [
    longer("Materials", "materials", MATERIALS, {
      name: material,
      what: (i) => (i % 4 ? "fragrance oil" : "base"),
      price: (i) => 10 + (i % 50),
      size: () => 1,
      unit: () => "lb",
      density: () => 0.9,
      packs: () => 1,
      freight: () => 9,
      counted: () => 100_000,
      countedon: () => COUNTED,
    }),
    longer("Recipes", "recipes", RECIPES * LINES, {
      recipe: (i) => recipe(Math.floor(i / LINES)),
      kind: (i) => (i % LINES ? null : "room spray"),
      of: (i) => (i % LINES ? null : "finished"),
      material: (i) => material((i % LINES) * 400 + (Math.floor(i / LINES) % 20)),
      load: (i) => (i % LINES ? 0.01 : null),
    }),
    longer("Sizes", "sizes", 2, {
      size: (i) => `size ${i}`,
      holds: (i) => 2 + 2 * i,
      unit: () => "floz",
      minutes: () => 3,
    }),
    longer("Price list", "prices", PRICED, {
      recipe: (i) => recipe(i >> 1),
      size: (i) => `size ${i & 1}`,
    }),
    longer("Batch book", "batches", BATCHES, {
      number: batch,
      date: (i) => COUNTED + Math.floor(i / 10),
      recipe: (i) => recipe(i % RECIPES),
      count: () => 12,
      weight: () => WEIGHINGS * 120,
    }),
    longer("Weighed", "weighed", BATCHES * WEIGHINGS, weighing),
    longer("Bench sheet", "", 0, {}),
  ];
  const added = set.map((template) => ({ sheet: template.title, template }));
  const others = plannedSheets(added);
  const model = newModel();
  const sheets = added.map(({ sheet, template }) => {
    return { name: sheet, drawing: drawingOf(template, true, others) };
  });
  const workbook = new LocalWorkbook(model);
  await workbook.drawOnNewSheets(sheets);
  const spot = (sheet: string, name: string, across = 0) => {
    const place = others.get(sheet)?.places.get(name);
    if (!place) throw new Error(`${name} is not on ${sheet}`);
    return { sheet, row: place.row, column: place.column + across };
  };
  const price = spot("Materials", "materials.price");
  const lot = spot("Batch book", "lot");
  const readings = Array.from({ length: LINES }, (_, i) => {
    const first = spot("Bench sheet", "pours.reading");
    return { spot: { ...first, row: first.row + i }, content: 100 };
  });
  await workbook.write([
    { spot: spot("Bench sheet", "recipe"), content: recipe(0) },
    { spot: spot("Bench sheet", "sizes.size"), content: "size 0" },
    { spot: spot("Bench sheet", "sizes.count"), content: 12 },
    { spot: spot("Bench sheet", "sizes.filled"), content: 12 },
    { spot: spot("Bench sheet", "sizes.size", 1), content: null },
    { spot: spot("Bench sheet", "sizes.count", 1), content: null },
    { spot: spot("Bench sheet", "sizes.filled", 1), content: null },
    { spot: spot("Bench sheet", "number"), content: "B-new" },
    ...readings,
  ]);
  const sheetIdTo = model.getters.getSheetIdByName("Bench sheet") ?? "";
  model.dispatch("ACTIVATE_SHEET", { sheetIdFrom: model.getters.getActiveSheetId(), sheetIdTo });
  return {
    "a price changed": await timed(15, (i) =>
      write(model, nameOf(price), String(20 + i), "Materials"),
    ),
    "a run booked": await timed(
      3,
      () => bookRun(workbook),
      () => takeBack(workbook, "B-new"),
    ),
    "a lot traced": await timed(9, (i) => write(model, nameOf(lot), `L-${i}`, "Batch book")),
  };
}

const nameOf = ({ row, column }: { row: number; column: number }) => cellName(row, column);

/** The same look-ups, written by hand: a landed price a line, a part of it a recipe's line, and sums. */
async function plain(): Promise<Times> {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const [sheet = ""] = await workbook.sheetNames();
  const formula = (row: number, column: number, content: string | number) => {
    return { spot: { sheet, row, column }, content };
  };
  // As wide as it will be, before a formula looks so far: a column added later would move it.
  await workbook.write([formula(0, 29, "L-7")]);
  await workbook.write(
    Array.from({ length: MATERIALS }, (_, i) => [
      formula(i, 0, material(i)),
      formula(i, 4, 10 + (i % 50)),
      formula(i, 5, `=IF(E${i + 1}="","",(E${i + 1}+9)/453.59237)`),
      formula(i, 6, `=IF(E${i + 1}="","",(E${i + 1}+9)/(453.59237/0.9/29.5735295625))`),
    ]).flat(),
  );
  await workbook.write(
    Array.from({ length: RECIPES * LINES }, (_, i) => [
      formula(i, 8, recipe(Math.floor(i / LINES))),
      formula(i, 9, material((i % LINES) * 400 + (Math.floor(i / LINES) % 20))),
      formula(i, 10, `=MATCH(J${i + 1},$A$1:$A$2000,0)`),
      formula(
        i,
        11,
        `=IF(ISNUMBER(INDEX($F$1:$F$2000,MAX(1,SUM(K${i + 1})))),IF(ISNUMBER(K${i + 1}),0.01*INDEX($F$1:$F$2000,K${i + 1}),"no price"),"no price")`,
      ),
    ]).flat(),
  );
  await workbook.write(
    Array.from({ length: PRICED }, (_, i) => [
      formula(i, 13, recipe(i >> 1)),
      formula(
        i,
        14,
        `=IF(COUNTIFS($I$1:$I$2000,N${i + 1},$L$1:$L$2000,"no price")>0,"no price",50*SUMIFS($L$1:$L$2000,$I$1:$I$2000,N${i + 1}))`,
      ),
      formula(i, 15, `=SUMIFS($L$1:$L$2000,$I$1:$I$2000,N${i + 1},$J$1:$J$2000,"Material 1")`),
    ]).flat(),
  );
  // On hand by what was weighed, a batch known by its number, and where a lot went.
  const lines = BATCHES * WEIGHINGS;
  await workbook.write(
    Array.from({ length: lines }, (_, i) => [
      formula(i, 20, weighing.batch(i)),
      formula(i, 21, weighing.material(i)),
      formula(i, 22, weighing.lot(i)),
      formula(i, 23, weighing.grams(i)),
      formula(i, 24, `=INDEX($AB$1:$AB$5001,MATCH(U${i + 1},$AA$1:$AA$5001,0))`),
      formula(i, 25, `=IF(W${i + 1}=$AD$1,U${i + 1},"")`),
    ]).flat(),
  );
  await workbook.write(
    Array.from({ length: BATCHES }, (_, i) => [
      formula(i, 26, batch(i)),
      formula(i, 27, COUNTED + Math.floor(i / 10)),
      formula(i, 28, `=ISNUMBER(MATCH(AA${i + 1},$Z$1:$Z$${lines},0))`),
    ]).flat(),
  );
  await workbook.write(
    Array.from({ length: MATERIALS }, (_, i) => [
      formula(
        i,
        7,
        `=100000-SUMIFS($X$1:$X$${lines + 10},$V$1:$V$${lines + 10},A${i + 1},$Y$1:$Y$${lines + 10},">=${COUNTED}")`,
      ),
    ]).flat(),
  );
  const booked = [
    formula(BATCHES, 26, "B-new"),
    formula(BATCHES, 27, COUNTED + 500),
    ...Array.from({ length: WEIGHINGS + 1 }, (_, i) => [
      formula(lines + i, 20, "B-new"),
      formula(lines + i, 21, material(i)),
      formula(lines + i, 23, 100),
      formula(lines + i, 24, `=INDEX($AB$1:$AB$5001,MATCH(U${lines + i + 1},$AA$1:$AA$5001,0))`),
    ]).flat(),
  ];
  const emptied = booked.map(({ spot }) => ({ spot, content: null }));
  return {
    "a price changed": await timed(15, (i) => write(model, "E1", String(20 + i))),
    "a run booked": await timed(
      3,
      () => workbook.write(booked),
      () => workbook.write(emptied),
    ),
    "a lot traced": await timed(9, (i) => write(model, "AD1", `L-${i}`)),
  };
}

export const workbook: Record<string, Case> = {
  "5,000 batches": {
    beside: "plain native look-ups",
    goal: { "a price changed": 1.3, "a run booked": 1.5, "a lot traced": 1.5 },
    ours,
    other: plain,
  },
};
