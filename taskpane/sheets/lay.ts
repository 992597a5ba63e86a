/** From parts to blocks at their places: what stands where, and formulas in addresses. */
import { cellName } from "../../functions/formula/addresses.ts";
import type { Aspects, Block, Content } from "./block.ts";
import { type Here, type Others, type Place, type Places, isThere, resolved } from "./names.ts";
import type { Fields, List, Part, Table, Text } from "./parts.ts";
import { wordsFirst } from "./words-first.ts";

type Filled = Aspects & {
  look?: Block["look"] | undefined;
  formula?: string | undefined;
  draw?: string | undefined;
};

export interface Laid {
  blocks: Block[];
  places: Places;
  /** The lists that grow, by their names. */
  growing: (Place & { name: string; reach: number })[];
  /** Columns that are hidden, from zero. */
  hidden: number[];
}

export const NO_OTHERS: Others = new Map();

/**
 * Lays the parts one under the other. `others` tells where the sheets stand that they draw from, `indent` how
 * many columns notes and cautions begin from the left.
 */
export function lay(parts: readonly Part[], others: Others = NO_OTHERS, indent = 0): Laid {
  const there = wordsFirst(partsThere(parts, others));
  const places = placesOf(there);
  const absent = new Set([...placesOf(parts).keys()].filter((name) => !places.has(name)));
  const blocks: Block[] = [];
  const growing: Laid["growing"] = [];
  const hidden: number[] = [];
  for (const part of there) {
    const name = nameOf(part, there);
    const place = places.get(name);
    if (!place) throw new Error(`nothing has the name "${name}"`);
    const pen = new Pen(places, others, absent);
    if ("text" in part)
      writeText(pen, part, isRunning(part) ? { ...place, column: indent } : place);
    else if ("fields" in part) writeFields(pen, part, place);
    else if ("list" in part) writeList(pen, part, place);
    else if ("table" in part) writeTable(pen, part, place);
    else if ("block" in part) {
      const { draw, look, aspects } = pen.filling(part);
      const rows = draw ? [[draw]] : (part.rows ?? spread(part.formula, part.spills));
      pen.write(place.row, place.column, aspects, look, rows, {}, part.alone);
    }
    blocks.push(...pen.blocks);
    if ("list" in part) hidden.push(...hiddenOf(part, place));
    if ("list" in part && part.reach)
      growing.push({ ...place, rows: linesOf(part), name: part.list, reach: part.reach });
  }
  return { blocks, places, growing, hidden };
}

/** The parts that have all the sheets that they need. */
export function partsThere(
  parts: readonly Part[],
  others: Pick<Others, "has"> = NO_OTHERS,
): readonly Part[] {
  return parts.filter(({ needs = [] }) => needs.every((title) => others.has(title)));
}

function hiddenOf(list: List, { column }: Place): number[] {
  let at = column;
  return list.columns.flatMap((each) => {
    const first = at;
    at += widthOf(each);
    return each.hidden ? Array.from({ length: widthOf(each) }, (_, i) => first + i) : [];
  });
}

/** The parts' own names, and names made for those that have none: no formula can write them. */
function nameOf(part: Part, parts: readonly Part[]): string {
  const own =
    "list" in part
      ? part.list
      : "table" in part
        ? part.table
        : "block" in part
          ? part.block
          : "room" in part
            ? part.room
            : part.name;
  return own ?? `part ${parts.indexOf(part) + 1}`;
}

/** Where every part, field, column and row stands. */
export function placesOf(
  parts: readonly Part[],
  fills: (part: Part, area: Place) => void = () => undefined,
): Map<string, Place> {
  const places = new Map<string, Place>();
  const add = (name: string, place: Place) => {
    if (places.has(name)) throw new Error(`two things have the name "${name}"`);
    places.set(name, place);
  };
  let bottom = 0;
  let open: string | undefined;
  for (const part of parts) {
    const name = nameOf(part, parts);
    if (open !== undefined && part.beside === undefined)
      throw new Error(`"${name}" stands under "${open}", which grows`);
    const place = { ...originOf(part, places, bottom), ...sizeOf(part) };
    bottom = Math.max(bottom, place.row + place.rows);
    fills(part, place);
    addInner(part, place, add);
    const body =
      "list" in part ? bodyOf(part, place) : "table" in part ? tableBody(part, place) : place;
    add(name, body);
    if ("list" in part && part.reach) open = name;
  }
  return places;
}

