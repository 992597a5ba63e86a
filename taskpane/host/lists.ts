/**
 * Lists that grow, as tables of Excel's: what is typed or pasted right below one, or inserted within, becomes a
 * line of it, and gets the formulas of the column.
 */
import { freeTableName } from "../../functions/files/table-names";
import { type DrawnList, type PlacedDrawing, addressOf } from "../sheets/drawing";
import { rangeOf } from "./orders";

/** Makes the lists tables, which have their looks from the cells; the names are those that no table has, and are added to `names`. */
export function orderLists(sheet: Excel.Worksheet, drawing: PlacedDrawing, names: Set<string>) {
  for (const list of drawing.lists ?? []) {
    const table = sheet.tables.add(addressOf(list), true);
    table.name = freeTableName(list.name, names);
    table.style = "TableStyleLight1";
    table.showBandedRows = false;
    orderFormulas(sheet, drawing, list);
  }
}

/** Entered in the table, the formula of all lines is the column's own: Excel fills it into new lines. */
function orderFormulas(sheet: Excel.Worksheet, { cells }: PlacedDrawing, list: DrawnList) {
  const body = { ...list, row: list.row + 1, rows: list.rows - 1 };
  for (let column = list.column; column < list.column + list.columns; column++) {
    const formulas = cells
      .filter((cell) => cell.column === column && isWithin(cell.row, body))
      .sort((a, b) => a.row - b.row)
      .map(({ content }) => content)
      .filter((content) => String(content).startsWith("="));
    if (formulas.length < body.rows) continue;
    rangeOf(sheet, { ...body, column, columns: 1 }).formulas = formulas.map((each) => [each]);
  }
}

function isWithin(row: number, area: { row: number; rows: number }): boolean {
  return row >= area.row && row < area.row + area.rows;
}

/**
 * The drawing of a new sheet with the rules, marks and formats of each list as far as formulas elsewhere look
 * down, so that what is typed below the last line is read as in the list.
 */
export function reaching(drawing: PlacedDrawing): PlacedDrawing {
  const { lists = [], rules, marks } = drawing;
  const stretched = <T extends { row: number; column: number; rows: number }>(area: T): T => {
    const list = lists.find((each) => isLastOf(area, each));
    return list ? { ...area, rows: list.row + 1 + list.reach - area.row } : area;
  };
  return { ...drawing, rules: rules.map(stretched), marks: marks.map(stretched) };
}

/** True of what goes as far as the last line of a list. */
function isLastOf(
  { row, column, rows }: { row: number; column: number; rows: number },
  list: DrawnList,
) {
  const isBelowHeadings = row > list.row && row + rows === list.row + list.rows;
  return isBelowHeadings && column >= list.column && column < list.column + list.columns;
}

/** Number formats below the last line, as far as formulas elsewhere look down. */
export function orderFormats(sheet: Excel.Worksheet, { lists = [], cells }: PlacedDrawing) {
  for (const list of lists) {
    const last = list.row + list.rows - 1;
    const rows = list.reach - (list.rows - 1);
    for (const { row, column, format } of cells) {
      const isOurs = row === last && column >= list.column && column < list.column + list.columns;
      if (!isOurs || !format || rows < 1) continue;
      // One format for all cells of a range goes as itself, which the types do not say.
      const below = rangeOf(sheet, { row: last + 1, column, rows, columns: 1 });
      below.numberFormat = format as unknown as string[][];
    }
  }
}
