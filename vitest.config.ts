import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

/** Simulations, random calls by the thousand, whole columns, the package built and installed. */
const LONG = "tests/**/*.long.test.ts";

const workers = { isolate: false, maxWorkers: Math.min(4, availableParallelism()) };
/** What drives another program has the machine to itself. */
const alone = { fileParallelism: false };

export default defineConfig({
  test: {
    // A busy machine is not a broken test.
    testTimeout: 60_000,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          ...workers,
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/{browser,office,sheets}/**", LONG],
          sequence: { groupOrder: 0 },
        },
      },
      {
        // Whole sheets, drawn from one another and calculated by the local sheet's engine.
        extends: true,
        test: {
          name: "sheets",
          ...workers,
          include: ["tests/sheets/**/*.test.ts"],
          exclude: [LONG],
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: { name: "long", ...workers, include: [LONG], sequence: { groupOrder: 2 } },
      },
      {
        extends: true,
        test: {
          name: "office",
          ...alone,
          include: ["tests/office/**/*.test.ts"],
          sequence: { groupOrder: 3 },
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          ...alone,
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: "tests/browser/serve.ts",
          sequence: { groupOrder: 4 },
        },
      },
    ],
  },
});
