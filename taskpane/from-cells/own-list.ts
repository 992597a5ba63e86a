/**
 * A price list of the maker's own: its columns are chosen once, and the lines of Materials draw from it by
 * formulas, so that the list stays the one place where a price is typed.
 */
import { isBlank } from "../../functions/bind/cell.ts";
import { readCellName } from "../../functions/formula/addresses.ts";
import type { CellValue, TypedCell, Workbook } from "../host/workbook.ts";
import { asTyped } from "../sheets/as-typed.ts";
import { type Other, type Place, resolved } from "../sheets/names.ts";
import { type FoundColumn, type FoundList, textOf } from "./list.ts";
import { OWN_COLUMNS, drawnColumn } from "./own-columns.ts";
import { type OwnLine, beyond, findingColumns, ownLines, ownRange, paired } from "./own-lines.ts";

/** Lines that look for their name in the list, below the last filled one: for names that are typed later. */
export const SPARE_LINES = 50;

/** So far below its last line the list may grow, where nothing else stands. */
const ROOM_BELOW = 1000;

/** The columns of Materials that may draw from it. */
const DRAWN_COLUMNS = Object.keys(OWN_COLUMNS).filter((key) => key !== "name" && key !== "pack");

/** What Materials draws from already: the sheet, and which of its columns is what. */
export interface DrawnBefore {
  sheet: string;
  columns: Map<string, number>;
}

/** What of Materials was drawn before, by its own formulas. */
class Drawn {
  /** The lines that draw, from the first: none where nothing was drawn. */
  readonly lines: number;

  private constructor(
    private readonly workbook: Workbook,
    private readonly materials: Other,
    private readonly formulas: ReadonlyMap<string, string>,
  ) {
    let last = this.place("ownrow").rows;
    while (last > 0 && this.formula("ownrow", last - 1) === undefined) last--;
    this.lines = last;
  }

  static async read(workbook: Workbook, materials: Other): Promise<Drawn> {
    const own = (await workbook.formulas()).filter(({ spot }) => spot.sheet === materials.sheet);
    const formulas = own.map(({ spot: { row, column }, formula }): [string, string] => [
      `${row} ${column}`,
      formula,
    ]);
    return new Drawn(workbook, materials, new Map(formulas));
  }

  place(column: string): Place {
    const place = this.materials.places.get(`materials.${column}`);
    if (place) return place;
    throw new Error(
      "this Materials is of an earlier version: insert an empty one, and draw on that one",
    );
  }

  formula(column: string, line: number): string | undefined {
    const place = this.place(column);
    return this.formulas.get(`${place.row + line} ${place.column}`);
  }

  async values(column: string): Promise<CellValue[]> {
    const { row, column: at, rows } = this.place(column);
    const spot = { sheet: this.materials.sheet, row, column: at };
    return (await this.workbook.read(spot, rows, 1)).map(([value]) => value ?? null);
  }

  /** The sheet and the column that a column of Materials looks at. */
  from(column: string, line: number): { sheet: string; column: number } | null {
    const formula = this.formula(column, line) ?? "";
    const [, inQuotes, bare, letters] =
      /INDEX\((?:'((?:[^']|'')+)'|([^'!(),]+))!\$([A-Z]+)\$/.exec(formula) ?? [];
    const sheet = inQuotes?.replaceAll("''", "'") ?? bare;
    return sheet && letters ? { sheet, column: readCellName(`${letters}1`).column } : null;
  }

  /** The same of the first of its lines that draws. */
  fromAny(column: string) {
    for (let line = 0; line < this.lines; line++) {
      const from = this.from(column, line);
      if (from) return from;
    }
    return null;
  }

  before(): DrawnBefore | null {
    const name = this.fromAny("ownname");
    if (!name) return null;
    const columns = new Map([["name", name.column]]);
    // A size without a column of units is the pack in one text.
    const isPack = this.fromAny("unit") === null;
    for (const column of DRAWN_COLUMNS) {
      const from = this.fromAny(column);
      if (from) columns.set(column === "size" && isPack ? "pack" : column, from.column);
    }
    return { sheet: name.sheet, columns };
  }
}

/** What Materials draws from, or null. */
export async function drawnBefore(
  workbook: Workbook,
  materials: Other,
): Promise<DrawnBefore | null> {
  if (!materials.places.has("materials.ownrow")) return null;
  return (await Drawn.read(workbook, materials)).before();
}

/**
 * Writes the names of the list on Materials, and cells that draw the rest by the name. Where that was done before,
 * adds the lines that are new. Refuses where lines of Materials are filled already; what was typed over a drawn
 * cell stays.
 */
