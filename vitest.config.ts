import { defineConfig } from "vitest/config";

/** Simulations, random calls by the thousand, whole columns, the package built and installed. */
const LONG = "tests/**/*.long.test.ts";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**", "tests/office/**", LONG],
          isolate: false,
          // A busy machine is not a broken test.
          testTimeout: 30_000,
        },
      },
      { test: { name: "long", include: [LONG], isolate: false, testTimeout: 60_000 } },
      { test: { name: "office", include: ["tests/office/**/*.test.ts"], fileParallelism: false } },
      {
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: "tests/browser/serve.ts",
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
