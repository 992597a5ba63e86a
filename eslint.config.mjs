import officeAddins from "eslint-plugin-office-addins";
import tseslint from "typescript-eslint";

/** Arrows between the houses, while one types. tests/layers.test.ts holds those between all rooms. */
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

/** Microsoft's rules on Office.js, with ESLint's own; their older copy of TypeScript's rules makes way for ours. */
const office = officeAddins.configs.recommended.map(({ files, plugins = {}, rules }) => ({
  ...(files && { files }),
  plugins: without("@typescript-eslint", plugins),
  rules: without("@typescript-eslint/", rules),
}));

function without(prefix, named) {
  return Object.fromEntries(Object.entries(named).filter(([name]) => !name.startsWith(prefix)));
}

/** Rules of the strict set that we do otherwise. */
const otherwise = {
  // A port is async for hosts that must wait; a host that need not wait still rejects where it throws.
  "@typescript-eslint/require-await": "off",
  "@typescript-eslint/restrict-template-expressions": ["error", { allowNumber: true }],
  "@typescript-eslint/no-confusing-void-expression": [
    "error",
    { ignoreArrowShorthand: true, ignoreVoidOperator: true },
  ],
  // Parts of a file are kept by their paths in plain objects, as the zip library gives and takes them.
  "@typescript-eslint/no-dynamic-delete": "off",
  // What a button does may be async: it tells its own errors.
  "@typescript-eslint/no-misused-promises": [
    "error",
    { checksVoidReturn: { arguments: false, attributes: false } },
  ],
};

export default tseslint.config(
  {
    ignores: [
      "dist/",
      "tests/functions/refusals/",
      "**/*.d.mts",
      // Generated.
      "functions/script/declarations.js",
      "src/index.ts",
      "taskpane/templates/index.ts",
    ],
  },
  ...office,
  {
    files: ["**/*.{ts,mjs}"],
    extends: tseslint.configs.recommended,
    rules: { "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_" }] },
  },
  {
    files: ["**/*.ts"],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
  },
  {
    files: ["src/**/*.ts", "functions/**/*.ts", "taskpane/**/*.ts", "localsheet/**/*.ts"],
    extends: tseslint.configs.strictTypeChecked,
    rules: otherwise,
  },
  {
    // A test may hold what it reads loosely; a promise that nobody waits for tests nothing.
    files: ["tests/**/*.ts"],
    rules: {
      "@typescript-eslint/await-thenable": "error",
      "@typescript-eslint/no-floating-promises": "error",
    },
  },
  {
    // No Office.js here: cells of the engine are read without a load.
    files: ["localsheet/**/*.ts"],
    rules: {
      "office-addins/call-sync-before-read": "off",
      "office-addins/load-object-before-read": "off",
      // The engine's enums are types alone; its values are their words.
      "@typescript-eslint/no-unsafe-enum-comparison": "off",
    },
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
);
