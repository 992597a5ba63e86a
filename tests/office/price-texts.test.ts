/** Copies of sheets whose prices are texts, worked out by LibreOffice: never another number. */
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { PRICE_TEXTS } from "../files/price-texts";
import { readBook } from "../files/read-book";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { cellOf, isSame, tell } from "./compare";
import { libreOffice, recalculated } from "./libreoffice";

/** The first sheet of a file with texts in place of numbers. */
function withTexts(bytes: Uint8Array, texts: Record<string, string>): Uint8Array {
  const parts = unzipSync(bytes);
  const path = "xl/worksheets/sheet0.xml";
  const sheet = Object.entries(texts).reduce(
    (xml, [cell, text]) =>
      xml.replace(
        new RegExp(`<c r="${cell}"[^>]*>.*?</c>`),
        `<c r="${cell}" t="inlineStr"><is><t>${text}</t></is></c>`,
      ),
    strFromU8(parts[path]),
  );
  return zipSync({ ...parts, [path]: strToU8(sheet) });
}

describe.skipIf(!libreOffice)("prices as texts", () => {
  test("answer as they did, and what was refused is refused", async () => {
    const cells = PRICE_TEXTS;
    const bytes = await toXlsx(newModel({ sheets: [{ id: "s", name: "Costs", cells }] }));
    const [ours, theirs] = [readBook(bytes), readBook(recalculated(handOver(bytes).bytes))];
    const own = [...(ours.get("Costs") ?? [])];
    expect(own.length).toBeGreaterThan(15);
    for (const [cell, value] of own) {
      const other = cellOf(theirs, "Costs", cell);
      expect(isSame(value, other), tell("Costs", cell, value, other)).toBe(true);
    }
  }, 120_000);

  test("a text that is typed later where a number stood is refused, not read as another", async () => {
    const cells = {
      A1: "6",
      B1: "0.5",
      C1: "=MIST.ASKPRICE(A1,B1)",
      C2: "=MIST.BOTTLECOST(1,D1:D2,E1:E2)",
      D1: "0.5",
      D2: "0.5",
      E1: "4",
      E2: "8",
    };
    const { bytes } = handOver(
      await toXlsx(newModel({ sheets: [{ id: "s", name: "Costs", cells }] })),
    );
    const typed = withTexts(bytes, { A1: "6.00", E1: "$4" });
    const costs = readBook(recalculated(typed)).get("Costs");
    expect([costs?.get("C1")?.isError, costs?.get("C2")?.isError]).toEqual([true, true]);
  }, 120_000);
});
