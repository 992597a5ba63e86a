import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { CellError, type HostCell, associate } from "../../functions/bind/host";
import { type WaitingHost, associateLate } from "../../functions/bind/late";
import { lateList } from "../../functions/bind/late-list";
import { lateIds, list } from "../../functions/bind/list";
import type { Listed } from "../../functions/bind/listed";
import { type ToldError, functionsClient } from "./functions-client";

type Cells = HostCell<CellError>[][];

/** A network that is there or not, and how often it was asked. */
function network() {
  const asked = { times: 0, isThere: true };
  const load = async (): Promise<readonly Listed[]> => {
    asked.times++;
    // As a request is: never at once.
    await new Promise((later) => setTimeout(later, 5));
    if (!asked.isThere) throw new Error("no network");
    return lateList;
  };
  return { asked, load };
}

/** A host that keeps what it is given. */
function keeping() {
  const runs = new Map<string, (...args: unknown[]) => Cells | Promise<Cells>>();
  const host: WaitingHost<CellError> = {
    Error: CellError,
    associate: (id, run) => runs.set(id, run),
  };
  return { host, call: (id: string, ...args: unknown[]) => runs.get(id)?.(...args) };
}

// By hand: without a difference, one right of one is 1 in 3, and none or more is sure.
const ONE = ["TRIOCHANCE", [[1]], [[1]]] as const;
const SURE = ["TRIOCHANCE", [[0]], [[1]]] as const;

test("a call before the function is there is answered when it is, and a later one at once", async () => {
  const { asked, load } = network();
  const { host, call } = keeping();
  associateLate(host, lateIds, load);
  const [first, second] = [call(...ONE), call(...SURE)];
  expect(first).toBeInstanceOf(Promise);
  expect((await first)?.[0]?.[0]).toBeCloseTo(1 / 3, 12);
  expect(await second).toEqual([[1]]);
  expect(call(...SURE)).toEqual([[1]]);
  expect(asked.times).toBe(1);
});

test("it is asked for before anything is called, and once", async () => {
  const { asked, load } = network();
  const { host, call } = keeping();
  associateLate(host, lateIds, load);
  expect(asked.times).toBe(1);
  await new Promise((later) => setTimeout(later, 20));
  expect(call(...SURE)).toEqual([[1]]);
  expect(asked.times).toBe(1);
});

test("without a network the cell says what to do, and the next call tries again", async () => {
  const { asked, load } = network();
  const { host, call } = keeping();
  asked.isThere = false;
  associateLate(host, lateIds, load);
  const both = await Promise.all([call(...ONE), call(...SURE)]);
  for (const answer of both) {
    const cell = answer?.[0]?.[0];
    expect(cell).toBeInstanceOf(CellError);
    expect((cell as CellError).code).toBe("#N/A");
    expect((cell as CellError).message).toContain("enter the formula again");
  }
  expect(asked.times).toBe(1);
  expect((await call(...SURE))?.[0]?.[0]).toBeInstanceOf(CellError);
  expect(asked.times).toBe(2);
  asked.isThere = true;
  expect(await call(...SURE)).toEqual([[1]]);
  expect(asked.times).toBe(3);
  expect(call(...SURE)).toEqual([[1]]);
});

test("a host without a network at all, whose request fails at once, has the others", () => {
  const { host, call } = keeping();
  associate(host, list);
  associateLate(host, lateIds, () => Promise.reject(new Error("there is no page here")));
  // By hand: 60 × 5 % = 3.
  expect(call("OILFOR", [[60]], [[0.05]])).toEqual([[3]]);
});

test("Microsoft's own script waits for an answer that is late, and tells Excel what it tells of others", async () => {
  const { asked, load } = network();
  const { CustomFunctions, call } = functionsClient();
  asked.isThere = false;
  associate(CustomFunctions, list);
  associateLate(CustomFunctions, lateIds, load);
  const calls: Parameters<typeof call> = [
    [...SURE],
    ["OILFOR", [[60]], [[0.05]], null],
    ["TRIOCHANCE", [[2]], [[1]]],
  ];
  const [unloaded, oil] = await call(...calls);
  expect(oil).toEqual([[3]]);
  const [[error]] = unloaded as ToldError[][];
  expect(error.basicValue).toBe("#N/A");
  expect(error.message).toContain("this function could not be loaded");

  asked.isThere = true;
  const waitedFor = await call(...calls);
  const atOnce = await call(...calls);
  expect(waitedFor).toEqual(atOnce);
  const [sure, , refused] = atOnce as [unknown, unknown, ToldError[][]];
  expect(sure).toEqual([[1]]);
  expect(refused[0][0].basicValue).toBe("#VALUE!");
  expect(refused[0][0].message).toContain("correct");
});

test("docs/errors.md names the functions that follow, and no other", () => {
  const guide = readFileSync("docs/errors.md", "utf8");
  const said = guide.split("\n").find((line) => line.includes("loaded a moment after")) ?? "";
  expect(new Set(said.match(/\b[A-Z]{6,}\b/g))).toEqual(new Set(lateIds));
});
