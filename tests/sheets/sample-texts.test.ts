/** A sample whose size is a text, "100 mL" with its unit blank, in a partner's copy. */
import { expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { cellName } from "../../functions/formula/addresses";
import { toXlsx } from "../localsheet/load-engine";
import { wholeSet } from "./whole-set";

test("its cost is an ordinary formula that reads the size from beside it", async () => {
  const set = await wholeSet(false, ["Materials", "Base comparison"]);
  const line = {
    name: "Salt base",
    what: "base",
    standing: "sample only",
    density: 0.85,
    sampleprice: 6,
    samplesize: "100 mL",
  };
  for (const [name, content] of Object.entries(line))
    await set.type("Materials", `materials.${name}`, 0, content);
  // By hand: $6 for 100 mL, of 29.5735295625 mL a fluid ounce.
  const cost = 0.06 * 29.5735295625;
  const [there, drawn] = ["Materials", "Base comparison"] as const;
  expect(await set.at(there, "materials.samplefloz")).toBeCloseTo(cost, 12);
  expect(await set.at(drawn, "packs.samplefloz")).toBeCloseTo(cost, 12);
  const copy = handOver(await toXlsx(set.model));
  const cell = async (name: string) => {
    const { row, column } = await set.spot(there, `materials.${name}`);
    return cellName(row, column);
  };
  const at = await cell("samplefloz");
  const became = copy.replaced.find((each) => each.sheet === there && each.cell === at);
  // A native formula makes nothing of "100 mL": it reads what the hidden columns made of it.
  expect(became?.became).toBe("formula");
  expect(became?.what).toContain(await cell("samplepackheld"));
  expect(became?.what).not.toContain(await cell("samplesize"));
});
