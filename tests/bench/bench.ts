/**
 * npm run bench: one table of ratios, each case and side in processes of its own. `npm run bench -- engine` runs the
 * cases whose names have that word. Ratios count: seconds depend on the machine. A busy machine falsifies both; the
 * processor's time less than the clock's.
 */
import { execFileSync } from "node:child_process";
import { loadavg } from "node:os";
import { binding } from "./binding";
import { bundles } from "./bundles";
import { calls } from "./calls";
import { engine } from "./engine";
import { handOver } from "./hand-over";
import { type Case, type Times, medianTime } from "./measure";
import { packPlan } from "./packplan";
import { page } from "./page";
import { workbook } from "./workbook";

const CASES: Record<string, Case> = {
  ...workbook,
  ...binding,
  ...engine,
  ...packPlan,
  ...calls,
  ...page,
  ...handOver,
  ...bundles,
};

type Side = "ours" | "other";

/** One side of a case, in a process of its own. */
function runOnce(name: string, side: Side): Times {
  const args = ["--stack-size=4000", process.argv[1], name, side];
  const said = execFileSync(process.execPath, args, { encoding: "utf8" });
  return JSON.parse(said.trim().split("\n").at(-1) ?? "") as Times;
}

function merged(runs: readonly Times[]): Times {
  const names = Object.keys(runs[0]);
  return Object.fromEntries(names.map((name) => [name, medianTime(runs.map((run) => run[name]))]));
}

function rowsOf(name: string, { beside, goal, other, runs = 3 }: Case) {
  const [ours, others]: [Times[], Times[]] = [[], []];
  // In turns, so that a machine that grows busy slows both.
  for (let i = 0; i < runs; i++) {
    ours.push(runOnce(name, "ours"));
    if (typeof other !== "number") others.push(runOnce(name, "other"));
  }
  const own = merged(ours);
  const theirs = typeof other === "number" ? undefined : merged(others);
  return Object.entries(own).map(([what, time]) => {
    const reference =
      theirs?.[what] ?? (typeof other === "number" ? { cpu: other, wall: other } : undefined);
    if (!reference) throw new Error(`${name}: nothing is known beside ${what}`);
    const most = typeof goal === "number" ? goal : goal[what];
    const ratio = time.cpu / reference.cpu;
    return {
      what: `${name}: ${what}`,
      ours: short(time.cpu),
      beside,
      theirs: short(reference.cpu),
      ratio: short(ratio),
      "by the clock": short(time.wall / reference.wall),
      goal: most,
      "": ratio <= most ? "" : "MISSED",
    };
  });
}

const short = (value: number) => Number(value.toPrecision(3));

const [which, side] = process.argv.slice(2);
if (side) {
  const { ours, other } = CASES[which];
  const run = side === "ours" ? ours : other;
  console.log(JSON.stringify(typeof run === "number" ? {} : await run()));
} else {
  const chosen = Object.entries(CASES).filter(([name]) => name.includes(which ?? ""));
  const rows = chosen.flatMap(([name, each]) => {
    console.error(`${name} ...`);
    return rowsOf(name, each);
  });
  console.log(
    `Node ${process.version}, load ${loadavg()[0].toFixed(1)}; milliseconds of the processor`,
  );
  console.table(rows);
}
