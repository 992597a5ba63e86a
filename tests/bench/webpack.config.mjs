// The benchmark as one file: a loader that wraps functions would falsify it.
import { fileURLToPath } from "node:url";

export default {
  mode: "production",
  devtool: false,
  target: "node20",
  entry: { bench: "./tests/bench/bench.ts" },
  output: {
    path: fileURLToPath(new URL("../../dist/bench", import.meta.url)),
    filename: "[name].cjs",
  },
  // Loaded as their packages ship them.
  externals: {
    highs: "commonjs highs",
    "playwright-core": "commonjs playwright-core",
    "@sparticuz/chromium": "import @sparticuz/chromium",
  },
  optimization: { minimize: false },
  resolve: { extensions: [".ts", ".js"], extensionAlias: { ".js": [".ts", ".js"] } },
  module: {
    rules: [
      {
        test: /\.ts$/,
        loader: "ts-loader",
        options: { transpileOnly: true, compilerOptions: { noEmit: false } },
      },
    ],
    // The engine is looked for from where the tests are.
    parser: { javascript: { importMeta: true, createRequire: false } },
  },
  performance: { hints: false },
  stats: "errors-only",
};
