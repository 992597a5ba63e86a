/**
 * How a line of Materials finds its line in a price list of the maker's own: by the name, and where several lines
 * there or here have that name, by supplier and pack too. So the list may be sorted, and lines put in anywhere.
 *
 * Each rule stands here twice: as a formula of Materials, and for the pane that adds new lines.
 */
import { type CellValue, isBlank } from "../../functions/bind/cell.ts";
import { hold } from "../sheets/names.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import type { FoundColumn, FoundList } from "./list.ts";

/** What tells two lines of one name apart. */
const APART = ["supplier", "size", "unit", "pack"];

type Columns = ReadonlyMap<string, FoundColumn>;

/** A line of the list, as Materials knows it. */
export interface OwnLine {
  name: string | number;
  key: string;
}

/** The filled lines of a list. */
export function ownLines({ first, last }: FoundList, columns: Columns): OwnLine[] {
  const apart = APART.flatMap((key) => columns.get(key) ?? []);
  return Array.from({ length: last - first + 1 }, (_, line) => {
    const at = ({ values }: FoundColumn) => values[line] ?? null;
    const value = at(columns.get("name") ?? { column: 0, heading: "", values: [] });
    const name = typeof value === "number" ? value : plain(value);
    return { name, key: [name, ...apart.map((column) => part(at(column)))].join("|") };
  }).filter(({ name }) => name !== "");
}

/** Without the spaces that are too many, and the ones of web pages. */
function plain(value: CellValue): string {
  const text = value === null || typeof value === "object" ? "" : String(value);
  return text.replace(/[ \u00a0]+/g, " ").trim();
}

/** A number without its point, which is a comma elsewhere. */
function part(value: CellValue): string {
  if (typeof value === "number") return String(Math.round(value * 1000));
  return isBlank(value) ? "" : plain(value);
}

/** The cells of a column of the list, from its heading to below its last line, so that lines put in are within. */
export function ownRange({ sheet, head }: FoundList, { column }: FoundColumn, end: number) {
  return `${quoted(sheet)}!${hold(head, column)}:${hold(end, column)}`;
}

const INDEX = "ROW()-ROW({materials.name:head})+1";
const plainOf = (cell: string) => `TRIM(SUBSTITUTE(${cell},"\u00a0"," "))`;
const partOf = (cell: string) => `IF(ISNUMBER(${cell}),ROUND(${cell}*1000,0),${plainOf(cell)})`;

/** The hidden columns of Materials that find the lines. */
export function findingColumns(
  columns: Columns,
  rangeOf: (column: FoundColumn) => string,
): Record<string, string> {
  const nth = (key: string) => {
    const column = columns.get(key);
    return column ? [`INDEX(${rangeOf(column)},${INDEX})`] : [];
  };
  const [name = '""'] = nth("name");
  const all = columns.get("name");
  const names = all ? rangeOf(all) : '""';
  const apart = APART.flatMap(nth).map((cell) => `&"|"&${partOf(cell)}`);
  const known = plainOf("{name}");
  const named = `COUNTIF({materials.ownname},${known})`;
  const isAlone = `AND(${named}=1,COUNTIF({materials.name},{name})=1)`;
  return {
    // The last cell of the range is no line: what stands below the list.
    ownname: `=IF(${INDEX}>=ROWS(${names}),"",IF(ISERROR(${name}),"",${plainOf(name)}))`,
    ownkey: `=IF({ownname}="","",IFERROR({ownname}${apart.join("")},{ownname}&"|?"))`,
    ownrow:
      `=IF({name}="","",IF(${isAlone},MATCH(${known},{materials.ownname},0)+1,` +
      `IF(${named}=0,"your own list has no line of this name",` +
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
