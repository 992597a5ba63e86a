// Three builds: dist/excel is the add-in, dist/localsheet the sheet for people without Excel, dist/script
// the functions for a web spreadsheet.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { InjectManifest } from "@serwist/webpack-plugin";
import CopyPlugin from "copy-webpack-plugin";
import HtmlPlugin from "html-webpack-plugin";
import webpack from "webpack";
import { Licences } from "./functions/generate/licences.mjs";
import { helpPage } from "./functions/generate/pages.mjs";

const require = createRequire(import.meta.url);
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const { version } = require("./package.json");

const LOCAL_PORT = 5210;
const EXCEL_PORT = 3000;
const DEV_HOST = `https://localhost:${EXCEL_PORT}`;

const shared = {
  mode: "production",
  devtool: false,
  // The compiler writes imports of .ts files as imports of .js.
  resolve: { extensions: [".ts", ".js"], extensionAlias: { ".js": [".ts", ".js"] } },
  module: {
    rules: [
      {
        test: /\.ts$/,
        loader: "ts-loader",
        options: { onlyCompileBundledFiles: true, compilerOptions: { noEmit: false } },
      },
      { resourceQuery: /^\?source$/, type: "asset/source" },
    ],
  },
  performance: { hints: false },
  stats: "errors-warnings",
};
const define = new webpack.DefinePlugin({ MISTWRIGHT_VERSION: JSON.stringify(version) });
const icons = { from: "taskpane/icons/*.png", to: "icons/[name][ext]" };
/** The guides and the reference of each function, as pages that Excel's help leads to. */
const help = {
  context: "docs",
  from: "**/*.md",
  to: "help/[path][name].html",
  transform: helpPage,
};
const pictures = { context: "docs", from: "pictures/*.png", to: "help/" };
const served = {
  static: false,
  hot: false,
  liveReload: false,
  client: false,
  compress: true,
  host: "localhost",
};

const licence = { from: "LICENSE", to: "LICENSE.txt" };
/** The packages whose files the local sheet ships as they are, and that of its worker. */
const SHIPPED = [
  "@odoo/o-spreadsheet",
  "@odoo/owl",
  "chart.js",
  "bootstrap",
  "font-awesome",
  "serwist",
].map((name) => here(`node_modules/${name}`));

/** Parts that are loaded later have names that change with what is in them: no browser keeps an old one. */
const partName = ({ chunk }) => `${chunk?.name ?? "part"}.[contenthash:10].js`;

/** Keeps the page in the browser for a time without a network: all its files, by what is in them. */
const worker = () =>
  new InjectManifest({
    swSrc: here("localsheet/worker.ts"),
    swDest: "worker.js",
    dontCacheBustURLsMatching: /\.[0-9a-f]{10}\.js$/,
    exclude: [/licences?\b/i, /LICENSE/],
    maximumFileSizeToCacheInBytes: 10 * 2 ** 20,
  });

/** The engine's page templates as a script: a page opened from a file may fetch nothing. */
const asScript = (xml) => `globalThis.engineTemplates = ${JSON.stringify(String(xml))};\n`;

/** Copies the engine as the unmodified files that its package ships, with its licence. */
function engineFiles() {
  const from = (path) => here(`node_modules/${path}`);
  return [
    { from: from("@odoo/o-spreadsheet/dist/o_spreadsheet.min.iife.js") },
    { from: from("@odoo/o-spreadsheet/dist/o_spreadsheet.css") },
    {
      from: from("@odoo/o-spreadsheet/dist/o_spreadsheet.xml"),
      to: "o_spreadsheet.xml.js",
      transform: asScript,
    },
    { from: from("@odoo/o-spreadsheet/LICENSE"), to: "o_spreadsheet.LICENSE.txt" },
    { from: from("@odoo/owl/dist/owl.iife.min.js") },
    { from: from("@odoo/owl/LICENSE"), to: "owl.LICENSE.txt" },
    { from: from("chart.js/dist/chart.umd.min.js") },
    { from: from("chart.js/LICENSE.md"), to: "chart.LICENSE.md" },
    { from: from("bootstrap/dist/css/bootstrap.min.css") },
    { from: from("font-awesome/css/font-awesome.min.css"), to: "font-awesome/css/" },
    { from: from("font-awesome/fonts/fontawesome-webfont.woff2"), to: "font-awesome/fonts/" },
  ].map((file) => ({
    ...file,
    to: `engine/${file.to ?? "[name][ext]"}`,
    info: { minimized: true },
  }));
}

