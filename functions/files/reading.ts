/**
 * A workbook's file as the local sheet's engine can read it: every part checked, in one layout, whatever
 * program wrote it. The file itself is not changed; saving writes into that.
 */
import { translateFormulaToA1, translateFormulaToR1C1 } from "@borgar/fx/xlsx";
import { readCellName, cellName } from "../formula/addresses";
import { type Far, type Fence, farOf } from "./far";
import { escaped } from "./package";
import { plainXml } from "./plain-xml";
import { Refusal } from "./refusal";
import { type ReadCell, type ReadRow, rowsXml } from "./rows";
import { type Parts, refuseOther, unpack } from "./unpack";

/** The texts of the parts that the engine reads, by path. */
export type Readable = Record<string, string>;

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const DRAWING_TYPE = "application/vnd.openxmlformats-officedocument";

const TYPES: [RegExp, string][] = [
  [/^xl\/workbook\.xml$/, `${SHEET_TYPE}.sheet.main+xml`],
  [/^xl\/worksheets\/sheet\d+\.xml$/, `${SHEET_TYPE}.worksheet+xml`],
  [/^xl\/styles\.xml$/, `${SHEET_TYPE}.styles+xml`],
  [/^xl\/sharedStrings\.xml$/, `${SHEET_TYPE}.sharedStrings+xml`],
  [/^xl\/theme\.xml$/, `${DRAWING_TYPE}.theme+xml`],
  [/^xl\/tables\/table\d+\.xml$/, `${SHEET_TYPE}.table+xml`],
  [/^xl\/drawings\/drawing\d+\.xml$/, `${DRAWING_TYPE}.drawing+xml`],
  [/^xl\/charts\/chart\d+\.xml$/, `${DRAWING_TYPE}.drawingml.chart+xml`],
];

export interface Relation {
  id: string;
  type: string;
  /** The path of a part of the file, or the address of something outside. */
  target: string;
  isOutside: boolean;
}

/** A file's parts, looked up as other programs look: by relationships, in whatever case. */
export class Source {
  private readonly paths: Map<string, string>;

  constructor(readonly parts: Parts) {
    this.paths = new Map(Object.keys(parts).map((path) => [path.toLowerCase(), path]));
  }

  has(path: string): boolean {
    return this.paths.has(path.toLowerCase());
  }

  know(path: string): void {
    this.paths.set(path.toLowerCase(), path);
  }

  forget(path: string): void {
    this.paths.delete(path.toLowerCase());
  }

  plain(path: string): string {
    const known = this.paths.get(path.toLowerCase());
    const part = known === undefined ? undefined : this.parts[known];
    if (known === undefined || !part)
      throw new Refusal(
        `This file is damaged (it lacks its part ${path}): open it in the program that made it and save a copy.`,
      );
    return plainXml(known, part);
  }

  relations(path: string): Relation[] {
    const cut = path.lastIndexOf("/") + 1;
    const file = `${path.slice(0, cut)}_rels/${path.slice(cut)}.rels`;
    if (!this.has(file)) return [];
    return [...this.plain(file).matchAll(/<Relationship\b([^>]*)>/g)].map(([, attributes = ""]) => {
      const { Id = "", Type = "", Target = "", TargetMode } = attributesOf(attributes);
      const isOutside = TargetMode === "External";
      const type = Type.split("/").at(-1) ?? "";
      return { id: Id, type, target: isOutside ? Target : resolved(path, Target), isOutside };
    });
  }

  /** The path of the workbook's own part. */
  workbook(): string {
    const start = this.relations("").find(({ type }) => type === "officeDocument")?.target;
    if (start && this.has(start)) return this.paths.get(start.toLowerCase()) as string;
    if (this.has("xl/workbook.xml")) return "xl/workbook.xml";
    refuseOther(this.parts);
    throw new Refusal(
      "This is a zip file, but not an .xlsx workbook: it has no sheets. Choose the .xlsx itself.",
    );
  }
}

function resolved(from: string, target: string): string {
  try {
    const plain = target.replaceAll("\\", "/");
    return decodeURIComponent(new URL(plain, `file:///${from}`).pathname.slice(1));
  } catch {
    return target;
  }
}

export function attributesOf(text: string): Record<string, string> {
  const found = [...text.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)];
  return Object.fromEntries(found.map(([, name, a, b]) => [name, unescaped(a ?? b ?? "")]));
}

