/** What is typed further down than formulas look is counted as filled, and the count that differs says so. */
import { expect, test } from "vitest";
import { templates } from "../../taskpane/templates/index";
import { partsThere, placesOf } from "../../taskpane/sheets/lay";
import { oneSheet } from "./one-sheet";
import { wholeSet } from "./whole-set";

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

test.each([
  ["Buying plan", "runs.recipe", /^Not bought: only the 8 runs above are\.$/],
  ["Bench sheet", "pours.material", /^Not weighed: only the 12 lines above are\.$/],
  ["Spray trial log", "card.candidate", /^No score: only the 6 above have one\.$/],
  ["Limits check", "rules.place", /^Not looked at: type rules in the cream lines above\.$/],
])("%s, a line below a list that does not grow", async (title, column, words) => {
  const chosen = title === "Buying plan" ? await wholeSet() : await oneSheet(title);
  const model = chosen.model;
  const template = templates.find((each) => each.title === title);
  const parts = template?.parts ?? [];
  const place = placesOf(title === "Buying plan" ? parts : partsThere(parts)).get(column);
  if (!place) throw new Error(`${column} is not on ${title}`);
  const { row, rows } = place;
  const sheetId = model.getters.getSheetIdByName(title) ?? "";
  const said = () =>
    Array.from({ length: 30 }, (_, col) => {
      const { value } = model.getters.getEvaluatedCell({ sheetId, col, row: row + rows });
      return typeof value === "string" && words.test(value);
    }).filter(Boolean).length;
  expect(said()).toBe(0);
  const typed = { sheetId, col: place.column, row: row + rows, content: "One more" };
  model.dispatch("UPDATE_CELL", typed);
  expect(said()).toBe(1);
});
