import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { readCall } from "../../functions/catalog/examples";
import { MEANINGS } from "../../functions/working/meanings";
import { holds } from "./working-holds";

describe.each(catalog)("$id", (entry) => {
  test("the last step of every example is what the cell shows", () => {
    for (const { formula } of entry.examples) holds(entry, readCall(formula).args);
  });
});

test("every function that a working line calls is explained in words, and none besides", () => {
  const called = catalog.flatMap(({ working }) =>
    working.flatMap(({ expression }) => expression.match(/[a-z]+(?=\()/g) ?? []),
  );
  expect(Object.keys(MEANINGS).sort()).toEqual([...new Set(called)].sort());
});
