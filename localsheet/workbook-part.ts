/** The workbook's own part of a file: its sheets in their order, its names. */
import { escaped } from "../functions/files/package.ts";
import { attributesOf } from "../functions/files/source.ts";
import { type Texts, elementsOf, withAttributes } from "../functions/files/texts.ts";

export interface BookRoot {
  sheets: { name: string; path: string; isVisible: boolean }[];
  /** The names of ranges before and now. */
  names: [[string, string][], [string, string][]];
  recalculates: boolean;
}

export function writeWorkbook(texts: Texts, book: BookRoot): void {
  const path = texts.workbook;
  const before = texts.text(path);
  const listed = withSheets(texts, before, book);
  const named = withNames(listed, book.names);
  texts.write(path, book.recalculates ? recalculating(named) : named);
}

function withSheets(texts: Texts, xml: string, book: BookRoot): string {
  const list = elementsOf("sheets").exec(xml);
  if (!list) throw new Error("the workbook lacks its list of sheets");
  const targets = new Map(texts.relations(texts.workbook).map((each) => [each.id, each]));
  const marks = [...list[0].matchAll(/<(?:\w+:)?sheet\s[^>]*?\/?>(?:\s*<\/(?:\w+:)?sheet>)?/g)].map(
    ([mark]) => {
      const attributes = attributesOf(mark);
      const target = targets.get(relationOf(attributes));
      return {
        mark,
        name: attributes.name,
        isCells: target?.type === "worksheet",
        path: target?.target ?? "",
        id: Number(attributes.sheetId),
      };
    },
  );
  const kept = book.sheets.map((sheet) =>
    marks.find(({ name, isCells }) => isCells && name === sheet.name),
  );
  let id = Math.max(0, ...marks.map((each) => each.id));
  const [whole, tag = "sheets"] = list;
  const placed = book.sheets.map((sheet, i) => {
    const known = kept[i];
    const mark = known ? shown(known.mark, sheet.isVisible) : newMark(texts, xml, tag, sheet, ++id);
    return { mark, was: known ? marks.indexOf(known) : -1 };
  });
  // Sheets of one chart are not seen here: each stays behind the tab that it stood behind.
  marks.forEach(({ mark, isCells }, was) => {
    if (isCells) return;
    const before = placed.reduce(
      (last, each) => (each.was < was ? Math.max(last, each.was) : last),
      -1,
    );
    const at = before < 0 ? -1 : placed.findIndex((each) => each.was === before);
    placed.splice(at + 1, 0, { mark, was });
  });
  const gone = marks.filter((each) => each.isCells && !kept.includes(each));
  const order = placed.map((each) => each.was);
  const lines = placed.map((each) => each.mark);
  const isSame = lines.length === marks.length && lines.every((line, i) => line === marks[i]?.mark);
  if (isSame) return xml;
  for (const { path } of gone) texts.removeWhole(path, texts.workbook);
  const written = xml.replace(whole, () => `<${tag}>${lines.join("")}</${tag}>`);
  return reordered(written, order);
}

function relationOf(attributes: Record<string, string>): string {
  return Object.entries(attributes).find(([name]) => /^\w+:id$/.test(name))?.[1] ?? "";
}

function shown(mark: string, isVisible: boolean): string {
  const { state = "visible" } = attributesOf(mark);
  if ((state === "visible") === isVisible) return mark;
  const end = /\s*\/?>$/.exec(mark)?.[0] ?? "/>";
  return (
    withAttributes(mark.slice(0, -end.length), { state: isVisible ? undefined : "hidden" }) + end
  );
}

function newMark(
  texts: Texts,
  xml: string,
  list: string,
  sheet: BookRoot["sheets"][number],
  id: number,
): string {
  const relation = texts.relate(texts.workbook, "worksheet", sheet.path);
  const root = /<(?:\w+:)?workbook\b[^>]*>/.exec(xml)?.[0] ?? "";
  const namespace = /xmlns:(\w+)="[^"]*officeDocument(?:\/2006)?\/relationships"/.exec(root)?.[1];
  const own = namespace ? `${namespace}:id` : "r:id";
  const declared = namespace
    ? ""
    : ' xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"';
  const state = sheet.isVisible ? "" : ' state="hidden"';
  return `<${list.replace(/sheets$/, "sheet")} name="${escaped(sheet.name)}" sheetId="${id}"${state}${declared} ${own}="${relation}"/>`;
}

