/** npm run budget: the gzipped size of what Excel loads, and a failure when the functions outgrow theirs. */
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

/** Kilobytes after gzip. The functions are loaded with every workbook that uses them. */
const BUDGET: Record<string, number> = { "functions.js": 23.5, "taskpane.js": 35 };

for (const [name, limit] of Object.entries(BUDGET)) {
  const size = gzipSync(readFileSync(`dist/excel/${name}`)).length / 1000;
  const fits = size < limit;
  console.log(`${name}: ${size.toFixed(1)} kB gzip, budget ${limit} kB${fits ? "" : " EXCEEDED"}`);
  if (!fits) process.exitCode = 1;
}

// Excel calls functions by the ids in functions.json: each must stand in the bundle that Excel loads.
const bundle = readFileSync("dist/excel/functions.js", "utf8");
const { functions } = JSON.parse(readFileSync("dist/excel/functions.json", "utf8")) as {
  functions: { id: string }[];
};
const missing = functions.filter(
  ({ id }) => !bundle.includes(`"${id}"`) && !bundle.includes(`'${id}'`),
);
console.log(`${functions.length - missing.length} of ${functions.length} ids are in the bundle`);
if (missing.length > 0) process.exitCode = 1;
