/** Workbooks with what other programs put into them, kind by kind: small parts written by hand. */
import { strToU8, zipSync } from "fflate";
import {
  HEAD,
  MAIN,
  OFFICE,
  type PartTexts,
  inline,
  partsOf,
  prefixed,
  relations,
  sheet,
  strict,
  zipped,
} from "./foreign-book";

const SHEET = "xl/worksheets/sheet1.xml";
const X14 = "http://schemas.microsoft.com/office/spreadsheetml/2009/9/main";
const FORMULAS = "http://schemas.microsoft.com/office/excel/2006/main";

/** The cells that all have: a text, the number that is changed, and its double. */
const FIRST = `<row r="1">${inline("A1", "Rain")}<c r="B1"><v>10</v></c><c r="C1"><f>B1*2</f><v>20</v></c></row>`;

const rows = (more: string, after = "", before = "") => partsOf(sheet(FIRST + more, after, before));
const cell = (inside: string) => rows(`<row r="2">${inside}</row>`);
const after = (xml: string) => rows("", xml);
const plain = rows("");
const mapped = (change: (text: string, path: string) => string, parts = plain): PartTexts =>
  Object.fromEntries(Object.entries(parts).map(([path, text]) => [path, change(text, path)]));
const inWorkbook = (from: string, to: string): PartTexts =>
  mapped((text, path) => (path === "xl/workbook.xml" ? text.replace(from, to) : text));
const names = (xml: string) =>
  inWorkbook("</workbook>", `<definedNames>${xml}</definedNames></workbook>`);
const extension = (xml: string) =>
  after(
    `<extLst><ext xmlns:x14="${X14}" xmlns:xm="${FORMULAS}" uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}">${xml}</ext></extLst>`,
  );

/** Another part, and the relationship that leads to it. */
function beside(from: string, type: string, path: string, text: string, element = ""): PartTexts {
  const cut = from.lastIndexOf("/") + 1;
  const file = `${from.slice(0, cut)}_rels/${from.slice(cut)}.rels`;
  const link = `<Relationship Id="rId90" Type="${OFFICE}/${type}" Target="/${path}"/>`;
  const known = plain[file] ?? relations();
  const parts = from === SHEET ? after(element) : plain;
  return {
    ...parts,
    [file]: known.replace("</Relationships>", `${link}</Relationships>`),
    [path]: text,
  };
}

/** A further tab, of a kind that is no sheet of cells or is out of sight. */
function tab(type: string, state: string, text: string): PartTexts {
  const parts = beside("xl/workbook.xml", type, `xl/${type}s/other.xml`, text);
  const listed = `<sheet xmlns:r="${OFFICE}" name="Other" sheetId="2" state="${state}" r:id="rId90"/></sheets>`;
  return mapped(
    (xml, path) => (path === "xl/workbook.xml" ? xml.replace("</sheets>", listed) : xml),
    parts,
  );
}

const utf16 = (text: string) =>
  new Uint8Array(new Uint16Array([0xfeff, ...Array.from(text, (c) => c.charCodeAt(0))]).buffer);

function inUtf16(): Uint8Array {
  const text = (plain[SHEET] ?? "").replace("UTF-8", "UTF-16");
  const parts = Object.entries(plain).map(([path, xml]) => [path, strToU8(xml)]);
  return zipSync({ ...Object.fromEntries(parts), [SHEET]: utf16(text) } as Record<
    string,
    Uint8Array
  >);
}

function inLatin1(): Uint8Array {
  const text = sheet(`${FIRST}<row r="2">${inline("A2", "b\u00fcrste")}</row>`);
  const bytes = strToU8(text.replace("UTF-8", "ISO-8859-1"), true);
  const parts = Object.entries(plain).map(([path, xml]) => [path, strToU8(xml)]);
  return zipSync({ ...Object.fromEntries(parts), [SHEET]: bytes } as Record<string, Uint8Array>);
}

const without = (path: string): PartTexts =>
  Object.fromEntries(Object.entries(plain).filter(([each]) => each !== path));

const SPILL =
  '<row r="2"><c r="A2" cm="1"><f t="array" ref="A2:B2">_xlfn.SEQUENCE(1,2)</f><v>1</v></c><c r="B2"><v>2</v></c></row>';
