import officeAddins from "eslint-plugin-office-addins";
import tsParser from "@typescript-eslint/parser";

/** Arrows run one way: src <- functions <- taskpane <- localsheet. tests/layers.test.ts holds it too. */
const layers = [
  ["src", ["functions", "taskpane", "localsheet", "tests"]],
  ["functions", ["taskpane", "localsheet", "tests"]],
  ["taskpane", ["localsheet", "tests"]],
  ["localsheet", ["tests"]],
].map(([folder, above]) => ({
  files: [`${folder}/**/*.ts`],
  rules: {
    "no-restricted-imports": ["error", { patterns: above.map((name) => `**/${name}/**`) }],
  },
}));

export default [
  {
    ignores: [
      "dist/",
      "tests/functions/refusals/",
      "**/*.d.mts",
      // Generated.
      "src/index.ts",
      "taskpane/templates/index.ts",
    ],
  },
  ...officeAddins.configs.recommended,
  {
    files: ["**/*.{ts,mjs}"],
    languageOptions: {
      parser: tsParser,
      ecmaVersion: "latest",
      sourceType: "module",
      globals: { console: "readonly", process: "readonly", URL: "readonly" },
    },
  },
  {
    // TypeScript knows which names exist; ESLint does not.
    files: ["**/*.ts"],
    rules: { "no-undef": "off", "no-redeclare": "off", "no-dupe-class-members": "off" },
  },
  {
    // No Office.js here: cells of the engine are read without a load.
    files: ["localsheet/**/*.ts"],
    rules: {
      "office-addins/call-sync-before-read": "off",
      "office-addins/load-object-before-read": "off",
    },
  },
  {
    rules: { "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }] },
  },
  {
    files: ["src/**/*.ts"],
    ignores: ["src/data/**"],
    rules: {
      "max-lines": ["error", { max: 120, skipComments: true }],
      "max-lines-per-function": ["error", 30],
    },
  },
  ...layers,
];