/** Rows put in above a row. */
export interface RowsIn {
  row: number;
  count: number;
}

/** The rectangle that each part fills, its headings counted. */
export function areasOf(parts: readonly Part[]): Map<Part, Place> {
  const areas = new Map<Part, Place>();
  placesOf(parts, (part, area) => areas.set(part, area));
  return areas;
}

/** The rows to put in between parts so that they stand as they do among more of them; from the top. */
export function rowsBetween(parts: readonly Part[], among: readonly Part[]): RowsIn[] {
  const there = areasOf(among);
  const found: RowsIn[] = [];
  let moved = 0;
  for (const [part, { row }] of areasOf(parts)) {
    const count = (there.get(part)?.row ?? row) - row - moved;
    // What stands beside another part moves with it.
    if (count === 0 || part.beside !== undefined || part.under !== undefined) continue;
    found.push({ row: row - (part.gap ?? 0), count });
    moved += count;
  }
  return found;
}

function originOf({ gap = 0, skip = 0, beside, under }: Part, places: Places, bottom: number) {
  const other = beside ?? under;
  if (other === undefined) return { row: bottom + gap, column: skip };
  const there = places.get(other);
  if (!there) throw new Error(`nothing above has the name "${other}"`);
  const top = there.lies === "down" ? (there.head ?? there.row) : there.row;
  return beside === undefined
    ? { row: there.row + there.rows + gap, column: there.column + skip }
    : { row: top + gap, column: there.column + there.columns + skip };
}

function sizeOf(part: Part): { rows: number; columns: number } {
  if ("text" in part)
    return {
      rows: part.rows.length,
      columns: Math.max(...part.rows.map((row) => (Array.isArray(row) ? row.length : 1))),
    };
  if ("fields" in part)
    return {
      rows: part.fields.length,
      columns: (part.apart ?? 1) + (part.fields.some(({ note }) => note) ? 2 : 1),
    };
  if ("list" in part)
    return {
      rows: linesOf(part) + headsOf(part),
      columns: part.columns.map(widthOf).reduce((a, b) => a + b, 0),
    };
  if ("table" in part) {
    const rows = part.rows.map(heightOf).reduce((a, b) => a + b, 0);
    return { rows: rows + (part.heads ? 1 : 0), columns: (part.apart ?? 1) + part.across };
  }
  if ("room" in part) return { rows: part.rows, columns: part.columns };
  const rows = part.rows ?? spread(part.formula, part.spills);
  return { rows: rows.length, columns: rows[0]?.length ?? 1 };
}

const linesOf = ({ lines }: List) => (typeof lines === "number" ? lines : lines.length);
const headsOf = (list: List) => (list.headed === false ? 0 : 1);
const widthOf = ({ heading, spills }: List["columns"][number]) =>
  Array.isArray(heading) ? heading.length : (spills?.[1] ?? 1);
const heightOf = ({ label, spills = 1 }: Table["rows"][number]) =>
  Math.max(spills, Array.isArray(label) ? label.length : 1);

function bodyOf(list: List, place: Place): Place {
  const heads = headsOf(list);
  return {
    ...place,
    row: place.row + heads,
    rows: list.reach ?? linesOf(list),
    lies: "down",
    ...(heads && { head: place.row }),
  };
}

function tableBody(table: Table, place: Place): Place {
  const heads = table.heads ? 1 : 0;
  return { ...place, row: place.row + heads, rows: place.rows - heads };
}

