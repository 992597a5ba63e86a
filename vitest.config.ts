import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**", "tests/office/**"],
          // A busy machine is not a broken test.
          testTimeout: 30_000,
        },
      },
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
