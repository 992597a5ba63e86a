/** The guide "First batch in ten minutes": what it says to type, typed into empty sheets where their words stand. */
import { readFileSync } from "node:fs";
import { beforeAll, expect, test, vi } from "vitest";
import { makeRun } from "../../taskpane/pane/make-run";
import { bookRun } from "../../taskpane/pane/runs";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { plannedSheets } from "../../taskpane/sheets/find";
import { templates } from "../../taskpane/templates/index";
import { wholeSet } from "./whole-set";

vi.setConfig({ testTimeout: 240_000, hookTimeout: 240_000 });

const guide = readFileSync("docs/first-batch.md", "utf8");
const FIELDS = "what";

/** The tables of a section of the guide, line by line. */
function tablesOf(section: string): string[][][] {
  const text = guide.split(/^## /m).find((part) => part.startsWith(section)) ?? "";
  const tables = text.match(/(?:^\|.*\|\n)+/gm) ?? [];
  return tables.map((table) =>
    [...table.matchAll(/^\| (.*) \|$/gm)].map(([, cells = ""]) =>
      cells.split("|").map((cell) => cell.trim()),
    ),
  );
}

/** What a cell holds when this was typed into it. */
function typed(text: string): string | number {
  const [, number, percent] = /^([\d.]+)(%?)$/.exec(text) ?? [];
  return number ? Number(number) / (percent ? 100 : 1) : text;
}

const all = plannedSheets(templates.map((template) => ({ sheet: template.title, template })));
const drawings = new Map(
  templates.map((each) => [each.title, drawingOf(each, false, all).cells] as const),
);

/** Below a heading, or right of a label: where a person looks who reads these words on the sheet. */
function placeOf(title: string, words: string, line: number | "field") {
  const cells = drawings.get(title) ?? [];
  const found = cells.findLast(({ content }) => content === words);
  if (!found) throw new Error(`"${words}" is not on ${title}`);
  if (line !== "field") return { row: found.row + 1 + line, column: found.column };
  const right = cells.filter(({ row, column }) => row === found.row && column > found.column);
  const [next] = right.filter(({ look }) => look === "input").sort((a, b) => a.column - b.column);
  if (!next) throw new Error(`nothing is typed beside "${words}" of ${title}`);
  return { row: next.row, column: next.column };
}

let set: Awaited<ReturnType<typeof wholeSet>>;

async function type(title: string, table: string[][], sheet = title) {
  const [head = [], ...lines] = table;
  const cells = lines.flatMap((line, i) =>
    head[0] === FIELDS
      ? [{ place: placeOf(title, line[0] ?? "", "field"), text: line[1] ?? "" }]
      : line.map((text, j) => ({ place: placeOf(title, head[j] ?? "", i), text })),
  );
  const full = cells.filter(({ text }) => text !== "");
  await set.workbook.write(
    full.map(({ place, text }) => ({ spot: { sheet, ...place }, content: typed(text) })),
  );
}

async function below(title: string, words: string, line = 0, sheet = title) {
  const [cells] = await set.workbook.read({ sheet, ...placeOf(title, words, line) }, 1, 1);
  return cells?.[0];
}

beforeAll(async () => {
  set = await wholeSet(false);
  await type("Materials", tablesOf("2.")[0] ?? []);
  await type("Recipes", tablesOf("3.")[0] ?? []);
  await type("Sizes", tablesOf("4.")[0] ?? []);
  for (const table of tablesOf("5.")) await type("Price list", table);
  await type("Size run", tablesOf("6.")[0] ?? []);
});

test("what each costs with its freight", async () => {
  const PER_FLOZ = "Lands at ($ per fl oz)";
  // By hand: (46 + 14.50) / 128; (24 + 5) / (8 x 28.349523125 / 0.95 / 29.5735295625); (26 + 9) / 24.
  expect(await below("Materials", PER_FLOZ)).toBeCloseTo(60.5 / 128, 12);
  const ounces = (8 * 28.349523125) / 0.95 / 29.5735295625;
  expect(await below("Materials", PER_FLOZ, 1)).toBeCloseTo(29 / ounces, 12);
  expect(await below("Materials", "Lands at ($ per piece)", 2)).toBeCloseTo(35 / 24, 12);
  const told = ["0.473", "3.592", "1.458"];
  expect([60.5 / 128, 29 / ounces, 35 / 24].map((cost) => cost.toFixed(3))).toEqual(told);
  for (const cost of told) expect(guide).toContain(`$${cost}`);
  expect(await below("Materials", "Said of this line")).toBe("no date of its data sheet");
  expect(guide).toContain("`no date of its data sheet`");
  expect(await below("Recipes", "Said of this line", 1)).toBe("certificate limit not known");
  expect(guide).toContain("`certificate limit not known`");
  // The sprayer's freight, left blank.
  const freight = { sheet: "Materials", ...placeOf("Materials", "Freight of the order ($)", 3) };
  await set.workbook.write([{ spot: freight, content: null }]);
  expect(await below("Materials", "Said of this line", 3)).toContain("freight");
  await set.workbook.write([{ spot: freight, content: 0 }]);
  expect(await below("Materials", "Said of this line", 3)).toBe("");
});

/** By hand: a gram is 0.95 / 0.85 + 0.05 / 0.95 mL; 4 fl oz, 2 % over. */
const FILL = (4 * 29.5735295625 * 1.02) / (0.95 / 0.85 + 0.05 / 0.95);

test("a bottle's cost, and what to ask for it", async () => {
  const base = 60.5 / (3785.411784 * 0.85);
  const oil = 29 / (8 * 28.349523125);
  const liquid = (FILL * (0.95 * base + 0.05 * oil)) / 0.97;
  // By hand: bottle, sprayer and label; three minutes at $18 an hour.
  const cost = liquid + 35 / 24 + 12 / 24 + 18 / 100 + (3 / 60) * 18;
  expect(await below("Price list", "Cost ($)")).toBeCloseTo(cost, 9);
  // By hand: the price less 6.5 %, $0.30 and the cost is half of the price.
  const ask = (cost + 0.3) / (1 - 0.065 - 0.5);
  expect(await below("Price list", "Asking price, retail ($)")).toBeCloseTo(ask, 9);
  expect(guide).toContain(`costs $${cost.toFixed(2)}, and $${ask.toFixed(2)} is to be asked`);
});

test("the run: made, poured, told how to mend it, and booked", async () => {
  const told = await makeRun(set.workbook, new Date(2026, 10, 25));
  expect(told).toContain("The bench sheet of batch B-001");
  expect(guide).toContain("batch B-001");
  const sheet = (await set.workbook.selection()).sheet;
  const bench = (words: string, line: number) => below("Bench sheet", words, line, sheet);
  await type("Bench sheet", tablesOf("6.")[1] ?? [], sheet);
  const [oil = "", base = ""] = [0.05, 0.95].map((share) => (12 * FILL * share).toFixed(1));
  expect([await bench("In grams (g)", 0), await bench("In grams (g)", 1)]).toEqual([+oil, +base]);
  expect(guide).toContain(`${oil} g of oil and ${base} g of base`);

  const [readings = [], filled = []] = tablesOf("7.");
  expect([await bench("Material", 0), await bench("Material", 1)]).toEqual(
    readings.slice(1).map(([material]) => material),
  );
  await type(
    "Bench sheet",
    readings.map((line) => line.slice(1)),
    sheet,
  );
  // By hand: 64 g at 5 % take 19 times as much base, 1216 g, and 1175.2 are there.
  const more = 40.8;
  expect([await bench("Add to mend it", 0), await bench("Add to mend it", 1)]).toEqual([0, more]);
  expect(guide).toContain(`${more.toFixed(1)} g of base`);
  // By hand: 64 / 1239.2.
  expect(guide).toContain(`about ${((64 / 1239.2) * 100).toFixed(2)} %`);

  await type("Bench sheet", filled, sheet);
  const { model } = set;
  const sheetIdTo = model.getters.getSheetIdByName(sheet) ?? "";
  model.dispatch("ACTIVATE_SHEET", { sheetIdFrom: model.getters.getActiveSheetId(), sheetIdTo });
  expect(await bookRun(set.workbook)).toContain("Batch B-001 is in the Batch book, with 5 lines");
  expect(await below("Batch book", "Batch")).toBe("B-001");
});
