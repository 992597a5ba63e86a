import { describe, expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import type { Kind } from "../../functions/catalog/kinds";
import { readCall } from "../../functions/catalog/examples";
import { cellsIn } from "../../functions/working/measures";
import { stepsOf } from "../../functions/working/steps";

// What a line is measured in is written by hand. Whatever it says, in a coin worth a third all money
// is three times as much and no percent is another one; so with amounts in a smaller unit.

type Way = (kind: string) => number | undefined;

const AMOUNTS = ["amount", "weight", "volume"];
/** By how much a value of a kind grows; undefined where it may grow by anything. */
const money: Way = (kind) => (kind === "money" ? 3 : kind === "number" ? undefined : 1);
const amounts: Way = (kind) =>
  AMOUNTS.includes(kind) ? 5 : kind === "share" || kind === "density" ? 1 : undefined;

/** The kind that a measure stands for: that of the argument or line it names. */
function kindOf(entry: CatalogEntry, measure: string): string {
  const [first, per] = measure.split(" per ");
  if (per) return first === "money" ? "money" : "number";
  if (first.startsWith('"')) return "number";
  const found = entry.params.find(({ name }) => name === first);
  if (found?.kind === "unit") return "amount";
  if (found) return found.kind;
  const line = entry.working.find(({ name }) => name === first);
  if (line && line.measure !== first) return kindOf(entry, line.measure);
  return ["g", "mL", "oz", "floz"].includes(first) ? "amount" : first;
}

const scaled = (value: unknown, by: number): unknown =>
  Array.isArray(value)
    ? value.map((each) => scaled(each, by))
    : typeof value === "number"
      ? value * by
      : value;

function grows(entry: CatalogEntry, kinds: readonly Kind[], by: number, way: Way): number {
  let looked = 0;
  for (const { formula } of entry.examples) {
    const { args } = readCall(formula);
    const larger = args.map((arg, i) =>
      kinds.includes(entry.params[i].kind) ? scaled(arg, by) : arg,
    );
    const [before, after] = [stepsOf(entry, args), stepsOf(entry, larger)];
    for (const [i, { line, value }] of before.entries()) {
      const cells = cellsIn(line.measure).map(({ measure }) => measure);
      const values = [value].flat() as unknown[];
      const others = [after[i].value].flat() as unknown[];
      values.forEach((each, j) => {
        const factor = way(kindOf(entry, cells[j] ?? cells[0] ?? line.measure));
        if (typeof each !== "number" || factor === undefined) return;
        const told = `${formula}, ${line.name} (${line.measure})`;
        const off = Math.abs(Number(others[j]) - each * factor);
        expect(off, told).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(each)));
        looked++;
      });
    }
  }
  return looked;
}

describe.each(catalog)("$id", (entry) => {
  const has = (kinds: readonly string[]) => entry.params.some(({ kind }) => kinds.includes(kind));

  test.runIf(has(["money"]))("its money is money", () => {
    expect(grows(entry, ["money"], 3, money)).toBeGreaterThan(0);
  });

  // The European table allows a large pack less of itself; a label is rounded down to a hundredth.
  const isInProportion = !["FILLCHECK", "NETLABEL"].includes(entry.id);
  test.runIf(has(AMOUNTS) && isInProportion)("its amounts are amounts, its percents none", () => {
    grows(entry, ["amount", "weight", "volume"], 5, amounts);
  });
});
