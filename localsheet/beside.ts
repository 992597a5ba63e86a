/** What a sheet has beside its cells, written from a fresh file of the workbook into the one that was opened. */
import { cellsIn } from "../functions/files/cells.ts";
import { escaped } from "../functions/files/package.ts";
import { putElement } from "../functions/files/patch-sheet.ts";
import { attributesOf } from "../functions/files/source.ts";
import type { StyleBook } from "../functions/files/style-book.ts";
import { tableIn } from "../functions/files/table-part.ts";
import { readCellName } from "../functions/formula/addresses.ts";
import { relationsOf } from "../functions/files/paths.ts";
import { hasPassword, withView } from "../functions/files/sheet-view.ts";
import { type Texts, elementsOf, withAttributes } from "../functions/files/texts.ts";
import { followLinks } from "./links.ts";
import type { Origin } from "./origin.ts";
import { PLAIN, type SheetState, isQuoted } from "./state.ts";

const SHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const DRAWING = "application/vnd.openxmlformats-officedocument";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** What stands in a cell, by its name; or its value, where that alone is written. */
export type FreshCells = (name: string, isValue?: boolean) => string;

export class Beside {
  private readonly strings: string[];
  private dynamic: string | null | undefined;

  constructor(
    private readonly texts: Texts,
    private readonly fresh: Texts,
    private readonly styles: StyleBook,
    private readonly origin: Origin,
    private readonly lost: string[],
  ) {
    const [path] = fresh.beside(fresh.workbook, "sharedStrings");
    const items = path ? [...fresh.text(path).matchAll(elementsOf("si"))] : [];
    this.strings = items.map(
      ([, , , inside = ""]) => /<t\b[^>]*>([^<]*)<\/t>/.exec(inside)?.[1] ?? "",
    );
  }

  /** What stands in the cells of a fresh sheet, each without its name and its style. */
  cellsOf(path: string): FreshCells {
    const cells = [...this.fresh.text(path).matchAll(elementsOf("c"))];
    const known = new Map(
      cells.map(([, , attributes = "", inside = ""]) => {
        const { r = "", ...own } = attributesOf(attributes);
        return [r, { own, inside }];
      }),
    );
    return (name, isValue = false) => {
      const { own, inside } = known.get(name) ?? { own: {}, inside: "" };
      if (inside.trim() === "") return "";
      if (own.t === "s") return this.inline(inside);
      const kind = own.t === undefined || own.t === "n" ? "" : ` t="${own.t}"`;
      // A value alone leaves what the file says of its formula.
      const meta = own.cm === undefined || isValue ? null : this.dynamicIndex();
      return `${meta ? ` cm="${meta}"` : ""}${kind}>${inside}`;
    };
  }

  private inline(inside: string): string {
    const text = this.strings[Number(/<v>(\d+)<\/v>/.exec(inside)?.[1])] ?? "";
    return ` t="inlineStr"><is><t xml:space="preserve">${text}</t></is>`;
  }

  /** The number by which this file knows a formula that spills; null where it has other metadata without that. */
  private dynamicIndex(): string | null {
    if (this.dynamic !== undefined) return this.dynamic;
    const [known] = this.texts.beside(this.texts.workbook, "sheetMetadata");
    if (known) {
      const xml = this.texts.text(known);
      const cells = elementsOf("cellMetadata").exec(xml)?.[3] ?? "";
      const types = [...xml.matchAll(/<(?:\w+:)?metadataType\b[^>]*\bname="(\w+)"/g)].map(
        ([, name]) => name,
      );
      const number = types.indexOf("XLDAPR") + 1;
      const blocks = [...cells.matchAll(elementsOf("bk"))].map(
        ([, , , inside = ""]) => /\bt="(\d+)"/.exec(inside)?.[1],
      );
      const at = blocks.indexOf(String(number));
      return (this.dynamic = at < 0 ? null : String(at + 1));
    }
    const [own] = this.fresh.beside(this.fresh.workbook, "sheetMetadata");
    if (!own) return (this.dynamic = null);
    const path = this.texts.freePath("xl/metadata", "xml");
    this.texts.add(path, `${SHEET}.sheetMetadata+xml`, this.fresh.text(own));
    this.texts.relate(this.texts.workbook, "sheetMetadata", path);
    return (this.dynamic = "1");
  }

