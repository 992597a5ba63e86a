import { describe, expect, test } from "vitest";
import { TOPICS, cautionOf } from "../../functions/catalog/topics";

describe("what to keep in mind", () => {
  test("each topic has words of its own", () => {
    const cautions = TOPICS.map((topic) => cautionOf({ topic }));
    for (const caution of cautions) expect(caution).toMatch(/^[A-Z].{40,}\.$/);
    expect(new Set(cautions).size).toBe(TOPICS.length);
  });

  // Common practice, no source: what each kind of answer must not be read without.
  test.each([
    ["load", "certificate"],
    ["blend", "flames"],
    ["spirit", "flammable"],
    ["cost", "losses"],
    ["limits", "not a judgement"],
    ["trial", "skin"],
  ] as const)("%s speaks of %s", (topic, word) => {
    expect(cautionOf({ topic })).toContain(word);
  });
});
