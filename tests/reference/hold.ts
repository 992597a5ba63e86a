import { expect, test } from "vitest";
import { published } from "./checks";

/** One test for each row: our value against the published one, its source in the test's name. */
export function holdToPublished(ours: Record<string, () => number>) {
  for (const [id, calculate] of Object.entries(ours)) {
    const { expected, within, title } = published(id);
    test(title, () => {
      expect(Math.abs(calculate() - expected)).toBeLessThanOrEqual(within);
    });
  }
}
