/** The calls of the fuzzer, in a thread of their own: one that does not end can be stopped. */
import { parentPort, workerData } from "node:worker_threads";
import fc from "fast-check";
import { catalog } from "../../functions/catalog/catalog";
import { worksheetFunction } from "../../functions/bind/register";
import { anyCall } from "../functions/arbitrary";
import { unsound } from "../functions/sound";

export interface Job {
  /** The function to begin with. */
  first: number;
  /** Calls to each. */
  each: number;
  seed: number;
  /** The function and the call that are at work, for those who wait. */
  progress: Int32Array;
}

export const SLOTS = 2;

/** What came of a function: its slowest call, and what was wrong. */
export interface Finding {
  id: string;
  ms: number;
  wrong?: string;
}

if (parentPort) {
  const { first, each, seed, progress } = workerData as Job;
  for (let at = first; at < catalog.length; at++) {
    progress.set([at, 0]);
    parentPort.postMessage(findingOf(at, each, seed, progress));
  }
}

function findingOf(at: number, each: number, seed: number, progress: Int32Array): Finding {
  const entry = catalog[at];
  const run = worksheetFunction(entry);
  let ms = 0;
  const property = fc.property(anyCall(entry), (args) => {
    progress[1]++;
    const begin = performance.now();
    const wrong = unsound(run(...args));
    ms = Math.max(ms, performance.now() - begin);
    if (wrong) throw new Error(wrong);
  });
  const { failed, counterexample, errorInstance } = fc.check(property, { numRuns: each, seed });
  if (!failed) return { id: entry.id, ms };
  const said = errorInstance instanceof Error ? errorInstance.message : String(errorInstance);
  return { id: entry.id, ms, wrong: `${said} for ${fc.stringify(counterexample?.[0])}` };
}
