/** A maker's own list of costs, as a sheet beside the first. */
import type { Page } from "playwright-core";

/** Sixty lines of supplier, price and pack, as an opened workbook has them. */
const LINES = Array.from({ length: 60 }, (_, i) => [
  `Oil ${i + 1}`,
  i % 2 ? "Pinefold" : "Hollow & Reed",
  `$${(12 + i * 1.5).toFixed(2)}`,
  String(1 + (i % 4)),
  ["lb", "oz", "gal", "floz", "mL"][i % 5] ?? "",
  i % 7 === 3 ? "" : "0.91",
  i % 3 ? "4.5" : "",
]);

export async function ownSheet(page: Page) {
  const cells = [
    ["What I pay"],
    [],
    ["Item", "Supplier", "Price", "Size", "Unit", "Density", "Freight"],
    ...LINES,
  ].flatMap((line, row) => line.map((content, col) => ({ row, col, content })));
  await page.evaluate((all) => {
    const { model } = globalThis.localSheet;
    model.dispatch("CREATE_SHEET", { sheetId: "own", position: 1, name: "Costs" });
    const sheetIdFrom = model.getters.getActiveSheetId();
    model.dispatch("ACTIVATE_SHEET", { sheetIdFrom, sheetIdTo: "own" });
    for (const cell of all) model.dispatch("UPDATE_CELL", { sheetId: "own", ...cell });
  }, cells);
}
