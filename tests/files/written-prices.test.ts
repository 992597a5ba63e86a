/** Prices that are texts in a copy: what comes of one is fixed, and says why; all else stays live. */
import { expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { PRICE_ANSWERS, PRICE_TEXTS } from "./price-texts";
import { readBook } from "./read-book";

test("a price that is a text fixes its answer, and no other", async () => {
  const cells = PRICE_TEXTS;
  const copy = handOver(await toXlsx(newModel({ sheets: [{ id: "s", name: "Costs", cells }] })));
  const became = new Map(copy.replaced.map((each) => [each.cell, each]));
  const fixed = [...became.values()].filter((each) => each.became === "value");
  expect(fixed.map(({ cell }) => cell)).toEqual(["E1", "E4", "E5", "E6", "E9:H9"]);
  expect(became.get("E5")?.what).toBe(
    "freight is a price that is a text, which no native formula reads",
  );
  // A plain formula is as short as it was: nothing in it reads texts.
  expect(became.get("E2")?.what).toMatch(/^=IF\(AND\(ISNUMBER\(A2\),.*,A2\/\(1-N\(B1\)\),/);
  const values = readBook(copy.bytes).get("Costs");
  for (const [cell, answer] of Object.entries(PRICE_ANSWERS))
    expect(values?.get(cell)?.value, cell).toBeCloseTo(answer, 12);
});
