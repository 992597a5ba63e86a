/** Columns go to a function as they are: it answers what it answers to rows of cells, as Excel hands them over. */
import { expect, test } from "vitest";
import { CellError, type HostCell } from "../../functions/bind/host";
import { register } from "../../functions/bind/register";
import { catalog } from "../../functions/catalog/catalog";
import type { CatalogEntry } from "../../functions/catalog/entry";
import { readCall } from "../../functions/catalog/examples";
import "./load-engine";

const inRows: Record<string, (...args: unknown[]) => HostCell<CellError>[][]> = {};
register({ Error: CellError, associate: (id, run) => (inRows[id] = run) });

const byLine = catalog.filter(
  ({ params, returns }) => !returns.range && !params.some(({ range }) => range),
);

interface Cell {
  value: unknown;
  message?: string;
}

/** An argument: a cell, or the cells of a column. */
type Argument = unknown;

const ERRORS = new Set(["#N/A", "#DIV/0!"]);

function inEngine(entry: CatalogEntry, args: Argument[]): unknown {
  const { compute } = globalThis.o_spreadsheet.registries.functionRegistry.get(`MIST.${entry.id}`);
  const cell = (value: unknown): Cell => ({ value });
  const given = args.map((arg) => (Array.isArray(arg) ? [arg.map(cell)] : cell(arg)));
  return (compute as (...args: unknown[]) => unknown)(...given);
}

/** The same as Excel would have it, and as the engine would have what comes out. */
function inExcel({ id }: CatalogEntry, args: Argument[]): unknown {
  const cell = (value: unknown) =>
    ERRORS.has(String(value)) ? { type: "Error", basicValue: value } : value;
  const rows = inRows[id](
    ...args.map((arg) => (Array.isArray(arg) ? arg.map((each) => [cell(each)]) : cell(arg))),
  );
  const cells = rows.map(([value]) =>
    value instanceof CellError
      ? { value: value.code, message: value.message ?? "" }
      : { value: value ?? null },
  );
  return cells.length === 1 ? cells[0] : [cells];
}

/** What may stand in a column beside the numbers and words of an example. */
const ODD = [null, "", 0, -1, "words", "$12", "€3", true, "#N/A", "#DIV/0!", 1e300, 0.5];

// A generator of the same numbers in each run: what fails can be run again.
let seed = 20_261_130;
const next = (below: number) => {
  seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
  return Math.floor((seed / 2 ** 32) * below);
};

test("functions that answer a cell a line, in columns of any length beside single cells", () => {
  expect(byLine.length).toBeGreaterThan(20);
  const seen = new Set<string>();
  for (const entry of byLine) {
    const { args } = readCall(entry.examples[0].formula);
    for (let k = 0; k < 60; k++) {
      const cellOf = (arg: unknown) => (next(4) ? arg : ODD[next(ODD.length)]);
      const given = args.map((arg): Argument => {
        if (next(3) === 0) return cellOf(arg);
        return Array.from({ length: next(3) ? 4 : 1 + next(5) }, () => cellOf(arg));
      });
      const expected = inExcel(entry, given);
      expect(inEngine(entry, given), `${entry.id} of ${JSON.stringify(given)}`).toEqual(expected);
      seen.add(Array.isArray(expected) ? "a column" : "a cell");
    }
  }
  expect([...seen].sort()).toEqual(["a cell", "a column"]);
});

test("long columns end with the last line that is filled in any of them", () => {
  const column = (...head: unknown[]) => Array.from({ length: 20_000 }, (_, i) => head[i] ?? null);
  const oilFor = byLine.find(({ id }) => id === "OILFOR") as CatalogEntry;
  const calls = [
    [column(60, null, 120), 0.05],
    [column(60), column(0.05, 0.1)],
    [column(), column()],
    [column(60, 120), [0.05]],
    [column(60, 120), [0.05, 0.1, 0.2]],
  ];
  for (const args of calls) expect(inEngine(oilFor, args)).toEqual(inExcel(oilFor, args));
  // By hand: 5 % of 60 and of 120; a blank line between stays blank.
  const cells = [{ value: 3 }, { value: "" }, { value: 6 }];
  expect(inEngine(oilFor, [column(60, null, 120), 0.05])).toEqual([cells]);
});