const METADATA = `${HEAD}<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" copy="1" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;

const LIST = `<row r="3">${inline("A3", "Oil")}</row><row r="4">${inline("A4", "moss")}</row>`;
const TABLE = `${HEAD}<table xmlns="${MAIN}" id="1" name="Names" displayName="Names" ref="A3:A4" totalsRowShown="0"><tableColumns count="1"><tableColumn id="1" name="Oil"/></tableColumns></table>`;
const TABLE_PART = '<tableParts count="1"><tablePart r:id="rId90"/></tableParts>';

const KINDS: Record<string, PartTexts> = {
  "targets from the root, texts in the cells": plain,
  "targets from where they stand": mapped((text) => text.replaceAll('Target="/xl/', 'Target="')),
  "strict names": strict(plain),
  "a prefix before every name": prefixed(plain),
  "no content types": without("[Content_Types].xml"),
  "no looks": without("xl/styles.xml"),
  "a byte order mark": mapped((text, path) => (path === SHEET ? `\uFEFF${text}` : text)),
  "lines that end as in Windows": mapped((text) => text.replace(/\?>\n/, "?>\r\n")),
  "rows and cells without names": mapped((text, path) =>
    path === SHEET ? text.replace(/ r="(\d|[A-C]1)"/g, "") : text,
  ),
  "single quotes": mapped((text, path) => (path === SHEET ? text.replaceAll('"', "'") : text)),
  "runs of a text": cell(
    '<c r="A2" t="inlineStr"><is><r><rPr><b/></rPr><t>Salt</t></r><r><t> Orchard</t></r></is></c>',
  ),
  "reading aids of Asian scripts": cell(
    '<c r="A2" t="inlineStr"><is><t>雨</t><rPh sb="0" eb="1"><t>アメ</t></rPh></is></c>',
  ),
  "shared texts": beside(
    "xl/workbook.xml",
    "sharedStrings",
    "xl/sharedStrings.xml",
    `${HEAD}<sst xmlns="${MAIN}"><si><t>Rain</t></si></sst>`,
  ),
  "formulas that stand for many cells": rows(
    '<row r="2"><c r="C2"><f t="shared" ref="C2:C3" si="0">B1*3</f><v>30</v></c></row><row r="3"><c r="C3"><f t="shared" si="0"/><v>0</v></c></row>',
  ),
  "array formulas": cell('<c r="A2"><f t="array" ref="A2:A2">SUM(B1:B1*2)</f><v>20</v></c>'),
  "dynamic arrays": mapped(
    (text, path) => (path === SHEET ? text.replace("</sheetData>", `${SPILL}</sheetData>`) : text),
    beside("xl/workbook.xml", "sheetMetadata", "xl/metadata.xml", METADATA),
  ),
  "newer functions": cell(
    '<c r="A2"><f>_xlfn.MINIFS(B1:B1,B1:B1,"&gt;1")+_xlfn.MINIFS(B1:B1,B1:B1,"&gt;2")</f><v>20</v></c>',
  ),
  "functions that the local sheet lacks": cell('<c r="A2"><f>CUBEVALUE("a")</f><v>7</v></c>'),
  "data tables": cell('<c r="A2"><f t="dataTable" ref="A2:A2" dt2D="0" r1="B1"/><v>7</v></c>'),
  errors: cell('<c r="A2" t="e"><v>#N/A</v></c><c r="B2" t="e"><v>#REF!</v></c>'),
  "truth values": cell('<c r="A2" t="b"><v>1</v></c><c r="B2" t="b"><v>0</v></c>'),
  "dates as texts": cell('<c r="A2" t="d"><v>2026-11-25</v></c>'),
  "days counted from 1904": inWorkbook("<sheets>", '<workbookPr date1904="1"/><sheets>'),
  "texts that look like numbers": cell(`${inline("A2", "007")}${inline("B2", "=1+1")}`),
  "long numbers": cell('<c r="A2"><v>0.1000000000000000055</v></c><c r="B2"><v>1E-3</v></c>'),
  notes: beside(
    SHEET,
    "comments",
    "xl/comments1.xml",
    `${HEAD}<comments xmlns="${MAIN}"><authors><author>Ana</author></authors><commentList><comment ref="B1" authorId="0"><text><t>ask again</t></text></comment></commentList></comments>`,
  ),
  "a table": mapped(
    (text, path) => (path === SHEET ? text.replace("</sheetData>", `${LIST}</sheetData>`) : text),
    beside(SHEET, "table", "xl/tables/table1.xml", TABLE, TABLE_PART),
  ),
  "merged cells": after('<mergeCells count="1"><mergeCell ref="E1:F2"/></mergeCells>'),
  links: after('<hyperlinks><hyperlink ref="A1" location="Oils!B1"/></hyperlinks>'),
  "a filter": after('<autoFilter ref="A1:C1"/>'),
  "print set-up": after(
    '<printOptions gridLines="1"/><pageMargins left="1" right="1" top="1" bottom="1" header="0" footer="0"/><pageSetup orientation="landscape"/><headerFooter><oddFooter>&amp;P</oddFooter></headerFooter><rowBreaks count="1" manualBreakCount="1"><brk id="1" man="1"/></rowBreaks>',
  ),
  "frozen panes, widths": rows(
    "",
    "",
    '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" state="frozen"/></sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols><col min="2" max="2" width="20" customWidth="1"/></cols>',
  ),
  "groups of rows, hidden rows": rows(
    '<row r="2" outlineLevel="1" hidden="1"><c r="A2"><v>1</v></c></row><row r="3" collapsed="1"/>',
  ),
  "a look in the last cell": rows('<row r="1048576"><c r="XFD1048576" s="1"/></row>'),
  "rules of a newer Excel": extension(
    '<x14:dataValidations count="1"><x14:dataValidation type="list"><x14:formula1><xm:f>Oils!$B$1</xm:f></x14:formula1><xm:sqref>D1</xm:sqref></x14:dataValidation></x14:dataValidations>',
  ),
  "conditional formats of a newer Excel": extension(
    '<x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="dataBar" id="{1}"><x14:dataBar><x14:cfvo type="autoMin"/><x14:cfvo type="autoMax"/></x14:dataBar></x14:cfRule><xm:sqref>B1</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings>',
  ),
  sparklines: extension(
    "<x14:sparklineGroups><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>Oils!B1:C1</xm:f><xm:sqref>D1</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups>",
  ),
  slicers: beside(SHEET, "slicer", "xl/slicers/slicer1.xml", `<slicers xmlns="${X14}"/>`),
  "a pivot table": beside(SHEET, "pivotTable", "xl/pivotTables/pivotTable1.xml", "<p/>"),
  "a pivot's store": beside(
    "xl/workbook.xml",
    "pivotCacheDefinition",
    "xl/pivotCache/p1.xml",
    "<p/>",
  ),
  discussions: beside(SHEET, "threadedComment", "xl/threadedComments/t1.xml", "<t/>"),
  "a picture": beside(
    SHEET,
    "drawing",
    "xl/drawings/drawing1.xml",
    `${HEAD}<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing"/>`,
    '<drawing r:id="rId90"/>',
  ),
  "a background": beside(SHEET, "image", "xl/media/image1.png", "PNG", '<picture r:id="rId90"/>'),
  "printer settings": beside(SHEET, "printerSettings", "xl/printerSettings/p1.bin", "PS"),
  "links to another file": beside(
    "xl/workbook.xml",
    "externalLink",
    "xl/externalLinks/externalLink1.xml",
    `${HEAD}<externalLink xmlns="${MAIN}"/>`,
  ),
  "parts of its own": { ...plain, "customXml/item1.xml": "<mine/>" },
  macros: beside("xl/workbook.xml", "vbaProject", "xl/vbaProject.bin", "VBA"),
  "names of ranges": names('<definedName name="price">Oils!$B$1</definedName>'),
  "names of constants and formulas": names(
    '<definedName name="rate">0.05</definedName><definedName name="twice">Oils!$B$1*2</definedName>',
  ),
  "names of one sheet, hidden names": names(
    '<definedName name="mine" localSheetId="0">Oils!$B$1</definedName><definedName name="_old" hidden="1">#REF!</definedName>',
  ),
  "what is printed": names(
    '<definedName name="_xlnm.Print_Titles" localSheetId="0">Oils!$1:$1</definedName><definedName name="_xlnm.Print_Area" localSheetId="0">Oils!$A$1:$C$1</definedName>',
  ),
  "a hidden sheet": tab("worksheet", "hidden", sheet("")),
  "a very hidden sheet": tab("worksheet", "veryHidden", sheet("")),
  "a sheet of one chart": tab("chartsheet", "visible", `${HEAD}<chartsheet xmlns="${MAIN}"/>`),
  "a locked structure": inWorkbook("<sheets>", '<workbookProtection lockStructure="1"/><sheets>'),
  "an order of calculation": beside(
    "xl/workbook.xml",
    "calcChain",
    "xl/calcChain.xml",
    `${HEAD}<calcChain xmlns="${MAIN}"><c r="C1" i="1"/></calcChain>`,
  ),
};

/** A sheet that its maker has locked. */
export const lockedBook = zipped(
  after('<sheetProtection sheet="1" objects="1" scenarios="1" password="CC1A"/>'),
);

/** Every kind, as the bytes of its file. */
export const foreignKinds: [kind: string, bytes: Uint8Array][] = [
  ...Object.entries(KINDS).map(([kind, parts]): [string, Uint8Array] => [kind, zipped(parts)]),
  ["a part in UTF-16", inUtf16()],
  ["a part in Latin-1", inLatin1()],
];
