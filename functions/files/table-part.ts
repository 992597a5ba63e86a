/**
 * A table as its own part of a file has it: where it stands, its columns, and those names in
 * formulas.
 */
import { parseStructRef, stringifyStructRef, tokenize } from "@borgar/fx/xlsx";
import { cellName, readCellName } from "../formula/addresses.ts";
import { attributesOf } from "./source.ts";
import { type Texts, elementsOf, mapTexts, withAttributes } from "./texts.ts";

export interface TablePart {
  name: string;
  ref: string;
  /** Rows of headings and of totals. */
  heads: number;
  totals: number;
  /** The names of its columns, each with the cell of its heading. */
  columns: { name: string; cell: string }[];
  /** It is filled by a query, which has a list of the columns of its own. */
  isQuery: boolean;
}

export function tableIn(xml: string): TablePart {
  const head = attributesOf(/<(?:\w+:)?table\b[^>]*>/.exec(xml)?.[0] ?? "");
  const { ref = "", displayName = "", headerRowCount = "1", totalsRowCount = "0" } = head;
  const [first = ""] = ref.split(":");
  const corner = readCellName(first);
  const columns = [...xml.matchAll(elementsOf("tableColumn"))].map(([, , attributes = ""], i) => ({
    name: (attributesOf(attributes).name ?? "").replace(/_x([0-9a-f]{4})_/gi, (_, code: string) =>
      String.fromCharCode(parseInt(code, 16)),
    ),
    cell: cellName(corner.row, corner.column + i),
  }));
  return {
    name: displayName,
    ref,
    heads: Number(headerRowCount),
    totals: Number(totalsRowCount),
    columns,
    isQuery: head.tableType === "queryTable",
  };
}

/** Gives columns other names, in the table and in the formulas of the workbook that call them. */
export function renameColumns(texts: Texts, path: string, all: ReadonlyMap<string, string>): void {
  const names = new Map([...all].filter(([from, to]) => from !== to));
  if (names.size === 0) return;
  const { name: table, columns } = tableIn(texts.text(path));
  let at = -1;
  texts.change(path, (xml) =>
    xml.replace(/<(?:\w+:)?tableColumn\s[^>]*>/g, (mark) => {
      const name = names.get(columns[++at]?.name ?? "")?.replaceAll("\n", "_x000a_");
      const end = /\s*\/?>$/.exec(mark)?.[0] ?? ">";
      return name === undefined ? mark : withAttributes(mark.slice(0, -end.length), { name }) + end;
    }),
  );
  const follow = (formula: string, isWithin: boolean) => renamedIn(formula, table, names, isWithin);
  for (const other of texts.paths(/\/(?:worksheets|tables|charts)\/[^/]+\.xml$|\/workbook\.xml$/i))
    texts.change(other, (xml) =>
      xml.includes("[")
        ? mapTexts(xml, FORMULAS, (formula) => follow(formula, other === path))
        : xml,
    );
}

const FORMULAS = "f|formula|formula1|formula2|calculatedColumnFormula|totalsRowFormula|definedName";

function renamedIn(
  formula: string,
  table: string,
  names: ReadonlyMap<string, string>,
  isWithin: boolean,
): string {
  if (!formula.includes("[")) return formula;
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) => {
      const found = type === "structured" ? parseStructRef(value) : undefined;
      if (!found) return value;
      const { table: called = "", columns = [] } = found;
      const isThis = called ? called.toLowerCase() === table.toLowerCase() : isWithin;
      if (!isThis || !columns.some((column) => names.has(column))) return value;
      const renamed = columns.map((column) => names.get(column) ?? column);
      return stringifyStructRef({ ...found, columns: renamed }, { thisRow: true });
    })
    .join("");
}
