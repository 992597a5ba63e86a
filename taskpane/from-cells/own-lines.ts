/**
 * How a line of Materials finds its line in a price list of the maker's own: by the name, and where several lines
 * there or here have that name, by supplier and pack too. So the list may be sorted, and lines put in anywhere.
 *
 * Each rule stands here twice: as a formula of Materials, and for the pane that adds new lines.
 */
import type { CellValue } from "../../functions/bind/cell.ts";
import { plainName } from "../sheets/columns.ts";
import { hold } from "../sheets/names.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import { type FoundColumn, type FoundList, textOf } from "./list.ts";

/** What tells two lines of one name apart. */
const APART = ["supplier", "size", "unit", "pack"];

type Columns = ReadonlyMap<string, FoundColumn>;

/** A line of the list, as Materials knows it. */
export interface OwnLine {
  name: string | number;
  key: string;
}

/** The filled lines of a list. */
export function ownLines(named: FoundColumn, columns: Columns): OwnLine[] {
  const apart = APART.flatMap((key) => columns.get(key) ?? []);
  return named.values
    .map((value, line) => {
      const name = typeof value === "number" ? value : plain(value);
      const parts = apart.map(({ values }) => part(values[line] ?? null));
      return { name, key: [name, ...parts].join("|") };
    })
    .filter(({ name }) => name !== "");
}

/** Without the spaces that are too many, and the ones of web pages. */
function plain(value: CellValue): string {
  return textOf(value).replace(/[ \u00a0]+/g, " ");
}

/** A number without its point, which is a comma elsewhere. */
function part(value: CellValue): string {
  return typeof value === "number" ? String(Math.round(value * 1000)) : plain(value);
}

/** The cells of a column of the list, from its heading to below its last line, so that lines put in are within. */
export function ownRange({ sheet, head }: FoundList, { column }: FoundColumn, end: number) {
  return `${quoted(sheet)}!${hold(head, column)}:${hold(end, column)}`;
}

const INDEX = "ROW()-ROW({materials.name:head})+1";
const partOf = (cell: string) => `IF(ISNUMBER(${cell}),ROUND(${cell}*1000,0),${plainName(cell)})`;

/** The hidden columns of Materials that find the lines. */
export function findingColumns(
  named: FoundColumn,
  columns: Columns,
  rangeOf: (column: FoundColumn) => string,
): Record<string, string> {
  const nth = (column: FoundColumn) => `INDEX(${rangeOf(column)},${INDEX})`;
  const [names, name] = [rangeOf(named), nth(named)];
  const apart = APART.flatMap((key) => columns.get(key) ?? []).map(
    (column) => `&"|"&${partOf(nth(column))}`,
  );
  const known = plainName("{name}");
  const alike = `COUNTIF({materials.ownname},${known})`;
  const isAlone = `AND(${alike}=1,COUNTIF({materials.name},{name})=1)`;
  return {
    // The last cell of the range is no line: what stands below the list.
    ownname: `=IF(${INDEX}>=ROWS(${names}),"",IF(ISERROR(${name}),"",${plainName(name)}))`,
    ownkey: `=IF({ownname}="","",IFERROR({ownname}${apart.join("")},{ownname}&"|?"))`,
    ownrow:
      `=IF({name}="","",IF(${isAlone},MATCH(${known},{materials.ownname},0)+1,` +
      `IF(${alike}=0,"your own list has no line of this name",` +
      `IF(COUNTIF({materials.ownkey},{drawnas})=1,MATCH({drawnas},{materials.ownkey},0)+1,` +
      '"which line of your own list this is, is not known: draw from it again, or keep one of those that are alike"))))',
    leftout: `=IF({ownname}="",0,IF(ISNUMBER(MATCH(${INDEX},{materials.ownrow},0)),0,1))`,
  };
}

/** How many filled lines of the list are below those that Materials looks at. */
export function beyond(names: string): string {
  const below = `IF(INDEX(${names},ROWS(${names}))="",0,1)`;
  return `SUMPRODUCT(--(${names}<>""))-1-${below}-COUNTIF({materials.ownname},"?*")`;
}

/** A line of Materials: its name, and the key that it was drawn by. */
export interface DrawnLine {
  name: CellValue;
  drawnAs: CellValue;
}

/**
 * Which line of the list each line of Materials draws; where one line alone of a name is not found by its key, and
 * the list has one alone of that name that is not drawn, they are the same, changed.
 */
export function paired(own: readonly OwnLine[], drawn: readonly DrawnLine[]): (OwnLine | null)[] {
  const free = new Set(own);
  const take = (line: OwnLine | undefined) => {
    if (line) free.delete(line);
    return line ?? null;
  };
  const alike = (a: CellValue, b: CellValue) => plain(a).toLowerCase() === plain(b).toLowerCase();
  const ofName = (name: CellValue) => own.filter((line) => alike(line.name, name));
  const found = drawn.map(({ name, drawnAs }) => {
    if (plain(name) === "") return null;
    const named = ofName(name);
    const isAlone =
      named.length === 1 && drawn.filter((each) => alike(each.name, name)).length === 1;
    if (isAlone) return take(named[0]);
    return take(named.find((line) => free.has(line) && alike(line.key, drawnAs)));
  });
  return found.map((line, i) => {
    const name = drawn[i]?.name ?? null;
    if (line || plain(name) === "") return line;
    const lost = drawn.filter((each, at) => !found[at] && alike(each.name, name));
    const left = ofName(name).filter((each) => free.has(each));
    return lost.length === 1 && left.length === 1 ? take(left[0]) : null;
  });
}
