/** The pane in Excel. */
import { element } from "./elements";
import { ExcelWorkbook } from "./excel-workbook";
import { mountPane } from "./pane";

const root = document.getElementById("pane") as HTMLElement;

void Office.onReady(({ host }) => {
  if (host === Office.HostType.Excel) mountPane(root, new ExcelWorkbook());
  else root.replaceChildren(element("p", {}, "Open this pane from Excel: Home, then Mistwright."));
});
