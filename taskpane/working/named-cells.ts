/** Cells by the names that a person knows them by: label, place and what they show. */
import { type CellValue, type Grid, isBlank, onlyCell } from "../../functions/bind/cell.ts";
import type { Digits } from "../../functions/working/shown.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import { edgesOf, isWhole, rangeIn } from "../../functions/formula/references.ts";
import type { Spot, Workbook } from "../host/workbook.ts";
import { type CellLook, type Labels, hasUnit, labelsOf, shownAs, withoutUnit } from "./labels.ts";

/** A cell or a range that a formula reads. */
export interface NamedCells {
  /** What it is called, without the unit: "Price of a pack". */
  name: string;
  /** Its label as it stands, and that of its line; "" where there is none. */
  label: string;
  /** "C19", with the sheet where it is another one. */
  place: string;
  cells: Grid;
  shows: (digits: Digits) => string;
  /** A number that is measured as these are: their sum, or the least of them. */
  showsLike: (value: CellValue, digits: Digits) => string;
}

/** Most values of a range that are shown. */
const MOST = 4;

/** Reads references as they are met, each once. */
export class CellReader {
  private readonly read = new Map<string, Promise<NamedCells>>();

  constructor(
    private readonly workbook: Workbook,
    private readonly spot: Spot,
  ) {}

  /** The cells of a reference: of a range, of a name, or of a column of a table. */
  cells(reference: string): Promise<NamedCells> {
    const plain = reference.replaceAll("$", "");
    const known = this.read.get(plain) ?? this.look(plain);
    this.read.set(plain, known);
    return known;
  }

  private async look(reference: string): Promise<NamedCells> {
    const { workbook, spot } = this;
    const [cells = null] = await workbook.values(spot, [reference]);
    const found = rangeIn(reference);
    const grid = cells ?? [];
    if (!found) {
      const look = { labels: [], format: "" };
      return { name: "", label: "", place: reference, cells: grid, ...showing(grid, look) };
    }
    const { top, left, bottom, right } = edgesOf(found);
    const sheet = found.sheetName || spot.sheet;
    const on = sheet === spot.sheet ? "" : ` of ${sheet}`;
    const first = { sheet, row: top, column: left };
    const isOne = top === bottom && left === right;
    const labels = isWhole(found) ? {} : await labelsOf(workbook, first);
    const [label, whose] = isOne ? labelOfOne(labels) : [labelOfMany(labels, bottom > top, grid)];
    const format = isWhole(found) ? "" : await workbook.format(first);
    const place = isWhole(found)
      ? reference.replace(/^.*!/, "").replaceAll("$", "")
      : isOne
        ? cellName(top, left)
        : `${cellName(top, left)} to ${cellName(bottom, right)}`;
    const look = { labels: [label, whose].filter((each) => each !== undefined), format };
    return {
      name: label === undefined ? "" : withoutUnit(label),
      label: [label, whose].filter((each) => each !== undefined).join(", "),
      place: place + on,
      cells: grid,
      ...showing(grid, look),
    };
  }
}

function showing(cells: Grid, look: CellLook): Pick<NamedCells, "shows" | "showsLike"> {
  const one = onlyCell(cells);
  return {
    showsLike: (value, digits) => shownAs(value, look, digits),
    shows: (digits) => {
      if (one !== undefined) return shownAs(one, look, digits);
      const filled = cells.flat().filter((cell) => !isBlank(cell));
      if (filled.length === 0) return "all blank";
      const few = filled.slice(0, MOST).map((cell) => shownAs(cell, look, digits));
      const more = filled.length > MOST ? `, and ${filled.length - MOST} more` : "";
      return few.join(", ") + more;
    },
  };
}

/** What a cell is, and whose: in a list its heading, and what its line opens with. */
function labelOfOne({ beside, above, line }: Labels): [string | undefined, string?] {
  if (beside !== undefined) return [beside];
  if (above === undefined || line === undefined) return [above ?? line];
  // In a table with names at the left, these have the units.
  return hasUnit(line) && !hasUnit(above) ? [line, above] : [above, line];
}

/** A column goes by its heading, which may be its first cell, a row by what it opens with. */
function labelOfMany(
  { beside, above, line }: Labels,
  isColumn: boolean,
  cells: Grid,
): string | undefined {
  if (!isColumn) return beside ?? line ?? above;
  const [first] = cells[0] ?? [];
  return above ?? (typeof first === "string" && first !== "" ? first : beside);
}
