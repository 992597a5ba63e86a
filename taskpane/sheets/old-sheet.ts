/** A sheet as it stands beside what its template has by now: what it lacks, and what of that can be added to it. */
import { most } from "./most.ts";
import type { Placed, Workbook } from "../host/workbook.ts";
import { type Drawing, type DrawnCell, isWithin } from "./drawing.ts";
import { placesOf } from "./lay.ts";
import {
  type Named,
  type Other,
  type Others,
  type Place,
  isThere,
  namesIn,
  resolved,
} from "./names.ts";
import { type Column, type List, type Part, membersOf } from "./parts.ts";

/** What a template says of a name. */
interface Said {
  /** Its heading, or its label. */
  what: string;
  formula?: string | undefined;
  /** The formula where a sheet is not there that it draws from. */
  alone?: string | undefined;
  list?: List;
  column?: Column;
}

/** The room right of a list. */
interface Room {
  head: number;
  left: number;
  right: number;
  /** Lines that have formulas. */
  lines: number;
  isFree: boolean;
  /** A heading that no version has: a column may have been given another one. */
  isRenamed: boolean;
}

/** So many columns are looked through for the right end of a list. */
const COLUMNS = 200;

export class OldSheet {
  /** What is there, and what is added. */
  readonly places: Map<string, Place>;
  readonly sheet: string;
  private readonly said: Map<string, Said>;
  private readonly drawn: ReadonlyMap<string, Place>;
  private readonly rooms = new Map<string, Room>();
  private readonly lost = new Set<string>();
  private readonly added: string[] = [];

  constructor(parts: readonly Part[], { sheet, places }: Other) {
    this.sheet = sheet;
    this.places = new Map(places);
    this.drawn = placesOf(parts);
    this.said = new Map(parts.flatMap(saidIn));
  }

  lacksAny(): boolean {
    return [...this.said.keys()].some((name) => !this.places.has(name));
  }

  /** Looks at what the places alone do not tell. */
  async look(workbook: Workbook, formulas: readonly Placed[]): Promise<void> {
    const own = formulas.filter(({ spot }) => spot.sheet === this.sheet);
    const broken = own.filter(({ formula }) => formula.includes("#REF"));
    for (const [name, { formula }] of this.said) {
      const place = this.places.get(name);
      if (formula && place && broken.some(({ spot }) => isWithin(spot, place))) this.lost.add(name);
    }
    const lists = new Set([...this.said.values()].flatMap(({ list }) => list ?? []));
    for (const list of lists) {
      const room = await this.roomOf(workbook, list, own);
      if (room) this.rooms.set(list.list, room);
    }
  }

  private async roomOf(workbook: Workbook, { list, columns, lines }: List, own: readonly Placed[]) {
    const found = [...this.places.values()].filter((place) => place.of === list);
    const missing = columns.filter(({ name }) => name && !this.places.has(`${list}.${name}`));
    const head = found[0]?.head;
    if (head === undefined || missing.length === 0) return undefined;
    const [headings = []] = await workbook.read(
      { sheet: this.sheet, row: head, column: 0 },
      1,
      COLUMNS,
    );
    const left = Math.min(...found.map(({ column }) => column));
    let right = Math.max(...found.map((place) => place.column + place.columns));
    while ((headings[right] ?? "") !== "") right++;
    const known = new Set<unknown>(columns.flatMap(({ heading }) => heading));
    const within = ({ spot }: Placed) => found.some((place) => isWithin(spot, place));
    const reached = most(own.filter(within), ({ spot }) => spot.row - head);
    const count = reached > 0 ? reached : typeof lines === "number" ? lines : 0;
    const spot = { sheet: this.sheet, row: head, column: right };
    const filled = await workbook.firstFilled(spot, count + 1, missing.length);
    return {
      head,
      left,
      right,
      lines: count,
      isFree: filled === null,
      isRenamed: headings
        .slice(left, right)
        .some((text) => text !== null && text !== "" && !known.has(text)),
    };
  }