export function unescaped(text: string): string {
  if (!text.includes("&")) return text;
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replace(/&#(?:(\d+)|x([0-9a-fA-F]+));/g, (_, decimal?: string, hex?: string) =>
      String.fromCodePoint(decimal ? Number(decimal) : parseInt(hex ?? "", 16)),
    )
    .replaceAll("&amp;", "&");
}

/** What of each sheet, by its name, is out of sight. */
export type Fences = Readonly<Record<string, Fence>>;

/** The parts that the engine reads, of a file of any program, and what is too far off for it. */
export function readable(
  bytes: Uint8Array,
  fences: Fences = {},
): { parts: Readable; far: Record<string, Far> } {
  const reading = new Reading(new Source(unpack(bytes)), fences);
  return { parts: reading.made(), far: reading.far };
}

interface SheetOf {
  name: string;
  path: string;
  state: string;
}

/** The sheets of cells, in the order of their tabs. */
export function sheetsOf(source: Source): SheetOf[] {
  const workbook = source.workbook();
  const targets = new Map(source.relations(workbook).map((each) => [each.id, each]));
  const listed = [...source.plain(workbook).matchAll(/<sheet\b([^>]*)>/g)].map(
    ([, attributes = ""]) => attributesOf(attributes),
  );
  const sheets = listed.flatMap((sheet): SheetOf[] => {
    const relation = targets.get(sheet["r:id"] ?? "");
    if (relation?.type !== "worksheet") return [];
    return [{ name: sheet.name ?? "", path: relation.target, state: sheet.state ?? "visible" }];
  });
  if (sheets.length === 0)
    throw new Refusal(
      "This workbook has no sheet of cells (only charts or macros): there is nothing to open.",
    );
  return sheets;
}

class Reading {
  readonly far: Record<string, Far> = {};
  private readonly out: Readable = {};
  private readonly texts: string[] = [];
  private looks = 0;
  private counts = { tables: 0, drawings: 0, charts: 0 };

  constructor(
    private readonly source: Source,
    private readonly fences: Fences,
  ) {}

  made(): Readable {
    const { source } = this;
    const workbook = source.workbook();
    const sheets = sheetsOf(source);
    const one = (type: string) =>
      source.relations(workbook).find((each) => each.type === type && source.has(each.target))
        ?.target;
    const styles = one("styles");
    const looks = plainStyles(styles ? source.plain(styles) : PLAIN_STYLES);
    this.out["xl/styles.xml"] = looks;
    this.looks = lookCount(looks);
    const strings = one("sharedStrings");
    if (strings) this.readStrings(source.plain(strings));
    sheets.forEach((sheet, i) => this.readSheet(sheet, i + 1));
    const theme = one("theme");
    this.out["xl/theme.xml"] = theme ? source.plain(theme) : PLAIN_THEME;
    this.out["xl/sharedStrings.xml"] = sharedStrings(this.texts);
    this.writeWorkbook(sheets, source.plain(workbook));
    this.writeTypes();
    return this.out;
  }

  private readStrings(xml: string) {
    for (const [, inside = ""] of xml.matchAll(/<si\b[^>]*?(?:\/>|>([\s\S]*?)<\/si>)/g))
      this.texts.push(textOf(inside));
  }

  private readSheet({ name, path }: SheetOf, number: number) {
    const relations = this.source.relations(path);
    const kept = new Map<string, Relation>();
    for (const relation of relations) {
      const made = relation.isOutside ? relation : this.readBeside(relation);
      if (made) kept.set(relation.id, made);
    }
    const { xml, far } = new SheetText(name, this.texts, this.looks, this.fences[name]).read(
      this.source.plain(path),
    );
    if (far.cells.length > 0) this.far[name] = far;
    const parts = [...kept.values()].map((each) => each.id);
    this.out[`xl/worksheets/sheet${number}.xml`] = withoutDangling(xml, new Set(parts));
    this.writeRelations(`xl/worksheets/_rels/sheet${number}.xml.rels`, [...kept.values()]);
  }