/** Numbers of tabs, in names of one sheet and in what was last seen; a name of a sheet that is gone goes. */
function reordered(xml: string, order: number[]): string {
  const names = xml.replace(
    elementsOf("definedName"),
    (whole: string, mark: string, attributes: string) => {
      const { localSheetId } = attributesOf(attributes);
      if (localSheetId === undefined) return whole;
      const now = order.indexOf(Number(localSheetId));
      if (now < 0) return "";
      return (
        `<${mark}${withAttributes(attributes, { localSheetId: String(now) })}` +
        whole.slice(`<${mark}${attributes}`.length)
      );
    },
  );
  const lists = names.replace(
    elementsOf("definedNames"),
    (whole: string, _, __, inside: string = "") =>
      /<(?:\w+:)?definedName\b/.test(inside) ? whole : "",
  );
  return lists.replace(
    /(\s(?:activeTab|firstSheet)=")(\d+)"/g,
    (_, open: string, tab: string) => `${open}${Math.max(0, order.indexOf(Number(tab)))}"`,
  );
}

function withNames(xml: string, [before, now]: BookRoot["names"]): string {
  const [was, is] = [new Map(before), new Map(now)];
  const other = [...new Set([...was.keys(), ...is.keys()])].filter(
    (name) => was.get(name) !== is.get(name),
  );
  if (other.length === 0) return xml;
  const left = xml.replace(elementsOf("definedName"), (whole: string, _, attributes: string) => {
    const { name = "", localSheetId } = attributesOf(attributes);
    return localSheetId === undefined && other.includes(name) ? "" : whole;
  });
  const prefix = /<((?:\w+:)?)workbook\b/.exec(xml)?.[1] ?? "";
  const lines = other.flatMap((name) => {
    const reference = is.get(name);
    return reference === undefined
      ? []
      : [
          `<${prefix}definedName name="${escaped(name)}">${escaped(reference)}</${prefix}definedName>`,
        ];
  });
  const list = elementsOf("definedNames").exec(left);
  const inside = (list?.[3] ?? "") + lines.join("");
  const made = /definedName\b/.test(inside)
    ? `<${prefix}definedNames>${inside}</${prefix}definedNames>`
    : "";
  return list ? left.replace(list[0], () => made) : placedBefore(left, AFTER_NAMES, made);
}

const AFTER_CALC =
  "oleSize|customWorkbookViews|pivotCaches|smartTagPr|smartTagTypes|webPublishing|fileRecoveryPr|webPublishObjects|extLst";
const AFTER_NAMES = `calcPr|${AFTER_CALC}`;

function placedBefore(xml: string, later: string, made: string): string {
  const from = /<\/(?:\w+:)?sheets>/.exec(xml)?.index ?? 0;
  const rest = xml.slice(from);
  const at =
    new RegExp(`<(?:\\w+:)?(?:${later})[\\s/>]|</(?:\\w+:)?workbook>`).exec(rest)?.index ??
    rest.length;
  return xml.slice(0, from) + rest.slice(0, at) + made + rest.slice(at);
}

/** Asks the program that opens it to work everything out anew. */
function recalculating(xml: string): string {
  const known = elementsOf("calcPr").exec(xml);
  if (known) {
    const [whole, mark = "", attributes = ""] = known;
    const made = `<${mark}${withAttributes(attributes, { fullCalcOnLoad: "1" })}/>`;
    return xml.replace(whole, () => made);
  }
  const prefix = /<((?:\w+:)?)workbook\b/.exec(xml)?.[1] ?? "";
  return placedBefore(xml, AFTER_CALC, `<${prefix}calcPr calcId="0" fullCalcOnLoad="1"/>`);
}
