/**
 * A workbook as Excel stores one, with what people put into workbooks: names, a table, filled formulas, spilled
 * ones and what reads them, notes, a conversation, rules, a picture, widths. Written by hand after ECMA-376
 * part 1 and the way that Microsoft's documentation says calls of add-ins are stored.
 */
import { strToU8, zipSync } from "fflate";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

const number = (name: string, value: number, style = 0) =>
  `<c r="${name}" s="${style}"><v>${value}</v></c>`;
const text = (name: string, value: string) =>
  `<c r="${name}" t="inlineStr"><is><t>${value}</t></is></c>`;
/** A formula with a call of ours: Excel stores it as a dynamic array. */
const dynamic = (name: string, formula: string, value: number | string, ref = name, more = "") =>
  `<c r="${name}" cm="1"${more}><f t="array" ref="${ref}">${formula}</f><v>${value}</v></c>`;
const plain = (name: string, formula: string, value: number | string, more = "") =>
  `<c r="${name}"${more}><f>${formula}</f><v>${value}</v></c>`;

/** Rows of cells, from a list in the order of the sheet. */
function rows(cells: string[]): string {
  const byRow = new Map<number, string[]>();
  for (const cell of cells) {
    const row = Number(/r="[A-Z]+(\d+)"/.exec(cell)?.[1]);
    byRow.set(row, [...(byRow.get(row) ?? []), cell]);
  }
  return [...byRow]
    .sort(([a], [b]) => a - b)
    .map(([row, list]) => `<row r="${row}">${list.join("")}</row>`)
    .join("");
}

const U = "_xldudf_MIST_";

export const CELLS = [
  text("A1", "Batch (g)"),
  number("B1", 60, 1),
  text("A2", "Load"),
  number("B2", 0.05, 1),
  dynamic("B3", `${U}OILFOR(batch,load)`, 3),
  plain("B4", "oil*2", 6),
  dynamic("B5", "SUM(plan)", 2),
  // By hand: 3 g of oil and 57 g of base, and the oil in the base's convention.
  dynamic(
    "B6",
    `IF(B1=0,"",${U}BASEFOR(batch,${U}LOADOF(3,57))&amp;" g")`,
    "57 g",
    "B6",
    ' t="str"',
  ),
  dynamic("B7", `${U}OILFOR(batch,5)`, "#VALUE!", "B7", ' t="e" vm="1"'),
  // Filled down as one formula. By hand: over 28.349523125.
  number("E1", 10),
  number("E2", 20),
  number("E3", 40),
  `<c r="F1"><f t="shared" ref="F1:F3" si="0">${U}TURN(E1,"g","oz")</f><v>${10 / 28.349523125}</v></c>`,
  `<c r="F2"><f t="shared" si="0"/><v>${20 / 28.349523125}</v></c>`,
  `<c r="F3"><f t="shared" si="0"/><v>${40 / 28.349523125}</v></c>`,
  // One that is none of ours stays as it is.
  '<c r="G1"><f t="shared" ref="G1:G2" si="1">E1*2</f><v>20</v></c>',
  '<c r="G2"><f t="shared" si="1"/><v>40</v></c>',
  dynamic("H1", `${U}OILFOR(E1:E3,load)`, 0.5, "H1:H3"),
  number("H2", 1),
  number("H3", 2),
  dynamic("I1", "SUM(_xlfn.ANCHORARRAY(H1))", 3.5),
  // By hand: one pack of 20 and two of 40 hold 100 for 11.50; three of 40 cost 12.
  dynamic("K1", `${U}PACKPLAN(100,TRANSPOSE(E1:E3),{3,3.5,4})`, 0, "K1:M1"),
  number("L1", 1),
  number("M1", 2),
  dynamic("K2", "SUM(_xlfn.ANCHORARRAY(K1))", 3),
  plain("K3", "SUM(_xlfn.ANCHORARRAY($K$1))", 3),
  dynamic("K5", `${U}TRIONEED(30)`, 15),
  dynamic("K6", `${U}TRIONEED(24)`, 13),
  dynamic(
    "K7",
    `${U}NETLABEL(4,"floz")&amp;REPT(" ",2)&amp;${U}TRIONEED(24)`,
    "4 fl oz (118 mL)  13",
    "K7",
    ' t="str"',
  ),
  text("A10", "Price"),
  text("B10", "Size"),
  text("C10", "Cost"),
  number("A11", 10),
  number("B11", 500),
  plain(
    "C11",
    `${U}FLOZCOST(Packs[[#This Row],[Price]],Packs[[#This Row],[Size]],"mL")`,
    (10 / 500) * 29.5735295625,
  ),
  number("A12", 15),
  number("B12", 1000),
  plain(
    "C12",
    `${U}FLOZCOST(Packs[[#This Row],[Price]],Packs[[#This Row],[Size]],"mL")`,
    (15 / 1000) * 29.5735295625,
  ),
  // By hand: (500 x 10 + 1000 x 15) / 1500.
  dynamic("B14", `${U}BLENDOF(Packs[Size],Packs[Price])`, 20000 / 1500),
  dynamic("B15", `SUM(${U}LANDED(Packs[Price],{1;1},5))`, 30),
];