  /** Adds a sheet that the file lacks; gives its path. */
  addSheet(freshPath: string, sheet: SheetState): string {
    const cells = this.cellsOf(freshPath);
    const xml = this.fresh
      .text(freshPath)
      .replace(elementsOf("c"), (_: string, mark: string, attributes: string) => {
        const name = attributesOf(attributes).r ?? "";
        const cell = sheet.cells.get(name);
        const look = cell?.look ?? PLAIN;
        const looked = look === PLAIN ? "0" : this.styles.changed("0", PLAIN, look);
        const style = this.styles.quoted(looked, isQuoted(cell));
        const content = cells(name);
        const open = `<${mark} r="${name}"${style === "0" ? "" : ` s="${style}"`}`;
        return content === "" ? `${open}/>` : `${open}${content}</${mark}>`;
      });
    const path = this.texts.freePath("xl/worksheets/sheet", "xml");
    this.texts.add(path, `${SHEET}.worksheet+xml`, this.withLooks(xml));
    const relations = this.fresh.relations(freshPath).map(({ id, type, target, isOutside }) => {
      if (isOutside) return { id, type, target, isOutside };
      return {
        id,
        type,
        target: type === "table" ? this.copyTable(target) : this.copyDrawing(target),
        isOutside,
      };
    });
    if (relations.length > 0) this.writeRelations(path, relations);
    return path;
  }

  private writeRelations(
    path: string,
    relations: { id: string; type: string; target: string; isOutside: boolean }[],
  ) {
    const lines = relations.map(({ id, type, target, isOutside }) => {
      const up = `../${target.replace(/^xl\//, "")}`;
      return `<Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${escaped(isOutside ? target : up)}"${isOutside ? ' TargetMode="External"' : ""}/>`;
    });
    this.texts.write(
      relationsOf(path),
      `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${lines.join("")}</Relationships>`,
    );
  }

  private copyTable(target: string): string {
    const xmls = this.texts.paths(/\/tables\/[^/]+\.xml$/i).map((path) => this.texts.text(path));
    const heads = xmls.map((xml) => attributesOf(/<(?:\w+:)?table\b[^>]*>/.exec(xml)?.[0] ?? ""));
    const id = Math.max(0, ...heads.map((head) => Number(head.id))) + 1;
    const names = new Set(heads.map((head) => (head.displayName ?? "").toLowerCase()));
    let n = id;
    while (names.has(`table${n}`)) n++;
    const xml = this.fresh.text(target).replace(/<table\b[^>]*>/, (mark) => {
      return (
        withAttributes(mark.slice(0, -1), {
          id: String(id),
          name: `Table${n}`,
          displayName: `Table${n}`,
        }) + ">"
      );
    });
    const path = this.texts.freePath("xl/tables/table", "xml");
    this.texts.add(path, `${SHEET}.table+xml`, xml);
    return path;
  }

  private copyDrawing(target: string): string {
    const path = this.texts.freePath("xl/drawings/drawing", "xml");
    this.texts.add(path, `${DRAWING}.drawing+xml`, this.fresh.text(target));
    const charts = this.fresh
      .relations(target)
      .map((each) => ({ ...each, target: this.copyChart(each.target) }));
    this.writeRelations(path, charts);
    return path;
  }

  private copyChart(target: string): string {
    const path = this.texts.freePath("xl/charts/chart", "xml");
    this.texts.add(path, `${DRAWING}.drawingml.chart+xml`, this.fresh.text(target));
    return path;
  }

