/** What is typed further down than formulas look is counted as filled, and the count that differs says so. */
import { expect, test } from "vitest";
import { templates } from "../../taskpane/templates/index";
import { oneSheet } from "./one-sheet";

const lists = templates.flatMap(({ title, parts }) =>
  parts.flatMap((part) => ("list" in part && part.reach !== undefined ? [{ title, part }] : [])),
);

test.each([
  ["Sizes", "sizes.size"],
  ["Recipes", "recipes.recipe"],
  ["What is in it", "ingredients.ingredient"],
])("%s, a line below the last that is counted", async (title, column) => {
  const reach = lists.find((each) => each.title === title)?.part.reach ?? NaN;
  const { model, at, put } = await oneSheet(title);
  const [filled, counted] = [at("filled"), at("counted")];
  const sheetId = model.getters.getActiveSheetId();
  const have = model.getters.getNumberRows(sheetId);
  const quantity = Math.max(1, reach + 100 - have);
  model.dispatch("ADD_COLUMNS_ROWS", {
    ...{ sheetId, sheetName: title, dimension: "ROW", base: have - 1, position: "after" },
    quantity,
  });
  put(column, "One too far down", reach + 20);
  expect([at("filled"), at("counted")]).toEqual([Number(filled) + 1, counted]);
  expect(at("filled", 0, 1)).toMatch(/below the last one that is counted/);
});
