/** Writes exceljs.xlsx: the same workshop by another library, with shared texts, rich texts and a picture. */
import ExcelJS from "exceljs";

const PIXEL =
  "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==";
const book = new ExcelJS.Workbook();
book.creator = "Ana";
book.created = book.modified = new Date("2026-11-25T09:00:00Z");
const sheet = book.addWorksheet("Oils", {
  views: [{ state: "frozen", xSplit: 0, ySplit: 1, showGridLines: false }],
  pageSetup: { orientation: "landscape", fitToPage: true, fitToHeight: 0 },
  headerFooter: { oddFooter: "&CPage &P" },
  properties: { tabColor: { argb: "FFAA00CC" } },
});
sheet.addTable({
  name: "Oils",
  ref: "A1",
  headerRow: true,
  totalsRow: true,
  style: { theme: "TableStyleMedium4", showRowStripes: true },
  columns: [
    { name: "Oil", filterButton: true, totalsRowLabel: "All" },
    { name: "Price", totalsRowFunction: "sum" },
    { name: "Bought" },
  ],
  rows: [
    ["Rain", 46, new Date("2026-11-25T00:00:00Z")],
    ["Moss", 38.5, new Date("2026-11-26T09:30:00Z")],
  ],
});
sheet.getCell("G1").value = "Change this";
sheet.getCell("H1").value = 10;
sheet.getCell("I1").value = { formula: "H1*2", result: 20 };
sheet.getCell("G2").value = {
  richText: [
    { text: "rich " },
    { text: "text", font: { bold: true, color: { argb: "FFAA3300" } } },
  ],
};
sheet.getCell("G3").value = {
  text: "shop",
  hyperlink: "https://rain.example/?a=1&b=2",
  tooltip: "go",
};
sheet.getCell("G4").value = { error: "#N/A" };
sheet.getCell("G5").value = false;
sheet.getCell("G6").value = "two\nlines";
sheet.getCell("G6").alignment = { wrapText: true };
sheet.getCell("H3").value = { formula: "H1+ROW()", result: 13 };
sheet.fillFormula("H4:H6", "H1*ROW()", [40, 50, 60]);
sheet.getCell("G7").note = "ask again";
sheet.getCell("G8").value = "merged";
sheet.mergeCells("G8:I9");
sheet.getCell("G10").dataValidation = { type: "list", allowBlank: true, formulae: ['"Rain,Moss"'] };
sheet.getCell("H1").style = {
  font: { name: "Georgia", size: 13, italic: true },
  fill: { type: "pattern", pattern: "darkTrellis", fgColor: { argb: "FFFFEECC" } },
  border: { left: { style: "double", color: { argb: "FF112233" } } },
  numFmt: "0.00",
};
sheet.addConditionalFormatting({
  ref: "B2:B3",
  rules: [
    { type: "dataBar", cfvo: [{ type: "min" }, { type: "max" }], color: { argb: "FF88CC88" } },
  ],
});
sheet.getColumn(1).width = 22;
sheet.getRow(5).hidden = true;
book.definedNames.add("Oils!$H$1", "batch");
const picture = book.addImage({ base64: PIXEL, extension: "png" });
sheet.addImage(picture, { tl: { col: 0, row: 12 }, ext: { width: 40, height: 40 } });
book.addWorksheet("My notes", { state: "veryHidden" }).getCell("A1").value = {
  formula: "batch+1",
  result: 11,
};
await book.xlsx.writeFile("exceljs.xlsx");
