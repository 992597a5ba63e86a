/** The pane in Excel. */
import { element } from "./pane/elements";
import { ExcelWorkbook } from "./host/excel-workbook";
import { mountPane } from "./pane/pane";
import { followTheme } from "./pane/theme";

const root = document.getElementById("pane") as HTMLElement;

void Office.onReady(({ host }) => {
  followTheme(Office.context, Office.EventType.OfficeThemeChanged);
  if (host === Office.HostType.Excel) mountPane(root, new ExcelWorkbook());
  else root.replaceChildren(element("p", {}, "Open this pane from Excel: Home, then Mistwright."));
});