/** A page that is served while one works on it is not kept for a time without a network. */
const localsheet = (isServed) => ({
  ...shared,
  name: "localsheet",
  entry: { local: "./localsheet/local.ts" },
  output: {
    path: here("dist/localsheet"),
    clean: true,
    filename: "[name].[contenthash:10].js",
    chunkFilename: partName,
  },
  plugins: [
    define,
    new webpack.DefinePlugin({ MISTWRIGHT_KEEPS_PAGE: !isServed }),
    new Licences(SHIPPED),
    new HtmlPlugin({ template: "localsheet/index.html", inject: "body", minify: false }),
    ...(isServed ? [] : [worker()]),
    new CopyPlugin({
      patterns: [
        ...engineFiles(),
        licence,
        { from: "localsheet/app.webmanifest" },
        { from: "localsheet/local.css" },
        { from: "taskpane/pane/pane.css" },
        icons,
      ],
    }),
  ],
  devServer: {
    ...served,
    open: !process.env.CI,
    // The first free port from this one on; the browser keeps its work by address, so it stays put.
    port: process.env.PORT ?? "auto",
    onListening: (server) => {
      const { port } = server.server.address();
      console.log(`\nMistwright's local sheet is at http://localhost:${port}/\n`);
    },
  },
});
process.env.WEBPACK_DEV_SERVER_BASE_PORT ??= String(LOCAL_PORT);

/** Where the add-in will be served from: npm run build -- --env host=https://sheets.example.org */
function excel(host) {
  const atHost = (text) => String(text).replaceAll(DEV_HOST, host);
  return {
    ...shared,
    name: "excel",
    // Apart: what both need stands in both, but webpack makes one piece of the functions' modules only
    // where nothing else reads them, and that is 4 kB less of 28.
    entry: {
      functions: "./functions/bind/excel.ts",
      taskpane: "./taskpane/excel.ts",
      "set-up": "./taskpane/set-up/set-up.ts",
    },
    // Functions before all else: alike code comes to stand together, which gzip makes use of. Those that are loaded
    // later stay one file, also where the pane's parts have some of their code.
    optimization: {
      splitChunks: {
        chunks: (chunk) => !chunk.canBeInitial() && chunk.name !== "functions-late",
      },
      minimizeOptions: { javascript: { compress: { passes: 2, hoist_funs: true } } },
    },
    // The manifest calls the first two files by their names; the page adds what is in them. All lie in the page's
    // folder: to find it out from a script would be 0.3 kB of the functions.
    output: { path: here("dist/excel"), clean: true, publicPath: "", chunkFilename: partName },
    plugins: [
      define,
      new Licences(),
      new HtmlPlugin({
        template: "taskpane/pane/taskpane.html",
        filename: "taskpane.html",
        chunks: ["functions", "taskpane"],
        chunksSortMode: "manual",
        hash: true,
      }),
      new HtmlPlugin({
        template: "taskpane/set-up/set-up.html",
        filename: "set-up.html",
        chunks: ["set-up"],
      }),
      new CopyPlugin({
        patterns: [
          { from: "functions/functions.json", transform: atHost },
          { from: "taskpane/pane/pane.css" },
          { from: "manifest.xml", transform: atHost },
          help,
          pictures,
          licence,
          icons,
        ],
      }),
    ],
  };
}

/** One file to paste into a script editor: the bundle, and below it the functions that a sheet may call. */
const script = {
  ...shared,
  name: "script",
  target: "es2020",
  // All of it is one file: there is nothing to load later.
  entry: { mistwright: "./functions/script/script.ts" },
  output: {
    path: here("dist/script"),
    clean: true,
    chunkFormat: false,
    library: { name: "mistwright", type: "var" },
  },
  plugins: [
    define,
    new Licences(),
    new CopyPlugin({ patterns: [licence] }),
    new webpack.BannerPlugin({
      banner: () => readFileSync(here("functions/script/declarations.js"), "utf8"),
      footer: true,
      raw: true,
      // Below the bundle when that is small already: comments and names stay.
      stage: webpack.Compilation.PROCESS_ASSETS_STAGE_SUMMARIZE,
    }),
  ],
};

async function excelServer() {
  const { getHttpsServerOptions } = await import("office-addin-dev-certs");
  const server = { type: "https", options: await getHttpsServerOptions() };
  return { ...served, port: EXCEL_PORT, server, headers: { "Access-Control-Allow-Origin": "*" } };
}

export default async (env) => {
  const addIn = excel((env.host ?? DEV_HOST).replace(/\/$/, ""));
  const asksForExcel = process.argv.join(" ").includes("serve --config-name excel");
  if (env.WEBPACK_SERVE && asksForExcel) addIn.devServer = await excelServer();
  return [localsheet(Boolean(env.WEBPACK_SERVE)), addIn, script];
};
