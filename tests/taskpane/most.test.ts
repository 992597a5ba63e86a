import { expect, test } from "vitest";
import { most } from "../../taskpane/sheets/most";

test("of more than a call has room for", () => {
  const many = Array.from({ length: 300_000 }, (_, i) => i);
  expect(() => Math.max(...many)).toThrow(RangeError);
  expect(most(many, (each) => each)).toBe(299_999);
  expect(most([], Number)).toBe(0);
});
