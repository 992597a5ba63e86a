/**
 * A workbook's file as the local sheet's engine can read it: every part checked, in one layout,
 * whatever program wrote it. The file itself is not changed; saving writes into that.
 */
import type { Far, Fence } from "./far.ts";
import { plainChart } from "./plain-chart.ts";
import { escaped } from "./package.ts";
import { type Looks, PLAIN_STYLES, PLAIN_THEME, looksOf, plainStyles } from "./plain-styles.ts";
import { Refusal } from "./refusal.ts";
import { SharedTexts, textOf } from "./shared-texts.ts";
import { SheetText } from "./sheet-text.ts";
import { type SourceRelation, type SheetOf, Source, attributesOf, sheetsOf } from "./source.ts";
import { unpack } from "./unpack.ts";

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

/** What of each sheet, by its name, is out of sight. */
export type Fences = Readonly<Record<string, Fence>>;

/** The parts that the engine reads, of a file of any program, and what is too far off for it. */
export function readable(
  bytes: Uint8Array,
  fences: Fences = {},
): { parts: Readable; far: Record<string, Far>; countsFrom1904: boolean } {
  const source = new Source(unpack(bytes));
  const reading = new Reading(source, fences);
  const parts = reading.made();
  const countsFrom1904 = /<workbookPr\b[^>]*\sdate1904="(1|true)"/.test(
    source.plain(source.workbook()),
  );
  return { parts, far: reading.far, countsFrom1904 };
}

class Reading {
  readonly far: Record<string, Far> = {};
  private readonly out: Readable = {};
  private readonly texts = new SharedTexts();
  private looks: Looks = looksOf(PLAIN_STYLES);
  private counts = { tables: 0, drawings: 0, charts: 0 };

  constructor(
    private readonly source: Source,
    private readonly fences: Fences,
  ) {}

  made(): Readable {
    const { source } = this;
    const workbook = source.workbook();
    const sheets = sheetsOf(source);
    for (const { name } of sheets) refuseName(name);
    const one = (type: string) =>
      source.relations(workbook).find((each) => each.type === type && source.has(each.target))
        ?.target;
    const styles = one("styles");
    const looks = plainStyles(styles ? source.plain(styles) : PLAIN_STYLES);
    this.out["xl/styles.xml"] = looks;
    this.looks = looksOf(looks);
    const strings = one("sharedStrings");
    if (strings) this.readStrings(source.plain(strings));
    sheets.forEach((sheet, i) => this.readSheet(sheet, i + 1));
    const theme = one("theme");
    this.out["xl/theme.xml"] = theme ? source.plain(theme) : PLAIN_THEME;
    this.out["xl/sharedStrings.xml"] = this.texts.written();
    this.writeWorkbook(sheets, source.plain(workbook));
    this.writeTypes();
    return this.out;
  }

  private readStrings(xml: string) {
    for (const [, inside = ""] of xml.matchAll(/<si\b[^>]*?(?:\/>|>([\s\S]*?)<\/si>)/g))
      this.texts.add(textOf(inside));
  }

  private readSheet({ name, path }: SheetOf, number: number) {
    const relations = this.source.relations(path);
    const kept = new Map<string, SourceRelation>();
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
  private readBeside(relation: SourceRelation): SourceRelation | null {
    if (!this.source.has(relation.target)) return null;
    if (relation.type === "table") {
      const target = `tables/table${++this.counts.tables}.xml`;
      this.out[`xl/${target}`] = this.source.plain(relation.target);
      return { ...relation, target: `../${target}` };
    }
    if (relation.type !== "drawing") return null;
    const number = ++this.counts.drawings;
    const charts = this.source.relations(relation.target).flatMap((chart): SourceRelation[] => {
      if (chart.type !== "chart" || !this.source.has(chart.target)) return [];
      const target = `charts/chart${++this.counts.charts}.xml`;
      this.out[`xl/${target}`] = plainChart(this.source.plain(chart.target));
      return [{ ...chart, target: `../${target}` }];
    });
    this.out[`xl/drawings/drawing${number}.xml`] = this.source.plain(relation.target);
    this.writeRelations(`xl/drawings/_rels/drawing${number}.xml.rels`, charts);
    return { ...relation, target: `../drawings/drawing${number}.xml` };
  }

  private writeRelations(path: string, relations: SourceRelation[]) {
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
    const tabs = sheets.map(({ tab }) => tab);
    const names = (/<definedNames\b[^>]*>[\s\S]*?<\/definedNames>/.exec(xml)?.[0] ?? "").replace(
      /(?<=\slocalSheetId=")\d+/g,
      (tab) => String(tabs.indexOf(Number(tab))),
    );
    this.out["xl/workbook.xml"] =
      `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${lines.join("")}</sheets>${names}</workbook>`;
    const targets = sheets.map((_, i): SourceRelation => {
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

/** The engine files sheets under their names, in a place where every object has some already. */
function refuseName(name: string) {
  if (name in Object.prototype)
    throw new Refusal(
      `A sheet of this workbook is called "${name}", which the local sheet cannot take: give it another name in the program that made it.`,
    );
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
