/**
 * A table's part after rows or columns were put in or taken out. What it cannot follow costs it its
 * name, and is told.
 */
import { readCellName } from "../formula/addresses.ts";
import { type Edit, shiftIndex, shiftRange } from "./shift.ts";
import { attributesOf } from "./source.ts";
import { type TablePart, tableIn } from "./table-part.ts";
import { type Texts, elementsOf, withAttributes } from "./texts.ts";

export function moveTable(
  texts: Texts,
  sheet: string,
  name: string,
  path: string,
  edit: Edit,
): string[] {
  const table = tableIn(texts.text(path));
  const moved = shiftRange(table.ref, edit);
  const trouble = moved === null ? "" : troubleOf(table, moved, edit);
  if (moved !== null && trouble === undefined) {
    texts.change(path, (xml) => followed(xml, table, moved, edit));
    return [];
  }
  const id = texts.relations(sheet).find(({ target }) => target === path)?.id;
  texts.change(sheet, (text) => withoutTable(text, id));
  texts.remove(path, sheet);
  // A table that is taken out with all its cells is no loss to tell of.
  if (moved === null) return [];
  return [
    `The table ${table.name} of "${name}" loses its name and its look: ${trouble}. Formulas that call it by its name get its cells.`,
  ];
}

/** Why a table cannot follow; undefined where it can. */
function troubleOf(table: TablePart, moved: string, edit: Edit): string | undefined {
  const [was, is] = [boundsOf(table.ref), boundsOf(moved)];
  if (edit.dimension === "row") {
    if (table.heads > 0 && edit.remove?.includes(was.top)) return "its heading was taken out";
    const lines = is.bottom - is.top + 1 - table.heads - totalsLeft(table, edit);
    // One without totals gets a line from below its heading.
    return lines < 1 && totalsLeft(table, edit) > 0 ? "its lines were taken out" : undefined;
  }
  const isOther = is.right - is.left !== was.right - was.left;
  return table.isQuery && isOther ? "its columns are those of a query" : undefined;
}

function totalsLeft({ ref, totals }: TablePart, edit: Edit): number {
  const isGone = edit.dimension === "row" && edit.remove?.includes(boundsOf(ref).bottom);
  return isGone ? 0 : totals;
}

function followed(xml: string, table: TablePart, moved: string, edit: Edit): string {
  const totals = totalsLeft(table, edit);
  const { top, bottom } = boundsOf(moved);
  const isBare = bottom - top + 1 - table.heads - totals < 1;
  const placed = withFilters(xml, edit).replace(
    /(<(?:\w+:)?(?:table|autoFilter|sortState|sortCondition)\b[^>]*?\sref=")([^"]*)"/g,
    (_, open: string, range: string) => {
      const follows = shiftRange(range, edit);
      return `${open}${follows === moved && isBare ? oneLonger(follows) : (follows ?? "")}"`;
    },
  );
  const counted = withoutLostOrder(placed).replace(/<(?:\w+:)?table\b[^>]*>/, (mark) =>
    totals === table.totals
      ? mark
      : `${withAttributes(mark.slice(0, -1), { totalsRowCount: undefined, totalsRowShown: "0" })}>`,
  );
  return edit.dimension === "column" ? withColumns(counted, table, edit) : counted;
}

function oneLonger(range: string): string {
  return range.replace(/\d+$/, (row) => String(Number(row) + 1));
}

/** The columns that are left, and new ones by names that no other has. */
function withColumns(xml: string, { ref, columns }: TablePart, edit: Edit): string {
  const { left } = boundsOf(ref);
  const marks = [...xml.matchAll(elementsOf("tableColumn"))];
  const kept = marks.flatMap(([mark], i) => (shiftIndex(left + i, edit) === null ? [] : [mark]));
  const at = (edit.at ?? 0) - left;
  if (edit.add && at > 0 && at < marks.length) {
    const [, tag = "tableColumn"] = marks[0] ?? [];
    const ids = marks.map(([, , attributes = ""]) => Number(attributesOf(attributes).id));
    const names = freeNames(
      columns.map(({ name }) => name),
      edit.add,
    );
    const made = names.map(
      (name, i) => `<${tag} id="${Math.max(0, ...ids) + 1 + i}" name="${name}"/>`,
    );
    kept.splice(at, 0, ...made);
  }
  return xml.replace(
    elementsOf("tableColumns"),
    (_, mark: string, attributes: string) =>
      `<${mark}${withAttributes(attributes, { count: String(kept.length) })}>${kept.join("")}</${mark}>`,
  );
}

function freeNames(taken: readonly string[], count: number): string[] {
  const known = new Set(taken.map((name) => name.toLowerCase()));
  const names: string[] = [];
  for (let n = 1; names.length < count; n++) if (!known.has(`column${n}`)) names.push(`Column${n}`);
  return names;
}

/** Filters by columns, which they call by number; those of columns that are gone go. */
export function withFilters(xml: string, edit: Edit): string {
  if (edit.dimension === "row") return xml;
  return xml.replace(
    elementsOf("autoFilter"),
    (_, mark: string, attributes: string, inside: string = "") => {
      const { ref = "" } = attributesOf(attributes);
      const before = boundsOf(ref).left;
      const now = boundsOf(shiftRange(ref, edit) ?? ref).left;
      const columns = inside.replace(
        elementsOf("filterColumn"),
        (whole: string, tag: string, own: string) => {
          const column = shiftIndex(before + Number(attributesOf(own).colId), edit);
          if (column === null) return "";
          const open = `<${tag}${withAttributes(own, { colId: String(column - now) })}`;
          return open + whole.slice(`<${tag}${own}`.length);
        },
      );
      return `<${mark}${attributes}${columns === "" ? "/>" : `>${columns}</${mark}>`}`;
    },
  );
}

/** An order by a column that is gone goes. */
export function withoutLostOrder(xml: string): string {
  return xml.replace(elementsOf("sortState"), (whole: string) =>
    /\sref=""/.test(whole) ? "" : whole,
  );
}

function withoutTable(xml: string, id: string | undefined): string {
  return xml.replace(
    elementsOf("tableParts"),
    (_: string, mark: string, attributes: string, inside: string = "") => {
      const parts = inside.replace(elementsOf("tablePart"), (part: string, __, own: string) =>
        Object.entries(attributesOf(own)).some(([key, value]) => /:id$/.test(key) && value === id)
          ? ""
          : part,
      );
      const count = parts.match(/tablePart\b/g)?.length ?? 0;
      if (count === 0) return "";
      return `<${mark}${withAttributes(attributes, { count: String(count) })}>${parts}</${mark}>`;
    },
  );
}

function boundsOf(range: string) {
  const [first = "", last = first] = range.split(":");
  const [from, to] = [readCellName(first), readCellName(last)];
  return { top: from.row, left: from.column, bottom: to.row, right: to.column };
}
