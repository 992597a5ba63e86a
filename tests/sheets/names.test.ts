/** A name that is not found as it looks, for a space too many, or that finds others: told on its line. */
import { expect, test } from "vitest";
import { wholeSet } from "./whole-set";

test("a space behind a name is said on its line, and a recipe that lost its oil by it says so", async () => {
  const set = await wholeSet(false, ["Materials", "Recipes", "Sizes"]);
  await set.type("Materials", "materials.name", 0, "Fen base");
  await set.type("Materials", "materials.name", 1, "Kelp oil ");
  await set.type("Sizes", "sizes.size", 0, "Tin  ");
  const lines = [
    ["Mist", "Fen base", null],
    ["Mist ", "Kelp oil", 0.04],
  ] as const;
  for (const [line, [recipe, material, load]] of lines.entries()) {
    await set.type("Recipes", "recipes.recipe", line, recipe);
    await set.type("Recipes", "recipes.material", line, material);
    await set.type("Recipes", "recipes.load", line, load);
  }
  await set.type("Recipes", "recipes.of", 0, "finished");
  // What it says: the words of the templates.
  expect(await set.at("Materials", "materials.said", 0)).not.toContain("space");
  expect(await set.at("Materials", "materials.said", 1)).toContain("a space too many in the name");
  expect(await set.at("Sizes", "sizes.said", 0)).toContain("a space too many in the name");
  const [first, second] = [
    await set.at("Recipes", "recipes.said", 0),
    await set.at("Recipes", "recipes.said", 1),
  ];
  // By hand: "Mist" has its base alone, all of it.
  expect(await set.at("Recipes", "recipes.share", 0)).toBe(1);
  expect(first).toContain("no load is typed: all of it is this one");
  expect(second).toContain("a space too many in the recipe's name");
  expect(second).toContain("not in Materials, or not in use");
});

test("a space of a web page in a name is said on its line", async () => {
  const set = await wholeSet(false, ["Materials", "Recipes", "Sizes"]);
  await set.type("Materials", "materials.name", 0, "Fen\u00a0base");
  await set.type("Materials", "materials.name", 1, "Kelp oil");
  await set.type("Sizes", "sizes.size", 0, "Small\u00a0tin");
  await set.type("Recipes", "recipes.recipe", 0, "Sea\u00a0mist");
  const said = "a web page's space in the";
  expect(await set.at("Materials", "materials.said", 0)).toContain(
    `${said} name: type a plain one`,
  );
  expect(await set.at("Materials", "materials.said", 1)).not.toContain("space");
  expect(await set.at("Sizes", "sizes.said", 0)).toContain(said);
  expect(await set.at("Recipes", "recipes.said", 0)).toContain(`${said} recipe's name`);
});

test("a name that a search takes for others' is said on its line", async () => {
  const set = await wholeSet(false, ["Materials", "Recipes", "Sizes"]);
  const names = ["Kelp oil*", "Kelp ?", "Kelp~1", ">Kelp", "Kelp oil (new), 50 = 50"];
  for (const [line, name] of names.entries())
    await set.type("Materials", "materials.name", line, name);
  await set.type("Materials", "materials.price", 0, 9);
  const said = await Promise.all(names.map((_, i) => set.at("Materials", "materials.said", i)));
  expect(said.map((text) => String(text).includes("may find another line"))).toEqual([
    ...[true, true, true, true],
    false,
  ]);
});