/** The names within a part: fields, columns of a list, rows of a table. */
function addInner(part: Part, place: Place, add: (name: string, place: Place) => void) {
  if ("fields" in part) {
    part.fields.forEach(({ name }, i) => {
      const column = place.column + (part.apart ?? 1);
      if (name) add(name, { row: place.row + i, column, rows: 1, columns: 1 });
    });
  }
  if ("list" in part) {
    let column = place.column;
    const { row, head } = bodyOf(part, place);
    for (const each of part.columns) {
      const at: Place = {
        row,
        column,
        rows: part.reach ?? linesOf(part),
        columns: widthOf(each),
        lies: "down",
        of: part.list,
        ...(typeof part.lines !== "number" && { lines: part.lines }),
      };
      if (each.name) add(`${part.list}.${each.name}`, head === undefined ? at : { ...at, head });
      column += widthOf(each);
    }
  }
  if ("table" in part) {
    let row = place.row + (part.heads ? 1 : 0);
    for (const each of part.rows) {
      const column = place.column + (part.apart ?? 1);
      const at: Place = {
        row,
        column,
        rows: each.spills ?? 1,
        columns: part.across,
        lies: "across",
        of: part.table,
        head: place.column,
      };
      if (each.name) add(`${part.table}.${each.name}`, at);
      row += heightOf(each);
    }
  }
}

/** Writes blocks, with what their formulas name. */
class Pen {
  readonly blocks: Block[] = [];
  constructor(
    private readonly places: Places,
    private readonly others: Others,
    private readonly absent: ReadonlySet<string>,
  ) {}

  write(
    row: number,
    column: number,
    aspects: Aspects,
    look: Block["look"],
    rows: Content[][],
    here: Here | ((line: number, across: number) => Here),
    alone?: string,
  ): void {
    const { format, wraps, words, limits, marks } = aspects;
    const drawn = rows.map((line, i) =>
      line.map((cell, j) =>
        this.drawn(cell, typeof here === "function" ? here(i, j) : here, alone),
      ),
    );
    const drawnFrom = typeof words === "string" ? this.drawn(words, {}) : words;
    const from = typeof drawnFrom === "string" ? drawnFrom.replaceAll("$", "") : drawnFrom;
    this.blocks.push({
      row,
      column,
      look,
      rows: drawn,
      ...(format !== undefined && { format }),
      ...(wraps && { wraps }),
      ...(limits && { limits }),
      ...(marks && { marks }),
      ...(from && typeof from !== "number" && { words: from }),
    });
  }

  /** The formula that draws it, where all the sheets are there, and so its look and the rules on it. */
  filling(of: Filled): { draw?: string; look: Block["look"]; aspects: Aspects } {
    const { draw, formula } = of;
    if (draw !== undefined && isThere(draw, this.others, this.absent))
      return { draw, look: "drawn", aspects: free(of) };
    return { look: of.look ?? (formula === undefined ? "input" : "result"), aspects: of };
  }

  /** The formula in addresses; what it names is there. */
  resolved(formula: string, here: Here): string {
    return resolved(formula, this.places, here, this.others);
  }

