/** Workbooks as other programs write them: small parts written by hand, zipped. */
import { strToU8, zipSync } from "fflate";

export const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
export const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const STRICT = "http://purl.oclc.org/ooxml/";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";
export const HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n';

export type PartTexts = Record<string, string>;

export const relations = (...all: [id: string, type: string, target: string][]) =>
  `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${all
    .map(
      ([id, type, target]) =>
        `<Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"/>`,
    )
    .join("")}</Relationships>`;

export const sheet = (rows: string, after = "", before = "") =>
  `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`;

export const inline = (name: string, text: string, more = "") =>
  `<c r="${name}"${more} t="inlineStr"><is><t>${text}</t></is></c>`;

export const STYLES = `${HEAD}<styleSheet xmlns="${MAIN}"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="14"/><color rgb="00C00000"/><name val="Georgia"/></font></fonts><fills count="3"><fill><patternFill/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="00FFF2CC"/></patternFill></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="2" borderId="0" xfId="0" applyFont="1" applyFill="1"/><xf numFmtId="10" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;

/** The parts of a workbook with one sheet, as openpyxl lays them out: targets from the root, texts inline. */
export function partsOf(sheetXml: string): PartTexts {
  return {
    "[Content_Types].xml": `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${TYPE}.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/></Types>`,
    "_rels/.rels": relations(["rId1", "officeDocument", "/xl/workbook.xml"]),
    "xl/workbook.xml": `${HEAD}<workbook xmlns="${MAIN}"><sheets><sheet xmlns:r="${OFFICE}" name="Oils" sheetId="1" state="visible" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": relations(
      ["rId1", "worksheet", "/xl/worksheets/sheet1.xml"],
      ["rId2", "styles", "/xl/styles.xml"],
    ),
    "xl/worksheets/sheet1.xml": sheetXml,
    "xl/styles.xml": STYLES,
  };
}

export function zipped(parts: PartTexts): Uint8Array {
  const bytes = Object.entries(parts).map(([path, text]) => [path, strToU8(text)]);
  return zipSync(Object.fromEntries(bytes) as Record<string, Uint8Array>);
}

/** The same parts in strict names. */
export function strict(parts: PartTexts): PartTexts {
  const named = Object.entries(parts).map(([path, text]) => [
    path,
    text
      .replaceAll(OFFICE, `${STRICT}officeDocument/relationships`)
      .replaceAll(MAIN, `${STRICT}spreadsheetml/main`),
  ]);
  return Object.fromEntries(named) as PartTexts;
}

/** The same parts with a prefix before every name of the main kind. */
export function prefixed(parts: PartTexts): PartTexts {
  const named = Object.entries(parts).map(([path, text]) => {
    if (!text.includes(`xmlns="${MAIN}"`)) return [path, text];
    const marks = text.replace(/<(\/?)(?=[a-zA-Z])/g, "<$1x:");
    return [path, marks.replace(`xmlns="${MAIN}"`, `xmlns:x="${MAIN}"`)];
  });
  return Object.fromEntries(named) as PartTexts;
}

/** What people put beside their cells: notes, a table, a chart, rules, print set-up, parts of their own. */
export function richParts(): PartTexts {
  const rows =
    `<row r="1" spans="1:3">${inline("A1", "Oil", ' s="1"')}${inline("B1", "Price")}${inline("C1", "Load")}</row>` +
    `<row r="2">${inline("A2", "rain")}<c r="B2"><v>10</v></c><c r="C2" s="2"><v>0.05</v></c></row>` +
    `<row r="3">${inline("A3", "moss")}<c r="B3"><v>12</v></c><c r="C3" s="2"><v>0.1</v></c></row>` +
    '<row r="5"><c r="B5"><f>SUM(Oils[Price])</f><v>22</v></c><c r="C5"><f t="shared" ref="C5:C6" si="3">B2*2</f><v>20</v></c></row>' +
    '<row r="6"><c r="B6"><f>SUM(B2:B3)</f><v>22</v></c><c r="C6"><f t="shared" si="3"/><v>24</v></c></row>';
  const after =
    '<mergeCells count="1"><mergeCell ref="E1:F1"/></mergeCells>' +
    '<conditionalFormatting sqref="B2:B3"><cfRule type="cellIs" dxfId="0" priority="1" operator="greaterThan"><formula>11</formula></cfRule></conditionalFormatting>' +
    '<dataValidations count="1"><dataValidation type="whole" allowBlank="1" showErrorMessage="1" promptTitle="Price" prompt="whole" sqref="B2:B3"><formula1>1</formula1><formula2>99</formula2></dataValidation></dataValidations>' +
    '<printOptions gridLines="1"/><pageMargins left="0.5" right="0.5" top="0.5" bottom="0.5" header="0.3" footer="0.3"/><pageSetup orientation="landscape"/><headerFooter><oddFooter>&amp;CPage &amp;P</oddFooter></headerFooter>' +
    '<drawing r:id="rId3"/><legacyDrawing r:id="rId2"/><tableParts count="1"><tablePart r:id="rId4"/></tableParts>';
  const base = partsOf(sheet(rows, after, '<dimension ref="A1:F6"/>'));
  const types = base["[Content_Types].xml"].replace(
    "</Types>",
    `<Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/><Override PartName="/xl/comments1.xml" ContentType="${TYPE}.comments+xml"/><Override PartName="/xl/tables/table1.xml" ContentType="${TYPE}.table+xml"/><Override PartName="/xl/drawings/drawing1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"/><Override PartName="/xl/charts/chart1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawingml.chart+xml"/></Types>`,
  );
  const chart = "http://schemas.openxmlformats.org/drawingml/2006/chart";
  const drawing = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing";
  const art = "http://schemas.openxmlformats.org/drawingml/2006/main";
  return {
    ...base,
    "[Content_Types].xml": types,
    "xl/workbook.xml": base["xl/workbook.xml"].replace(
      "</workbook>",
      '<definedNames><definedName name="_xlnm.Print_Area" localSheetId="0">Oils!$A$1:$C$6</definedName><definedName name="prices">Oils!$B$2:$B$3</definedName></definedNames></workbook>',
    ),
    "xl/styles.xml": base["xl/styles.xml"].replace(
      "</styleSheet>",
      '<dxfs count="1"><dxf><fill><patternFill><bgColor rgb="FFFFC7CE"/></patternFill></fill></dxf></dxfs></styleSheet>',
    ),
    "xl/worksheets/_rels/sheet1.xml.rels": relations(
      ["rId1", "comments", "/xl/comments1.xml"],
      ["rId2", "vmlDrawing", "/xl/drawings/vmlDrawing1.vml"],
      ["rId3", "drawing", "/xl/drawings/drawing1.xml"],
      ["rId4", "table", "/xl/tables/table1.xml"],
    ),
    "xl/comments1.xml": `${HEAD}<comments xmlns="${MAIN}"><authors><author>Ana</author></authors><commentList><comment ref="B3" authorId="0"><text><t>ask again</t></text></comment></commentList></comments>`,
    "xl/drawings/vmlDrawing1.vml":
      '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="_x0000_s1025" type="#_x0000_t202"><x:ClientData ObjectType="Note"><x:Anchor>2, 12, 2, 4, 6, 12, 8, 4</x:Anchor><x:Row>2</x:Row><x:Column>1</x:Column></x:ClientData></v:shape></xml>',
    "xl/tables/table1.xml": `${HEAD}<table xmlns="${MAIN}" id="1" name="Oils" displayName="Oils" ref="A1:C3" totalsRowShown="0"><autoFilter ref="A1:C3"/><tableColumns count="3"><tableColumn id="1" name="Oil"/><tableColumn id="2" name="Price"/><tableColumn id="3" name="Load"/></tableColumns></table>`,
    "xl/drawings/drawing1.xml": `${HEAD}<xdr:wsDr xmlns:xdr="${drawing}" xmlns:a="${art}"><xdr:twoCellAnchor><xdr:from><xdr:col>4</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>7</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:to><xdr:col>9</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>17</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to><xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="Prices"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr><xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm><a:graphic><a:graphicData uri="${chart}"><c:chart xmlns:c="${chart}" xmlns:r="${OFFICE}" r:id="rId1"/></a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`,
    "xl/drawings/_rels/drawing1.xml.rels": relations(["rId1", "chart", "/xl/charts/chart1.xml"]),
    "xl/charts/chart1.xml": `${HEAD}<c:chartSpace xmlns:c="${chart}" xmlns:a="${art}"><c:chart><c:plotArea><c:layout/><c:barChart><c:barDir val="col"/><c:grouping val="clustered"/><c:varyColors val="0"/><c:ser><c:idx val="0"/><c:order val="0"/><c:cat><c:strRef><c:f>Oils!$A$2:$A$3</c:f></c:strRef></c:cat><c:val><c:numRef><c:f>Oils!$B$2:$B$3</c:f></c:numRef></c:val></c:ser><c:axId val="1"/><c:axId val="2"/></c:barChart><c:catAx><c:axId val="1"/><c:scaling/><c:axPos val="b"/><c:crossAx val="2"/></c:catAx><c:valAx><c:axId val="2"/><c:scaling/><c:axPos val="l"/><c:crossAx val="1"/></c:valAx></c:plotArea></c:chart></c:chartSpace>`,
    "customXml/item1.xml": "<mine>nobody else's</mine>",
  };
}
