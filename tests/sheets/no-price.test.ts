/** A price that nobody knows is followed as unknown: nowhere does it count as nothing. */
import { expect, test } from "vitest";
import { wholeSet } from "./whole-set";

test("a price taken out of Materials makes what stands on it unknown, in words, and comes back", async () => {
  const { on, type } = await wholeSet(true, ["Materials", "Recipes", "Sizes", "Price list"]);
  const [materials, recipes, prices] = [
    await on("Materials"),
    await on("Recipes"),
    await on("Price list"),
  ];
  const first = await recipes.at("recipes.material", 1);
  // The line of the offer in use, of several.
  let line = 0;
  while ((await materials.at("materials.key", line)) !== first) line++;
  const price = await materials.at("materials.price", line);
  const before = [
    await recipes.at("recipes.costpart", 1),
    await prices.at("prices.liquid"),
    await prices.at("prices.cost"),
    await prices.at("prices.ask"),
  ];
  expect(before.map((value) => typeof value)).toEqual(["number", "number", "number", "number"]);

  await type("Materials", "materials.price", line, null);
  expect(await recipes.at("recipes.costpart", 1)).toBe("no price");
  expect(await recipes.at("recipes.said", 1)).toContain("no price");
  expect(await prices.at("prices.liquid")).toBe("no price");
  for (const name of ["cost", "ask", "kept", "keptTrade", "askTrade", "then", "more"]) {
    expect(await prices.at(`prices.${name}`), name).toBe("");
  }
  expect(await prices.at("prices.said")).toContain("an ingredient has no price");

  await type("Materials", "materials.price", line, price as number);
  expect([
    await recipes.at("recipes.costpart", 1),
    await prices.at("prices.liquid"),
    await prices.at("prices.cost"),
    await prices.at("prices.ask"),
  ]).toEqual(before);
});

test("what a change adds is blank until it is said of what, and by how much", async () => {
  const { on, type } = await wholeSet(true, ["Materials", "Recipes", "Sizes", "Price list"]);
  const prices = await on("Price list");
  const [what, change] = [await prices.at("what"), await prices.at("change")];
  const added = await prices.at("prices.more");
  expect(added).toBeGreaterThan(0);
  for (const name of ["what", "change"]) {
    await type("Price list", name, 0, null);
    expect(await prices.at("prices.more"), name).toBe("");
    expect(await prices.at("prices.then"), name).toBe("");
    await type("Price list", name, 0, (name === "what" ? what : change) as string | number);
  }
  expect(await prices.at("prices.more")).toBe(added);
});

test.each([
  ["fee", "kept"],
  ["fixed", "kept"],
  ["hour", "cost"],
])("%s left blank: what is kept is not known", async (name, blank) => {
  const { on, type } = await wholeSet(true, ["Materials", "Recipes", "Sizes", "Price list"]);
  const prices = await on("Price list");
  // A line with a price of one's own, whose price does not go.
  expect(await prices.at("prices.own", 1)).toBe(14);
  expect(await prices.at("prices.kept", 1)).toBeTypeOf("number");
  await type("Price list", name, 0, null);
  expect(await prices.at(`prices.${blank}`, 1)).toBe("");
  expect(await prices.at("prices.kept", 1)).toBe("");
  if (name === "hour") expect(await prices.at("prices.said", 1)).toContain("an hour of work?");
});