  has = (name: string): boolean => this.places.has(name);
  /** Whether its formulas lead to what was taken out. */
  isLost = (name: string): boolean => this.lost.has(name);
  isKnown = (name: string): boolean => this.said.has(name);
  whatOf = (name: string): string => this.said.get(name)?.what ?? name;

  /** Whether it is worked out, and may be added without a doubt. */
  canBeAdded(name: string): boolean {
    const { list, column } = this.said.get(name) ?? {};
    if (!list || !column?.formula || column.draw || column.own || column.over) return false;
    if (Array.isArray(column.heading) || column.spills) return false;
    const room = this.rooms.get(list.list);
    return room !== undefined && (column.hidden === true || !room.isRenamed);
  }

  hasRoom(name: string): boolean {
    return this.rooms.get(this.said.get(name)?.list?.list ?? "")?.isFree ?? false;
  }

  /** The names in its formula, as they are on its sheet. */
  namesOf(name: string, others: Others): Named[] {
    const said = this.said.get(name);
    if (!said?.formula) return [];
    const { formula, alone = "", list } = said;
    const full = (short: string) => {
      const own = `${list?.list ?? ""}.${short}`;
      return this.said.has(own) ? own : short;
    };
    return namesIn(isThere(formula, others) ? formula : alone).map((each) =>
      each.title ? each : { ...each, name: full(each.name) },
    );
  }

  add(name: string): void {
    const { list } = this.said.get(name) ?? {};
    const room = this.rooms.get(list?.list ?? "");
    const drawn = this.drawn.get(name);
    if (this.places.has(name) || !room || !drawn) return;
    const { head, right } = room;
    this.places.set(name, { ...drawn, head, row: head + 1, column: right });
    this.added.push(name);
    room.right++;
  }

  /** What is added, as a drawing on the sheet; null where nothing is. */
  drawing(others: Others): Drawing | null {
    if (this.added.length === 0) return null;
    const columns = this.added.flatMap((name) => {
      const { list, column } = this.said.get(name) ?? {};
      const room = this.rooms.get(list?.list ?? "");
      const place = this.places.get(name);
      return list && column && room && place ? [{ list, column, room, place }] : [];
    });
    const cells = columns.flatMap(({ list, column, room, place }): DrawnCell[] => {
      const { heading = null, headLook = "heading", look = "result", format } = column;
      const head = { row: room.head, column: place.column, look: headLook };
      const formula = isThere(column.formula ?? "", others) ? column.formula : column.alone;
      return [
        { ...head, content: Array.isArray(heading) ? null : heading },
        ...Array.from({ length: room.lines }, (_, line) => ({
          row: place.row + line,
          column: place.column,
          content: formula ? resolved(formula, this.places, { of: list.list, line }, others) : null,
          look,
          ...(format !== undefined && { format }),
        })),
      ];
    });
    const lists = new Map(columns.map(({ list, room }) => [list, room]));
    return {
      rows: most(cells, ({ row }) => row + 1),
      columns: most(cells, ({ column }) => column + 1),
      cells,
      rules: [],
      marks: columns.flatMap(({ column: { marks = [] }, room, place: { row, column } }) =>
        marks.map((mark) => ({ row, column, rows: room.lines, columns: 1, ...mark })),
      ),
      charts: [],
      widths: [],
      hidden: columns.flatMap(({ column, place }) => (column.hidden ? [place.column] : [])),
      lists: [...lists].map(([list, { head, left, right, lines }]) => {
        const area = { row: head, column: left, rows: lines + 1, columns: right - left };
        return { name: list.list, ...area, reach: list.reach ?? lines };
      }),
    };
  }
}

/** What a part says of its names. */
function saidIn(part: Part): [name: string, Said][] {
  return membersOf(part).flatMap(({ name, label, cell, column }) => {
    const { draw, formula = draw, alone } = cell;
    const what = String(Array.isArray(label) ? label[0] : (label ?? ""));
    return name ? [[name, { what, formula, alone, ...column }]] : [];
  });
}