export async function drawFromOwnList(
  workbook: Workbook,
  materials: Other,
  list: FoundList,
  chosen: ReadonlyMap<string, FoundColumn>,
): Promise<string> {
  const named = chosen.get("name");
  if (!named) throw new Error("choose which column names the material");
  if (chosen.has("pack") && (chosen.has("size") || chosen.has("unit")))
    throw new Error("choose the pack as one text, or its size and unit, not both");
  const drawn = await Drawn.read(workbook, materials);
  const before = drawn.before();
  if (before && before.sheet !== list.sheet)
    throw new Error(
      `Materials draws from "${before.sheet}" already. For another list insert an empty Materials.`,
    );
  const below = await filledBelow(workbook, list);
  const end = below ?? list.last + 1 + ROOM_BELOW;
  const rangeOf = (column: FoundColumn) => ownRange(list, column, end);
  const columns = [...chosen]
    .filter(([key]) => key !== "name")
    .map(([key, from]) => {
      const { column, formula } = drawnColumn(key, from);
      const cell = `INDEX(${rangeOf(from)},{ownrow})`;
      return { column, formula: `=IF(ISNUMBER({ownrow}),IF(${cell}="","",${formula(cell)}),"")` };
    });

  const own = ownLines(named, chosen);
  const names = before ? await drawn.values("name") : [];
  const keys = before ? await drawn.values("drawnas") : [];
  const filled = names.findLastIndex((name) => !isBlank(name)) + 1;
  const there = names.slice(0, filled).map((name, i) => ({ name, drawnAs: keys[i] ?? null }));
  const pairs = paired(own, there);
  const fresh = own.filter((line) => !pairs.includes(line));
  const { rows: most } = drawn.place("name");
  if (filled + fresh.length > most)
    throw new Error(`Materials has room for ${most} lines; with your list it would have more`);
  const last = Math.max(drawn.lines, Math.min(most, filled + fresh.length + SPARE_LINES));
  if (!before) await refuseFilled(workbook, drawn, materials.sheet, columns, last);

  const { sheet, places } = materials;
  const write = (column: string, line: number, content: TypedCell["content"]): TypedCell => {
    const { row, column: at } = drawn.place(column);
    const here = { of: "materials", line };
    const isFormula = typeof content === "string" && content.startsWith("=");
    const text = isFormula ? resolved(content, places, here, new Map()) : content;
    return { spot: { sheet, row: row + line, column: at }, content: text };
  };
  const lines = Array.from({ length: last }, (_, line) => line);
  const finding = Object.entries(findingColumns(named, chosen, rangeOf));
  const cells = finding.flatMap(([column, formula]) =>
    lines.map((line) =>
      column === "leftout" && line === 0
        ? write(column, line, `${formula}+${beyond(rangeOf(named))}`)
        : write(column, line, formula),
    ),
  );
  for (const { column, formula } of columns) {
    const values = before ? await drawn.values(column) : [];
    const isFree = (line: number) =>
      isBlank(values[line] ?? null) || drawn.formula(column, line) !== undefined;
    cells.push(...lines.filter(isFree).map((line) => write(column, line, formula)));
  }
  // What was chosen before, and is no more.
  const gone = DRAWN_COLUMNS.filter((each) => columns.every(({ column }) => column !== each));
  for (const column of gone)
    for (const line of lines) if (drawn.from(column, line)) cells.push(write(column, line, null));

  const placed: [number, OwnLine][] = [
    ...pairs.flatMap((line, i): [number, OwnLine][] => (line ? [[i, line]] : [])),
    ...fresh.map((line, i): [number, OwnLine] => [filled + i, line]),
  ];
  for (const [i, { name, key }] of placed) {
    if (i >= filled) cells.push(write("name", i, typed(name)));
    cells.push(write("drawnas", i, asTyped(key)));
  }
  await workbook.write(cells);
  const rest = below === null ? "" : ` Not drawn: row ${below + 1} of it, and what is below.`;
  const lost = there.filter(({ name }, i) => !isBlank(name) && !pairs[i]).length;
  return (before ? saidAgain(list, { fresh, placed, lost }) : saidFirst(list, fresh)) + rest;
}

const typed = (name: string | number) => (typeof name === "string" ? asTyped(name) : name);

function saidFirst({ sheet }: FoundList, fresh: readonly OwnLine[]): string {
  return `Materials draws from "${sheet}" by name, lines: ${fresh.length}. Sort it as you like. What you add there is told at the head of Materials: draw again, or type its name below the last line.`;
}

function saidAgain(
  { sheet }: FoundList,
  { fresh, placed, lost }: { fresh: readonly unknown[]; placed: readonly unknown[]; lost: number },
): string {
  const more = lost > 0 ? ` Not in it: ${lost} of Materials; they stay, and are told.` : "";
  return `From "${sheet}": ${fresh.length} new, ${placed.length - fresh.length} were on Materials.${more}`;
}

/** The first row below the list where something else stands, such as a total or another list. */
async function filledBelow(
  workbook: Workbook,
  { sheet, last, columns }: FoundList,
): Promise<number | null> {
  const [first, final] = [columns[0]?.column ?? 0, columns.at(-1)?.column ?? 0];
  const spot = { sheet, row: last + 1, column: first };
  const cells = await workbook.read(spot, ROOM_BELOW, final - first + 1);
  const found = cells.findIndex((line) => line.some((cell) => textOf(cell) !== ""));
  return found < 0 ? null : last + 1 + found;
}

async function refuseFilled(
  workbook: Workbook,
  drawn: Drawn,
  sheet: string,
  columns: readonly { column: string }[],
  lines: number,
) {
  for (const column of ["name", ...columns.map((each) => each.column)]) {
    const place = drawn.place(column);
    const spot = { sheet, row: place.row, column: place.column };
    const filled = await workbook.firstFilled(spot, lines, 1);
    if (filled)
      throw new Error(
        `Nothing was drawn: ${filled} of "${sheet}" is filled. Insert Materials empty first, or take its lines out.`,
      );
  }
}