  /** A table or a drawing of a sheet, in its place of our layout. */
  private readBeside(relation: Relation): Relation | null {
    if (!this.source.has(relation.target)) return null;
    if (relation.type === "table") {
      const target = `tables/table${++this.counts.tables}.xml`;
      this.out[`xl/${target}`] = this.source.plain(relation.target);
      return { ...relation, target: `../${target}` };
    }
    if (relation.type !== "drawing") return null;
    const number = ++this.counts.drawings;
    const charts = this.source.relations(relation.target).flatMap((chart): Relation[] => {
      if (chart.type !== "chart" || !this.source.has(chart.target)) return [];
      const target = `charts/chart${++this.counts.charts}.xml`;
      this.out[`xl/${target}`] = this.source.plain(chart.target);
      return [{ ...chart, target: `../${target}` }];
    });
    this.out[`xl/drawings/drawing${number}.xml`] = this.source.plain(relation.target);
    this.writeRelations(`xl/drawings/_rels/drawing${number}.xml.rels`, charts);
    return { ...relation, target: `../drawings/drawing${number}.xml` };
  }

  private writeRelations(path: string, relations: Relation[]) {
    const lines = relations.map(({ id, type, target, isOutside }) => {
      const mode = isOutside ? ' TargetMode="External"' : "";
      return `<Relationship Id="${escaped(id)}" Type="${OFFICE}/${type}" Target="${escaped(target)}"${mode}/>`;
    });
    this.out[path] =
      `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${lines.join("")}</Relationships>`;
  }

  private writeWorkbook(sheets: SheetOf[], xml: string) {
    const lines = sheets.map(
      ({ name, state }, i) =>
        `<sheet name="${escaped(name)}" sheetId="${i + 1}" state="${escaped(state)}" r:id="rId${i + 1}"/>`,
    );
    const names = /<definedNames\b[^>]*>[\s\S]*?<\/definedNames>/.exec(xml)?.[0] ?? "";
    this.out["xl/workbook.xml"] =
      `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${lines.join("")}</sheets>${names}</workbook>`;
    const targets = sheets.map((_, i): Relation => {
      return {
        id: `rId${i + 1}`,
        type: "worksheet",
        target: `worksheets/sheet${i + 1}.xml`,
        isOutside: false,
      };
    });
    this.writeRelations("xl/_rels/workbook.xml.rels", targets);
  }

  private writeTypes() {
    const lines = Object.keys(this.out).flatMap((path) => {
      const type = TYPES.find(([pattern]) => pattern.test(path))?.[1];
      return type ? [`<Override PartName="/${path}" ContentType="${type}"/>`] : [];
    });
    this.out["[Content_Types].xml"] =
      `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">${lines.join("")}</Types>`;
  }
}

/** Elements that lead to a part that is not there, or that is not shown, are left out. */
function withoutDangling(xml: string, known: ReadonlySet<string>): string {
  return xml.replace(
    /<(drawing|tablePart|hyperlink|legacyDrawing|picture)\b([^>]*?)(?:\/>|>\s*<\/\1>)/g,
    (whole, _, attributes: string) => {
      const id = attributesOf(attributes)["r:id"];
      return id === undefined || known.has(id) ? whole : "";
    },
  );
}

/** The text of a string, its runs together, without the reading aids of Asian scripts. */
function textOf(inside: string): string {
  const plain = inside.includes("<rPh") ? inside.replace(/<rPh\b[\s\S]*?<\/rPh>/g, "") : inside;
  return [...plain.matchAll(/<t\b[^>]*?(?:\/>|>([\s\S]*?)<\/t>)/g)]
    .map(([, text = ""]) => text)
    .join("");
}

/** Texts as they stand; one that looks like a number, a formula or an error is held as a text. */
function sharedStrings(texts: readonly string[]): string {
  const items = texts.map((text) => `<si><t xml:space="preserve">${heldAsText(text)}</t></si>`);
  return `${HEAD}<sst xmlns="${MAIN}" count="${texts.length}" uniqueCount="${texts.length}">${items.join("")}</sst>`;
}