const PARTS: Record<string, string> = {
  "[Content_Types].xml": `${HEAD}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/><Default Extension="png" ContentType="image/png"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/><Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/><Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/><Override PartName="/xl/comments1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"/><Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>`,
  "_rels/.rels": `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${REL}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
  "xl/workbook.xml": `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${REL}"><sheets><sheet name="Costs" sheetId="1" r:id="rId1"/><sheet name="Hand over" sheetId="7" r:id="rId2"/></sheets><definedNames><definedName name="batch">Costs!$B$1</definedName><definedName name="load">Costs!$B$2</definedName><definedName name="oil">${U}OILFOR(Costs!$B$1,Costs!$B$2)</definedName><definedName name="plan">${U}PACKPLAN(50,Costs!$E$3,4)</definedName></definedNames><calcPr calcId="191029"/></workbook>`,
  "xl/_rels/workbook.xml.rels": `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${REL}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${REL}/worksheet" Target="/xl/worksheets/sheet2.xml"/><Relationship Id="rId3" Type="${REL}/styles" Target="styles.xml"/><Relationship Id="rId4" Type="${REL}/sheetMetadata" Target="metadata.xml"/><Relationship Id="rId5" Type="${REL}/calcChain" Target="calcChain.xml"/></Relationships>`,
  "xl/worksheets/sheet1.xml": `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${REL}" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac" mc:Ignorable="x14ac"><cols><col min="1" max="1" width="31.7" customWidth="1"/></cols><sheetData>${rows(CELLS)}</sheetData><mergeCells count="1"><mergeCell ref="A20:C20"/></mergeCells><conditionalFormatting sqref="B3"><cfRule type="expression" priority="1"><formula>B3&gt;${U}OILFOR(B1,B2)</formula></cfRule></conditionalFormatting><dataValidations count="1"><dataValidation type="decimal" sqref="B2"><formula1>0</formula1><formula2>1</formula2></dataValidation></dataValidations><pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/><legacyDrawing r:id="rId2"/><tableParts count="1"><tablePart r:id="rId1"/></tableParts></worksheet>`,
  "xl/worksheets/_rels/sheet1.xml.rels": `${HEAD}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${REL}/table" Target="../tables/table1.xml"/><Relationship Id="rId2" Type="${REL}/vmlDrawing" Target="../drawings/vmlDrawing1.vml"/><Relationship Id="rId3" Type="${REL}/comments" Target="../comments1.xml"/></Relationships>`,
  "xl/worksheets/sheet2.xml": `${HEAD}<worksheet xmlns="${MAIN}"><sheetData><row r="1">${text("A1", "Ours already")}</row></sheetData></worksheet>`,
  "xl/styles.xml": `${HEAD}<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="10" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>`,
  "xl/metadata.xml": `${HEAD}<metadata xmlns="${MAIN}" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`,
  "xl/tables/table1.xml": `${HEAD}<table xmlns="${MAIN}" id="1" name="Packs" displayName="Packs" ref="A10:C12" totalsRowShown="0"><autoFilter ref="A10:C12"/><tableColumns count="3"><tableColumn id="1" name="Price"/><tableColumn id="2" name="Size"/><tableColumn id="3" name="Cost"><calculatedColumnFormula>${U}FLOZCOST(Packs[[#This Row],[Price]],Packs[[#This Row],[Size]],"mL")</calculatedColumnFormula></tableColumn></tableColumns></table>`,
  "xl/comments1.xml": `${HEAD}<comments xmlns="${MAIN}"><authors><author>Partner</author><author>tc={AA}</author></authors><commentList><comment ref="K5" authorId="0"><text><t>Ask Ana</t></text></comment><comment ref="K6" authorId="1"><text><t>[Threaded comment]</t></text></comment></commentList></comments>`,
  // As Excel writes it: not well-formed XML.
  "xl/drawings/vmlDrawing1.vml":
    '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="_x0000_s1025" type="#_x0000_t202"><v:textbox><div><br></div></v:textbox><x:ClientData ObjectType="Note"><x:Row>4</x:Row><x:Column>10</x:Column></x:ClientData></v:shape></xml>',
  "xl/calcChain.xml": `${HEAD}<calcChain xmlns="${MAIN}"><c r="B3" i="1"/></calcChain>`,
};

/** Nobody's business: no part that is to be changed. */
export const PICTURE = new Uint8Array([137, 80, 78, 71, 1, 2, 3, 250]);

export function asExcel(): Uint8Array {
  const parts = Object.entries(PARTS).map(([path, xml]) => [path, strToU8(xml)]);
  return zipSync({ ...Object.fromEntries(parts), "xl/media/image1.png": PICTURE } as Record<
    string,
    Uint8Array
  >);
}
