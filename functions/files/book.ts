/** What a workbook's file says of its sheets, names and tables. */
import { parseStructRef } from "@borgar/fx/xlsx";
import type { Spread } from "../native/given.ts";
import { readFormula } from "../formula/reader.ts";
import { shapeOfFormula, sizeOfRange } from "./native-formula.ts";
import {
  type Element,
  type Package,
  allNamed,
  childNamed,
  childrenNamed,
  elements,
  theChild,
} from "./package.ts";

export interface Sheet {
  name: string;
  path: string;
}

interface ListTable {
  rows: number;
  heads: number;
  totals: number;
  columns: string[];
}

export class Book {
  readonly path: string;
  readonly root: Element;
  readonly sheets: Sheet[];
  readonly names: Element[];
  private readonly tables = new Map<string, ListTable>();

  constructor(readonly file: Package) {
    const [start] = file.relations("").filter(({ type }) => type === "officeDocument");
    if (!start || !file.has(start.path))
      throw new Error("this is not an .xlsx workbook: it has no sheets");
    this.path = start.path;
    this.root = file.root(this.path);
    const paths = new Map(file.relations(this.path).map(({ id, path }) => [id, path]));
    this.sheets = elements(theChild(this.root, "sheets")).flatMap((sheet) => {
      const path = paths.get(relationId(sheet));
      const isCells = path && file.has(path) && file.root(path).localName === "worksheet";
      return isCells ? [{ name: sheet.getAttribute("name") ?? "", path }] : [];
    });
    const names = childNamed(this.root, "definedNames");
    this.names = names ? childrenNamed(names, "definedName") : [];
    for (const sheet of this.sheets) this.readTables(sheet.path);
  }

  get sheetNames(): string[] {
    return elements(theChild(this.root, "sheets")).map((each) => each.getAttribute("name") ?? "");
  }

  /** The paths of the tables on a sheet. */
  tablesOf(sheet: string): string[] {
    return this.file
      .relations(sheet)
      .filter(({ type }) => type === "table")
      .map(({ path }) => path);
  }

  /** The size of a name, a table or a part of one, as far as the file says. */
  sizeOf(reference: string): Spread | null {
    const table = this.tables.get(reference.toLowerCase());
    if (table) return { rows: bodyOf(table), columns: table.columns.length };
    if (reference.includes("[")) return this.sizeInTable(reference);
    const plain = reference.replace(/^.*!/, "").toLowerCase();
    const named = this.names.filter((each) => each.getAttribute("name")?.toLowerCase() === plain);
    const formula = named[0]?.textContent;
    // One name may stand for several things on several sheets.
    if (!formula || named.length > 1) return null;
    if (/^[^()]*$/.test(formula)) {
      const size = sizeOfRange(formula);
      if (size) return size;
    }
    try {
      // A name that leads back to itself has no size.
      return shapeOfFormula(readFormula(formula), (inner) =>
        inner === reference ? null : this.sizeOf(inner),
      );
    } catch {
      return null;
    }
  }

  private sizeInTable(reference: string): Spread | null {
    const found = parseStructRef(reference);
    const table = found?.table && this.tables.get(found.table.toLowerCase());
    if (!found || !table) return null;
    const place = (column: string) =>
      table.columns.findIndex((each) => each === column.toLowerCase());
    const [first, last = first] = (found.columns ?? []).map(place);
    if (first === -1 || last === -1) return null;
    const columns =
      first === undefined || last === undefined ? table.columns.length : Math.abs(last - first) + 1;
    const sections = found.sections ?? [];
    if (sections.includes("this row")) return { rows: 1, columns };
    if (sections.includes("all")) return { rows: table.rows, columns };
    const heads = sections.includes("headers") ? table.heads : 0;
    const totals = sections.includes("totals") ? table.totals : 0;
    const isBody = sections.length === 0 || sections.includes("data");
    return { rows: (isBody ? bodyOf(table) : 0) + heads + totals, columns };
  }

  private readTables(sheet: string) {
    for (const path of this.tablesOf(sheet)) {
      const root = this.file.root(path);
      const size = sizeOfRange(root.getAttribute("ref") ?? "");
      const name = root.getAttribute("displayName") ?? root.getAttribute("name");
      if (!size || !name) continue;
      this.tables.set(name.toLowerCase(), {
        rows: size.rows,
        heads: Number(root.getAttribute("headerRowCount") ?? 1),
        totals: Number(root.getAttribute("totalsRowCount") ?? 0),
        columns: allNamed(root, "tableColumn").map((each) =>
          (each.getAttribute("name") ?? "").toLowerCase(),
        ),
      });
    }
  }
}

function bodyOf({ rows, heads, totals }: ListTable): number {
  return rows - heads - totals;
}

/** The r:id of an element, whatever the prefix. */
export function relationId(element: Element): string {
  const found = Array.from(element.attributes).find(
    ({ localName, namespaceURI }) => localName === "id" && namespaceURI?.endsWith("/relationships"),
  );
  return found?.value ?? "";
}