const LOOKS_OTHERWISE = /^\s*[-+=(#.,$€£¥]|^\s*\d|^\s*(true|false)\s*$|^'|^\[[^\]]*\]\(.*\)$/i;

function heldAsText(text: string): string {
  return LOOKS_OTHERWISE.test(text) ? `'${text}` : text;
}

const LAST_ROW = 1_048_576;
const LAST_COLUMN = 16_384;
const ROW = /<row\b([^>]*?)(?:\/>|>([\s\S]*?)<\/row>)/g;
const CELL = /<c\b([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g;

/** The text of a sheet: its cells named, texts shared, formulas each written out. */
class SheetText {
  private readonly shared = new Map<string, string>();
  private row = 0;

  constructor(
    private readonly name: string,
    private readonly texts: string[],
    private readonly looks: number,
    private readonly fence?: Fence,
  ) {}

  read(xml: string): { xml: string; far: Far } {
    const from = xml.search(/<sheetData\b/);
    const end = xml.indexOf("</sheetData>", from);
    if (from < 0 || end < 0) return { xml: plainFormulas(xml), far: farOf([]) };
    const rows = Array.from(
      xml.slice(from, end).matchAll(ROW),
      ([, attributes = "", inside = ""]) => this.readRow(attributes, inside),
    );
    const head = xml.slice(0, from);
    const usual = attributesOf(/<sheetFormatPr\b([^>]*)/.exec(head)?.[1] ?? "").defaultRowHeight;
    const far = farOf(rows, this.fence);
    const read =
      plainFormulas(solid(this.columnLooks(head))) +
      `<sheetData>${rowsXml(rows, far.shown, usual)}</sheetData>` +
      withoutMergesBeyond(plainFormulas(solid(xml.slice(end + 12))), far.shown);
    return { xml: read, far };
  }

  private readRow(attributes: string, inside: string): ReadRow {
    const { r, ...others } = attributesOf(attributes);
    this.row = r ? Number(r) : this.row + 1;
    if (!(this.row >= 1 && this.row <= LAST_ROW)) this.refuse(`row ${r}`);
    let column = -1;
    const cells = Array.from(inside.matchAll(CELL), ([, text = "", within = ""]): ReadCell => {
      const own = attributesOf(text);
      const name = own.r ?? cellName(this.row - 1, column + 1);
      column = this.columnOf(name);
      const content = this.content(name, own.t ?? "n", within);
      const look = this.hasLook(own.s) ? ` s="${own.s}"` : "";
      return { column, xml: `<c r="${name}"${look}${content}`, isUsed: content !== "/>" };
    });
    if (!this.hasLook(others.s)) delete others.s;
    return { number: this.row, attributes: others, cells };
  }

  /** A look that the file does not hold would stop the engine. */
  private hasLook(style: string | undefined): boolean {
    return style !== undefined && Number(style) < this.looks;
  }

  private columnLooks(xml: string): string {
    return xml.replace(/(<col\b[^>]*?)\sstyle="(\d+)"/g, (whole, open: string, style: string) =>
      this.hasLook(style) ? whole : open,
    );
  }

  private columnOf(name: string): number {
    const match = /^([A-Z]{1,3})(\d{1,7})$/.exec(name);
    if (!match) this.refuse(`cell ${name}`);
    const { row, column } = readCellName(name);
    if (row + 1 !== this.row || column >= LAST_COLUMN) this.refuse(`cell ${name}`);
    return column;
  }

  private refuse(what: string): never {
    throw new Refusal(
      `This file is damaged: it names a ${what} on the sheet "${this.name}" that no sheet has there. Open it in the program that made it and save a copy.`,
    );
  }

  /** What stands in a cell, from the end of its opening. */
  private content(cell: string, type: string, inside: string): string {
    const formula = this.formula(cell, inside);
    const value = /<v\b[^>]*>([\s\S]*?)<\/v>/.exec(inside)?.[1];
    if (type === "inlineStr") return this.text(textOf(inside), formula);
    if (type === "str" && !formula) return value === undefined ? "/>" : this.text(value, "");
    if (value === undefined && !formula) return "/>";
    if (type === "d") return ` t="n">${formula}<v>${serial(value ?? "")}</v></c>`;
    const shown = value === undefined ? "" : `<v>${value}</v>`;
    return `${type === "n" ? "" : ` t="${escaped(type)}"`}>${formula}${shown}</c>`;
  }

  private text(text: string, formula: string): string {
    if (formula) return ` t="str">${formula}<v>${text}</v></c>`;
    if (text === "") return "/>";
    return ` t="s"><v>${this.texts.push(text) - 1}</v></c>`;
  }

  private formula(cell: string, within: string): string {
    const match = /<f\b([^>]*?)(?:\/>|>([\s\S]*?)<\/f>)/.exec(within);
    if (!match) return "";
    const [, attributes = "", inside = ""] = match;
    const { t, si = "", ref } = attributesOf(attributes);
    let text = unprefixed(inside);
    if (t === "shared") text = this.sharedFormula(cell, si, text);
    if (text.trim() === "") return "";
    return `<f${t === "array" && ref ? ` t="array" ref="${escaped(ref)}"` : ""}>${text}</f>`;
  }

  /** A formula that stands once for many cells, as it is in this one. */
  private sharedFormula(cell: string, group: string, text: string): string {
    try {
      if (text !== "") this.shared.set(group, translateFormulaToR1C1(unescaped(text), cell));
      const first = this.shared.get(group);
      if (text !== "" || first === undefined) return text;
      return escaped(translateFormulaToA1(first, cell));
    } catch {
      return text;
    }
  }
}

/** The engine would lay merged cells that are out of sight over those at its foot. */
function withoutMergesBeyond(xml: string, shown: Fence): string {
  return xml.replace(/<mergeCell\s([^>]*?)\/>/g, (whole, attributes: string) => {
    const [first = ""] = (attributesOf(attributes).ref ?? "").split(":");
    const { row, column } = readCellName(first);
    return row < shown.row && column < shown.column ? whole : "";
  });
}

/** Formulas of rules and formats. */
function plainFormulas(xml: string): string {
  return xml.replace(
    /(<(formula|formula1|formula2|xm:f)\b[^>]*>)([^<]*)(<\/\2>)/g,
    (_, open: string, __, text: string, close: string) => open + unprefixed(text) + close,
  );
}

const PREFIXES = /_xlfn\.(?:_xlws\.)?|_xlws\.|_xlpm\./gi;

/** Without the prefixes that files put before newer functions. */
function unprefixed(formula: string): string {
  if (!formula.includes("_xl")) return formula;
  const parts = formula.split(/("|&quot;)/);
  // Every second part between quotes stands inside them, and is left as it is.
  return parts.map((part, i) => (i % 4 === 2 ? part : part.replace(PREFIXES, ""))).join("");
}

/** A date of a strict file, 2026-11-25T12:00:00, as Excel's number. */
function serial(text: string): string {
  const time = /^\d{2}:/.test(text)
    ? Date.parse(`1899-12-30T${text}Z`)
    : Date.parse(/T/.test(text) ? `${text.replace(/Z$/, "")}Z` : text);
  return Number.isNaN(time) ? escaped(text) : String((time - Date.UTC(1899, 11, 30)) / 86_400_000);
}

/** Colours that programs write with no alpha, or with one that they do not mean, are solid. */
function plainStyles(xml: string): string {
  // The engine leaves out a fill that says nothing, and then takes each for the one before it.
  const filled = solid(xml).replace(/<fill\s*(\/>|>\s*<\/fill>)/g, NO_FILL);
  // In a rule's look, a fill without its kind is a solid one.
  const looks = filled.replace(/<dxfs\b[\s\S]*<\/dxfs>/, (all) =>
    all.replace(/<patternFill>/g, '<patternFill patternType="solid">'),
  );
  return /<cellXfs\b[^>]*>\s*<xf\b/.test(looks) ? looks : PLAIN_STYLES;
}

function lookCount(styles: string): number {
  const list = /<cellXfs\b[\s\S]*?<\/cellXfs>/.exec(styles)?.[0] ?? "";
  return list.match(/<xf\b/g)?.length ?? 0;
}

function solid(xml: string): string {
  return xml.replace(
    /\brgb="(?:[0-9A-Fa-f]{2})?([0-9A-Fa-f]{6})"/g,
    (_, color: string) => `rgb="FF${color}"`,
  );
}

const NO_FILL = '<fill><patternFill patternType="none"/></fill>';

const PLAIN_STYLES = `${HEAD}<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs></styleSheet>`;

/** The colours that a file means by number when it brings no theme: Office's, of 2013. */
const THEME_COLORS = {
  dk1: "000000",
  lt1: "FFFFFF",
  dk2: "44546A",
  lt2: "E7E6E6",
  accent1: "4472C4",
  accent2: "ED7D31",
  accent3: "A5A5A5",
  accent4: "FFC000",
  accent5: "5B9BD5",
  accent6: "70AD47",
  hlink: "0563C1",
  folHlink: "954F72",
};
const PLAIN_THEME = `${HEAD}<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" name="Office"><a:themeElements><a:clrScheme name="Office">${Object.entries(
  THEME_COLORS,
)
  .map(([name, color]) => `<a:${name}><a:srgbClr val="${color}"/></a:${name}>`)
  .join("")}</a:clrScheme></a:themeElements></a:theme>`;
