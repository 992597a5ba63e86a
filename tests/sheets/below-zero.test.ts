/** More was poured than was counted: told where the count stands, not on the buying plan alone. */
import { expect, test } from "vitest";
import { wholeSet } from "./whole-set";

test("a material that is on hand below zero says so on its line of Materials", async () => {
  const set = await wholeSet(false, ["Materials"]);
  await set.type("Materials", "materials.name", 0, "Fen base");
  await set.type("Materials", "materials.counted", 0, -5);
  expect(await set.at("Materials", "materials.said", 0)).toContain("on hand is below zero");
  await set.type("Materials", "materials.counted", 0, 0);
  expect(await set.at("Materials", "materials.said", 0)).not.toContain("below zero");
});
