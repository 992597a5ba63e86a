/** A copy of a workbook whose Materials draws from a list of the maker's own, worked out by LibreOffice. */
import { describe, expect, test } from "vitest";
import { mainList } from "../../taskpane/from-cells/list";
import { proposed } from "../../taskpane/from-cells/own-columns";
import { drawFromOwnList } from "../../taskpane/from-cells/own-list";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet } from "../../taskpane/sheets/insert";
import { template } from "../../taskpane/templates/materials";
import { LocalWorkbook, newModel, toXlsx } from "../localsheet/load-engine";
import { holdCopy } from "./copies";
import { libreOffice } from "./libreoffice";

/** Two offers of one oil, a price as a text, a pack as one text, a total below. */
const LINES = [
  ["Vendor", "Item", "Cost", "Pack", "Shipping", "Packs"],
  ["Tarn Row", "Fen Base", "'$46.00", "1/2 gal", 14.5, 1],
  ["Pinefold", "Kelp Oil", 27.4, "1 lb", 0, 2],
  ["Holm", "Kelp Oil", 25, "1 lb", 6, 1],
  ["Pinefold", "Sloe  Oil", 12, "4 x 25 mL", null, 1],
];

describe.skipIf(!libreOffice)("one's own list", () => {
  test("is drawn alike in the copy, sorted, longer by a line, and its sheet renamed", async () => {
    const model = newModel();
    const workbook = new LocalWorkbook(model);
    const [sheet = ""] = await workbook.sheetNames();
    const lay = (lines: (string | number | null)[][]) =>
      workbook.write(
        lines.flatMap((line, row) =>
          line.map((content, column) => ({ spot: { sheet, row, column }, content })),
        ),
      );
    await lay([...LINES, [], ["Total", null, 110.4]]);
    await insertSet(workbook, [template], false);
    const list = await mainList(workbook, sheet);
    const materials = (await findSheets(workbook, [template])).get("Materials");
    if (!list || !materials) throw new Error("no list, or no Materials");
    await drawFromOwnList(workbook, materials, list, proposed(list));
    const [head = [], ...lines] = LINES;
    await lay([head, ...lines.reverse(), ["Holm", "Salt Oil", 5, "1 oz", 1, 1]]);
    const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
    model.dispatch("RENAME_SHEET", { sheetId, oldName: sheet, newName: "What I pay" });
    const { row = 0, column = 0 } = materials.places.get("materials.price") ?? {};
    const prices = await workbook.read({ sheet: materials.sheet, row, column }, 5, 1);
    expect(prices.flat()).toEqual([46, 27.4, 25, 12, ""]);
    expect(holdCopy(await toXlsx(model))).toBeGreaterThan(1000);
  }, 300_000);
});
