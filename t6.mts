import { LocalWorkbook, newModel } from "./tests/localsheet/load-engine.ts";
import { templates } from "./taskpane/templates/index.ts";
import { insertSet } from "./taskpane/sheets/insert.ts";
import { findSheets } from "./taskpane/sheets/find.ts";
import { bookRun, takeBack } from "./taskpane/pane/runs.ts";
const model = newModel(); const wb = new LocalWorkbook(model);
await insertSet(wb, templates, true);
const o = await findSheets(wb, templates);
const B = 1000, cells: any[] = [];
const put = (t: string, n: string, line: number, content: any) => { const { sheet, places } = o.get(t)!; const p = places.get(n)!; cells.push({ spot: { sheet, row: p.row + line, column: p.column }, content }); };
for (let i = 10; i < B; i++) { put("Batch book", "batches.number", i, `C-${i}`); put("Batch book", "batches.date", i, 46300); put("Batch book", "batches.count", i, 5); put("Batch book", "batches.weight", i, 4); }
for (let i = 63; i < B * 4; i++) { put("Weighed", "weighed.batch", i, `C-${10 + i % (B - 10)}`); put("Weighed", "weighed.material", i, "Alder Clear"); put("Weighed", "weighed.lot", i, "AC-1"); put("Weighed", "weighed.grams", i, 1); }
let t = Date.now(); await wb.write(cells); console.log("written", Date.now() - t);
const id = model.getters.getSheetIdByName("Bench sheet")!; model.dispatch("ACTIVATE_SHEET", { sheetIdFrom: model.getters.getActiveSheetId(), sheetIdTo: id });
t = Date.now(); console.log(await bookRun(wb)); await wb.read({ sheet: "Materials", row: 12, column: 19 }, 1, 1); console.log("booked", Date.now() - t);
t = Date.now(); console.log(await takeBack(wb, "B-011")); await wb.read({ sheet: "Materials", row: 12, column: 19 }, 1, 1); console.log("back", Date.now() - t);
