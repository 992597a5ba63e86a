/**
 * npm run fuzz -- [calls] [seed]: calls of every shape to every function, as a sheet may make them. Fails where an
 * answer is not a grid of finite numbers, words or told errors, where something is thrown, or where a call takes
 * longer than five seconds. The same seed makes the same calls.
 */
import { Worker } from "node:worker_threads";
import fc from "fast-check";
import { catalog } from "../../functions/catalog/catalog";
import { anyCall } from "../functions/arbitrary";
import { type Finding, type Job, SLOTS } from "./calls";

/** Milliseconds after which a call is taken for one that does not end. */
const PATIENCE = 5000;

/** A thread of Node's knows nothing of TypeScript by itself. */
const BOOT = `import("tsx/esm/api").then((tsx) => {
  tsx.register();
  return import(${JSON.stringify(new URL("./calls.ts", import.meta.url).href)});
})`;

const [calls = 100_000, seed = Date.now() % 1_000_000] = process.argv.slice(2).map(Number);
const each = Math.ceil(calls / catalog.length);
console.log(`${catalog.length} functions, ${each} calls each, seed ${seed}`);

let wrong = 0;
let slowest = { id: "", ms: 0 };
for (let first = 0; first < catalog.length;) first = await runFrom(first);
const { id, ms } = slowest;
console.log(
  `${each * catalog.length} calls, ${wrong} violations; the slowest ${ms.toFixed(0)} ms, ${id}`,
);
process.exitCode = wrong > 0 ? 1 : 0;

/** Runs the functions from this one on, until all are done or a call does not end; gives the next one to run. */
async function runFrom(first: number): Promise<number> {
  const progress = new Int32Array(new SharedArrayBuffer(SLOTS * Int32Array.BYTES_PER_ELEMENT));
  const job: Job = { first, each, seed, progress };
  const worker = new Worker(BOOT, { eval: true, workerData: job });
  worker.on("message", (finding: Finding) => {
    if (finding.ms > slowest.ms) slowest = finding;
    if (finding.wrong === undefined) return;
    wrong++;
    console.log(`${finding.id}: ${finding.wrong}`);
  });
  const ended = new Promise<number>((resolve, reject) => {
    worker.once("exit", () => resolve(catalog.length));
    worker.once("error", reject);
  });
  const stuck = new AbortController();
  const next = await Promise.race([ended, stuckAt(progress, stuck.signal)]);
  stuck.abort();
  await worker.terminate();
  return next;
}

/** Resolves when no call has ended for too long, to the function after the one that hangs. */
async function stuckAt(progress: Int32Array, signal: AbortSignal): Promise<number> {
  let seen = "";
  let since = Date.now();
  while (!signal.aborted) {
    await new Promise((resolve) => setTimeout(resolve, 200));
    const [at = 0, run = 0] = progress;
    const now = `${at}/${run}`;
    if (now !== seen) [seen, since] = [now, Date.now()];
    const entry = catalog[at];
    if (Date.now() - since < PATIENCE || run === 0 || !entry) continue;
    const args = fc.sample(anyCall(entry), { seed, numRuns: run }).at(-1);
    console.log(`${entry.id}: no answer in ${PATIENCE / 1000} s to ${fc.stringify(args)}`);
    wrong++;
    return at + 1;
  }
  return catalog.length;
}
