/**
 * npm run bench: one price is changed in a workbook of 2,000 materials and 200 recipes of five lines, each in two
 * sizes, and the same look-ups as plain native formulas. Each case in a process of its own; the ratio counts.
 */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { LocalWorkbook, newModel, write } from "../localsheet/load-engine";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import type { Part } from "../../taskpane/sheets/parts";
import type { Template } from "../../taskpane/sheets/template";
import { templates } from "../../taskpane/templates/index";

const MATERIALS = 2000;
const RECIPES = 200;
const LINES = 5;
const PRICED = 400;

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

async function ours(): Promise<number> {
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
  ];
  const added = set.map((template) => ({ sheet: template.title, template }));
  const others = plannedSheets(added);
  const model = newModel();
  const sheets = added.map(({ sheet, template }) => {
    return { name: sheet, drawing: drawingOf(template, true, others) };
  });
  await new LocalWorkbook(model).drawOnNewSheets(sheets);
  const place = others.get("Materials")?.places.get("materials.price");
  return changes(model, `E${(place?.row ?? 0) + 1}`);
}

/** The same look-ups, written by hand: a landed price a line, a part of it a recipe's line, and sums. */
async function plain(): Promise<number> {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const [sheet = ""] = await workbook.sheetNames();
  const formula = (row: number, column: number, content: string | number) => {
    return { spot: { sheet, row, column }, content };
  };
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
  return changes(model, "E1");
}

/** The median time of a price typed and all of it worked out again. */
function changes(model: ReturnType<typeof newModel>, cell: string): number {
  const times = Array.from({ length: 9 }, (_, i) => {
    const start = performance.now();
    write(model, cell, String(20 + i));
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[4] ?? 0;
}

const [which] = process.argv.slice(2);
if (which) console.log(which === "ours" ? await ours() : await plain());
else {
  const run = (name: string) =>
    Number(
      execFileSync(process.execPath, ["--import", "tsx", fileURLToPath(import.meta.url), name], {
        encoding: "utf8",
      })
        .trim()
        .split("\n")
        .at(-1),
    );
  const [own, native] = [run("ours"), run("plain")];
  console.table([
    {
      "a price change": `${MATERIALS} materials, ${RECIPES} recipes, ${PRICED} prices`,
      "ours ms": own.toFixed(0),
      "plain native ms": native.toFixed(0),
      ratio: (own / native).toFixed(2),
    },
  ]);
}
