/** npm run budget: the gzipped size of what Excel loads, and a failure when the functions outgrow theirs. */
import { readFileSync, readdirSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { list } from "../functions/bind/list";

const LATE = readdirSync("dist/excel").find((name) => /^functions-late\.\w+\.js$/.test(name));
if (LATE === undefined)
  throw new Error("the part of the functions that is loaded later is missing");

/** Kilobytes after gzip. The functions are loaded with every workbook that uses them. */
const BUDGET: Record<string, number> = { "functions.js": 19.8, [LATE]: 7.2, "taskpane.js": 35 };

for (const [name, limit] of Object.entries(BUDGET)) {
  const size = gzipSync(readFileSync(`dist/excel/${name}`)).length / 1000;
  const fits = size < limit;
  console.log(`${name}: ${size.toFixed(1)} kB gzip, budget ${limit} kB${fits ? "" : " EXCEEDED"}`);
  if (!fits) process.exitCode = 1;
}

// Excel calls functions by the ids in functions.json: each must stand in the bundle that Excel loads, and those that
// are loaded later in their part, too.
const { functions } = JSON.parse(readFileSync("dist/excel/functions.json", "utf8")) as {
  functions: { id: string }[];
};
const first = list.map(([id]) => id);
const ids = functions.map(({ id }) => id);
for (const [name, wanted] of [
  ["functions.js", ids],
  [LATE, ids.filter((id) => !first.includes(id))],
] as const) {
  const bundle = readFileSync(`dist/excel/${name}`, "utf8");
  const found = wanted.filter((id) => bundle.includes(`"${id}"`) || bundle.includes(`'${id}'`));
  console.log(`${found.length} of ${wanted.length} ids are in ${name}`);
  if (found.length < wanted.length) process.exitCode = 1;
}
