/** What is just enough is enough, and what keeps just nothing is said so. */
import { expect, test } from "vitest";
import { oneSheet } from "./one-sheet";

test("a trial batch of just the smallest sensible size is large enough", async () => {
  const { put, at } = await oneSheet("Trial batch");
  put("step", 0.25);
  put("error", "50%");
  // By hand: a step of 0.25 is 50 % of 0.5 of oil, and at 25 % oil that is a batch of 2.
  put("pours.load", "25%");
  put("batch", 2);
  expect([at("pours.least"), at("pours.enough")]).toEqual([2, "yes"]);
  put("batch", 1.99);
  expect(at("pours.enough")).toBe("no: pour more");
});

test("a price that keeps just nothing never pays, and is no error", async () => {
  const { put, at } = await oneSheet("Bottle cost");
  put("fee", 0);
  put("fixed", 0);
  put("retail.own", at("costs.cost"), 0, 0);
  expect([at("retail.kept"), at("retail.even")]).toEqual([0, "never"]);
});