  private drawn(cell: Content, here: Here, alone?: string): Content {
    if (typeof cell !== "string" || !/^[={]/.test(cell)) return cell;
    if (isThere(cell, this.others, this.absent)) return this.resolved(cell, here);
    return alone === undefined ? null : this.resolved(alone, here);
  }
}

/** Notes and cautions that stand at the left edge and run on to the right; one with a name stays where it is. */
function isRunning({ text, name, beside, under, skip }: Text): boolean {
  return (text === "note" || text === "caution") && !name && !beside && !under && !skip;
}

function writeText(pen: Pen, part: Text, { row, column }: Place) {
  const rows = part.rows.map((line) => (Array.isArray(line) ? line : [line]));
  pen.write(row, column, {}, part.text, rows, {});
}

function writeFields(pen: Pen, { fields, apart = 1 }: Fields, { row, column }: Place) {
  fields.forEach((field, i) => {
    const { label, demo, formula, note, alone } = field;
    pen.write(row + i, column, {}, "label", [[label]], {});
    const { draw, look, aspects } = pen.filling(field);
    const value = draw ?? formula ?? demo;
    if (value !== undefined)
      pen.write(row + i, column + apart, aspects, look, [[value]], {}, alone);
    const { name, format } = field;
    const said = draw && name ? orTypedOver({ name, format }, draw, note) : note;
    if (said !== undefined) pen.write(row + i, column + apart + 1, {}, "note", [[said]], {});
  });
}

/** A drawn cell may hold words of ours in place of a number; but names are offered to pick another one over it. */
function free({ format, marks, words }: Aspects): Aspects {
  return {
    ...(format !== undefined && { format }),
    ...(marks && { marks }),
    ...(typeof words === "string" && words.includes("!") && { words }),
  };
}

/** What is said of a drawn field: that it is typed over, or else its own note. */
function orTypedOver(field: Drawn, draw: string, note?: string): string {
  return `=IF({${field.name}}=(${draw.slice(1)}),${asOperand(note)},${whatIsDrawn(field, draw)})`;
}

type Drawn = { name: string; format?: string | undefined };

function whatIsDrawn({ format }: Drawn, draw: string): string {
  return `"typed over: "&${inWords(draw.slice(1), format)}`;
}

/** Words for what a cell would show if it were not typed over. */
function inWords(drawn: string, format = ""): string {
  // The form of what is above zero.
  const [form] = format.split(";");
  const shown = form ? `TEXT(${drawn},${quote(form)})` : drawn;
  return `IF((${drawn})="","nothing",${shown})&" is drawn"`;
}

/** A note as part of a formula. */
function asOperand(note = ""): string {
  return note.startsWith("=") ? note.slice(1) : quote(note);
}

const quote = (text: string) => `"${text.replaceAll('"', '""')}"`;

/**
 * The formula of the column that says what is typed over in a line; and what is drawn, where that stands in a
 * cell of its own: a longer formula would not fit in twice.
 */
function typedOver(pen: Pen, list: List): string {
  const over = list.columns.flatMap(({ name, heading, draw, format }) => {
    const drawn = pen.filling({ draw }).draw?.slice(1);
    if (!name || !drawn) return [];
    const isCell = /^\{[\w.:]+\}$/.test(drawn);
    const said = isCell
      ? `"${String(heading)}: "&${inWords(drawn, format)}`
      : `"${String(heading)}"`;
    return [`IF({${name}}=(${drawn}),"",${said})`];
  });
  return over.length === 0 ? '=""' : `=TEXTJOIN("; ",TRUE,${over.join(",")})`;
}

function writeList(pen: Pen, list: List, body: Place) {
  let column = body.column;
  for (const each of list.columns) {
    const width = widthOf(each);
    const named = Array.isArray(each.heading) ? each.heading : [each.heading ?? null];
    const heads = Array.from({ length: width }, (_, i) => named[i] ?? null);
    const at = (line: number, across: number): Here =>
      Array.isArray(each.heading) ? { of: list.list, line, across } : { of: list.list, line };
    if (body.head !== undefined && each.heading !== undefined) {
      const { headLook = "heading", headFormat } = each;
      pen.write(
        body.head,
        column,
        headFormat ? { format: headFormat } : {},
        headLook,
        [heads],
        (_, j) => at(0, j),
      );
    }
    const own = each.over ? typedOver(pen, list) : each.formula;
    const { draw, look, aspects } = pen.filling({ ...each, formula: own });
    const formula = draw ?? own;
    if (formula !== undefined || each.demo) {
      const lines = linesOf(list);
      const rows = Array.from({ length: lines }, (_, i) => lineOf(each, formula, i, width));
      const known = each.own === undefined ? 0 : lines - each.own;
      if (known > 0) pen.write(body.row, column, free(aspects), look, rows.slice(0, known), at);
      pen.write(
        body.row + known,
        column,
        aspects,
        known > 0 ? "input" : look,
        rows.slice(known),
        (line, across) => at(known + line, across),
        each.alone,
      );
    }
    column += width;
  }
  if (list.end !== undefined) writeEnd(pen, list, body, list.end);
}

/** Where the first formula would stand if the list had one more line: what is typed left of it is not counted. */
function writeEnd(pen: Pen, { columns }: List, { row, column, rows }: Place, says: string) {
  const before = columns.slice(
    0,
    columns.findIndex(({ formula }) => formula !== undefined),
  );
  const across = before.map(widthOf).reduce((a, b) => a + b, 0);
  const under = row + rows;
  const typed = `${cellName(under, column)}:${cellName(under, column + across - 1)}`;
  const formula = `=IF(COUNTA(${typed})=0,"",${quote(says)})`;
  pen.write(under, column + across, {}, "caution", [[formula]], {});
}

/** A line of a column: what the demo types, or the formula where its answer begins. */
function lineOf(
  { demo, spills, heading }: List["columns"][number],
  formula: string | undefined,
  line: number,
  width: number,
): Content[] {
  if (formula === undefined) {
    const typed = demo?.[line] ?? null;
    const cells = Array.isArray(typed) ? typed : [typed];
    return Array.from({ length: width }, (_, j) => cells[j] ?? null);
  }
  const [down, across] = spills ?? [1, 1];
  const isAlike = Array.isArray(heading) && !spills;
  return Array.from({ length: width }, (_, j) =>
    line % down > 0 || (j % across > 0 && !isAlike) ? null : formula,
  );
}

function writeTable(pen: Pen, table: Table, body: Place) {
  const { apart = 1, across } = table;
  const left = body.column + apart;
  if (table.heads)
    pen.write(body.row - 1, body.column, {}, "heading", [table.heads], (_, j) => {
      return { of: table.table, across: j - apart };
    });
  let row = body.row;
  for (const each of table.rows) {
    const { label, demo, formula, spills = 1, alone, note, name, format } = each;
    const labels = Array.isArray(label) ? label : label === undefined ? [] : [label];
    if (labels.length > 0)
      pen.write(
        row,
        body.column,
        {},
        "label",
        labels.map((text) => [text]),
        {},
      );
    const { draw, look, aspects } = pen.filling(each);
    const at = (_: number, j: number): Here => ({ of: table.table, across: j, line: j });
    if (formula !== undefined && each.spills) {
      const rows = Array.from({ length: spills }, (_, i) =>
        Array.from({ length: across }, (_, j) => (i + j === 0 ? formula : null)),
      );
      pen.write(row, left, aspects, look, rows, at, alone);
    } else if (formula !== undefined || demo || draw) {
      const cells = Array.from({ length: across }, (_, j) => draw ?? formula ?? demo?.[j] ?? null);
      pen.write(row, left, aspects, look, [cells], at, alone);
    }
    const said =
      table.over && draw && name ? overInRow(pen, table, { name, format }, draw, note) : note;
    if (said !== undefined) pen.write(row, left + across, {}, "note", [[said]], {});
    row += heightOf(each);
  }
}

/** What is said right of a drawn row: which of its cells are typed over, and its own note. */
function overInRow(pen: Pen, table: Table, row: Drawn, draw: string, note?: string): string {
  const { apart = 1, across, heads = [] } = table;
  const over = Array.from({ length: across }, (_, j) => {
    const here = { of: table.table, across: j };
    const said = `=IF({${row.name}}=(${draw.slice(1)}),"",${asOperand(String(heads[apart + j] ?? ""))}&" "&${whatIsDrawn(row, draw)})`;
    return pen.resolved(said, here).slice(1);
  });
  return `=TEXTJOIN("; ",TRUE,${[...over, asOperand(note)].join(",")})`;
}

function spread(formula = "", [rows, columns]: readonly [number, number] = [1, 1]): Content[][] {
  return Array.from({ length: rows }, (_, i) =>
    Array.from({ length: columns }, (_, j) => (i + j === 0 ? formula : null)),
  );
}