  /** Conditional looks by this file's numbers. */
  private withLooks(xml: string): string {
    return xml.replace(/(\sdxfId=")(\d+)"/g, (_, open: string, id: string) => {
      const [path = ""] = this.fresh.beside(this.fresh.workbook, "styles");
      const all = elementsOf("dxfs").exec(this.fresh.text(path))?.[3] ?? "";
      const look = [...all.matchAll(elementsOf("dxf"))][Number(id)]?.[0] ?? "<dxf/>";
      const main = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
      return `${open}${this.styles.conditional(look.replace("<dxf", `<dxf ${main}`))}"`;
    });
  }

  /** Writes what has changed beside the cells of a sheet that the file has. */
  follow(path: string, freshPath: string, was: SheetState, is: SheetState): void {
    this.followMerges(path, was, is);
    this.followRules(
      path,
      freshPath,
      "dataValidation",
      was.dataValidationRules,
      is.dataValidationRules,
    );
    this.followRules(
      path,
      freshPath,
      "conditionalFormatting",
      was.conditionalFormats,
      is.conditionalFormats,
    );
    this.followTables(path, freshPath, was, is);
    followLinks(this.texts, this.fresh, { path, freshPath, was, is });
    this.followFigures(path, freshPath, was, is);
    if (was.view.isLocked && !is.view.isLocked && hasPassword(this.texts.text(path)))
      this.lost.push(`"${is.name}" stays locked by its password in the file.`);
    this.texts.change(path, (xml) => withView(xml, was.view, is.view));
  }

  private followMerges(path: string, was: SheetState, is: SheetState) {
    const gone = was.merges.filter((range) => !is.merges.includes(range));
    const added = is.merges.filter((range) => !was.merges.includes(range));
    if (gone.length + added.length === 0) return;
    const prefix = this.prefix(path);
    this.texts.change(path, (xml) => {
      // Those that are out of sight stay.
      const left = [...xml.matchAll(elementsOf("mergeCell"))].flatMap(
        ([mark, , attributes = ""]) =>
          gone.includes(attributesOf(attributes).ref ?? "") ? [] : [mark],
      );
      const lines = [...left, ...added.map((range) => `<${prefix}mergeCell ref="${range}"/>`)];
      const made =
        lines.length === 0
          ? ""
          : `<${prefix}mergeCells count="${lines.length}">${lines.join("")}</${prefix}mergeCells>`;
      return putElement(xml, "mergeCells", made, true);
    });
  }

  private prefix(path: string): string {
    return /<((?:\w+:)?)worksheet\b/.exec(this.texts.text(path))?.[1] ?? "";
  }

  /** Rules that are new are added, those that are gone are taken out; the others stay as they are. */
  private followRules(
    path: string,
    freshPath: string,
    name: string,
    was: { ranges: string[] }[],
    is: { ranges: string[] }[],
  ) {
    const keyOf = (rule: { ranges: string[] }) => JSON.stringify({ ...rule, id: undefined });
    const [before, now] = [new Set(was.map(keyOf)), new Set(is.map(keyOf))];
    const gone = was.filter((rule) => !now.has(keyOf(rule))).map(({ ranges }) => ranges.join(" "));
    const added = is
      .filter((rule) => !before.has(keyOf(rule)))
      .map(({ ranges }) => ranges.join(" "));
    if (gone.length + added.length === 0) return;
    const isOne = (attributes: string, list: string[]) =>
      list.includes(attributesOf(attributes).sqref ?? "");
    const fresh = [...this.fresh.text(freshPath).matchAll(elementsOf(name))].filter(
      ([, , attributes = ""]) => isOne(attributes, added),
    );
    const prefix = this.prefix(path);
    const marks = fresh.map(([text]) =>
      this.withLooks(text).replace(/<(\/?)(?=\w)/g, `<$1${prefix}`),
    );
    this.texts.change(path, (xml) => {
      const left = xml.replace(elementsOf(name), (whole: string, _: string, attributes: string) =>
        isOne(attributes, gone) ? "" : whole,
      );
      if (name !== "dataValidation")
        return marks.length > 0 ? putElement(left, name, marks.join(""), false) : left;
      const list = elementsOf("dataValidations").exec(left);
      const inside = (list?.[3] ?? "") + marks.join("");
      const count = inside.match(/<(?:\w+:)?dataValidation[\s>]/g)?.length ?? 0;
      const others = withAttributes(list?.[2] ?? "", { count: String(count) });
      const made =
        count === 0
          ? ""
          : `<${prefix}dataValidations${others}>${inside}</${prefix}dataValidations>`;
      return putElement(left, "dataValidations", made, true);
    });
  }

  private followTables(path: string, freshPath: string, was: SheetState, is: SheetState) {
    const before = was.tables.map(({ range }) => range);
    const now = is.tables.map(({ range }) => range);
    const gone = before.filter((range) => !now.includes(range));
    for (const range of now.filter((each) => !before.includes(each))) {
      const same = gone.find((each) => String(headOf(each)) === String(headOf(range)));
      if (same) {
        gone.splice(gone.indexOf(same), 1);
        this.resizeTable(path, same, range);
      } else this.addTable(path, freshPath, range);
    }
    if (gone.length > 0)
      this.lost.push(
        `The table at ${gone.join(", ")} of "${is.name}" stays in the file as it was.`,
      );
  }

  /** A table grown or shrunk at its foot. */
  private resizeTable(sheet: string, from: string, to: string) {
    for (const path of this.texts.beside(sheet, "table"))
      this.texts.change(path, (xml) => {
        const { ref, heads, totals } = tableIn(xml);
        // A table has a line at least.
        const isBare = heightOf(to) <= heads + totals;
        if (ref !== from || isBare) return xml;
        const last = to.split(":")[1];
        return xml.replace(
          /(<(?:\w+:)?(?:table|autoFilter)\b[^>]*?\sref="[A-Z]+\d+:)([A-Z]+\d+)"/g,
          `$1${last}"`,
        );
      });
  }

  private addTable(path: string, freshPath: string, range: string) {
    const fresh = this.fresh
      .beside(freshPath, "table")
      .find(
        (each) =>
          attributesOf(/<table\b[^>]*>/.exec(this.fresh.text(each))?.[0] ?? "").ref === range,
      );
    if (!fresh) return;
    const id = this.texts.relate(path, "table", this.copyTable(fresh));
    const prefix = this.prefix(path);
    this.texts.change(path, (xml) => {
      const list = elementsOf("tableParts").exec(xml);
      const inside = `${list?.[3] ?? ""}<${prefix}tablePart xmlns:r="${OFFICE}" r:id="${id}"/>`;
      const count = inside.match(/tablePart\b/g)?.length ?? 0;
      return putElement(
        xml,
        "tableParts",
        `<${prefix}tableParts count="${count}">${inside}</${prefix}tableParts>`,
        true,
      );
    });
  }

  /** New charts are added; one that was in the file stays as it is there. */
  private followFigures(path: string, freshPath: string, was: SheetState, is: SheetState) {
    const known = new Set(this.origin.figures);
    const before = was.figures.filter(({ id }) => is.figures.some((each) => each.id === id));
    const isOther = before.some((each) => {
      const now = is.figures.find(({ id }) => id === each.id);
      return JSON.stringify(each) !== JSON.stringify(now);
    });
    if (isOther || before.length < was.figures.length)
      this.lost.push(`Charts that were in the file stay on "${is.name}" as they were.`);
    const [fresh] = this.fresh.beside(freshPath, "drawing");
    const added = is.figures.filter(({ id }) => !known.has(id));
    if (!fresh || added.length === 0) return;
    const charts = is.figures.filter(({ tag }) => tag === "chart");
    const anchors = [
      ...this.fresh.text(fresh).matchAll(elementsOf("(?:twoCell|oneCell|absolute)Anchor")),
    ];
    const drawing = this.drawingOf(path);
    charts.forEach((chart, i) => {
      if (added.includes(chart) && anchors[i])
        this.addAnchor(drawing, anchors[i][0], fresh, 1000 + i);
    });
  }

  private addAnchor(drawing: string, anchor: string, fresh: string, number: number) {
    const id = /\br:id="([^"]*)"/.exec(anchor)?.[1];
    const chart = this.fresh.relations(fresh).find((each) => each.id === id);
    if (!chart) return;
    const relation = this.texts.relate(drawing, "chart", this.copyChart(chart.target));
    const xmlns = `xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" xmlns:r="${OFFICE}"`;
    const made = anchor
      .replace(/^<[\w:]+/, (mark) => `${mark} ${xmlns}`)
      .replace(/\br:id="[^"]*"/, `r:id="${relation}"`)
      .replace(/(<xdr:cNvPr\b[^>]*?\sid=")\d+"/g, `$1${number}"`);
    this.texts.change(drawing, (xml) =>
      xml
        .replace(/(<(\w+:)?wsDr\b[^>]*)\/>/, "$1></$2wsDr>")
        .replace(/<\/(?:\w+:)?wsDr>/, (end) => made + end),
    );
  }

  private drawingOf(sheet: string): string {
    const [known] = this.texts.beside(sheet, "drawing");
    if (known) return known;
    const path = this.texts.freePath("xl/drawings/drawing", "xml");
    this.texts.add(
      path,
      `${DRAWING}.drawing+xml`,
      '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"></xdr:wsDr>',
    );
    const id = this.texts.relate(sheet, "drawing", path);
    const element = `<${this.prefix(sheet)}drawing xmlns:r="${OFFICE}" r:id="${id}"/>`;
    this.texts.change(sheet, (xml) => putElement(xml, "drawing", element, false));
    return path;
  }
}

/** The cells of a range's first row: what stays when a table grows. */
function headOf(range: string): string[] {
  const [first = "", last = first] = range.split(":");
  return cellsIn(`${first}:${last.replace(/\d+/, "")}${/\d+/.exec(first)?.[0]}`);
}

function heightOf(range: string): number {
  const [first = "", last = first] = range.split(":");
  return readCellName(last).row - readCellName(first).row + 1;
}
