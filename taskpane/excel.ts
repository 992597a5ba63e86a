/** The pane in Excel. */
import { element, found } from "./pane/elements.ts";
import { ExcelWorkbook } from "./host/excel-workbook.ts";
import { mountPane } from "./pane/pane.ts";
import { followTheme } from "./pane/theme.ts";

const root = found("#pane", HTMLElement);

void Office.onReady(({ host }) => {
  followTheme(Office.context, Office.EventType.OfficeThemeChanged);
  if (host === Office.HostType.Excel) mountPane(root, new ExcelWorkbook());
  else root.replaceChildren(element("p", {}, "Open this pane from Excel: Home, then Mistwright."));
});
