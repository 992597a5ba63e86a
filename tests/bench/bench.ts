/**
 * npm run bench: one table of ratios, row by row as they come, each case and side in processes of its own. `npm run bench -- engine` runs the
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
import { type Row, heading, told } from "./table";
import { typing } from "./typing";
import { workbook } from "./workbook";

const CASES: Record<string, Case> = {
  ...workbook,
  ...binding,
  ...engine,
  ...packPlan,
  ...calls,
  ...page,
  ...typing,
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

function rowsOf(name: string, { beside, goal, other, runs = 3 }: Case): Row[] {
  const [ours, others]: [Times[], Times[]] = [[], []];
  // In turns, so that a machine that grows busy slows both.
  for (let i = 0; i < runs; i++) {
    ours.push(runOnce(name, "ours"));
    if (typeof other !== "number") others.push(runOnce(name, "other"));
  }
  const theirs = typeof other === "number" ? undefined : merged(others);
  return Object.entries(merged(ours)).map(([what, time]) => {
    const reference =
      theirs?.[what] ?? (typeof other === "number" ? { cpu: other, wall: other } : undefined);
    if (!reference) throw new Error(`nothing is known beside ${what}`);
    return {
      what: `${name}: ${what}`,
      ours: time.cpu,
      beside,
      theirs: reference.cpu,
      ratio: time.cpu / reference.cpu,
      clock: time.wall / reference.wall,
      goal: typeof goal === "number" ? goal : goal[what],
      runs,
    };
  });
}

/** Of all that a process says when it fails, the line with the error. */
function reasonOf(error: unknown): string {
  const lines = String(error).split("\n");
  return (
    lines.find((line) => /^\w*Error:/.test(line) && !line.includes("Command failed")) ?? lines[0]
  );
}

function measure(name: string, each: Case) {
  try {
    for (const row of rowsOf(name, each)) console.log(told(row));
  } catch (error) {
    console.log(`${name}: FAILED, ${reasonOf(error)}`);
    process.exitCode = 1;
  }
}

const [which, side] = process.argv.slice(2);
if (side) {
  const { ours, other } = CASES[which];
  const run = side === "ours" ? ours : other;
  console.log(JSON.stringify(typeof run === "number" ? {} : await run()));
} else {
  const chosen = Object.entries(CASES).filter(([name]) => name.includes(which ?? ""));
  console.log(
    `Node ${process.version}, milliseconds of the processor, medians of the runs; clock is the ratio by the clock`,
  );
  console.log(heading());
  for (const [name, each] of chosen) measure(name, each);
  console.log(`load at the end: ${loadavg()[0].toFixed(1)}`);
}
