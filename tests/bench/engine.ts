/**
 * The local sheet's engine works out 10,000 and 100,000 cells: our functions beside the same as native formulas, plain
 * as a person would write them, and with the guards of a handed-over copy; filled down, and as one that spills.
 */
import { nativeFormula } from "../../functions/files/native-formula";
import { readFormula } from "../../functions/formula/reader";
import { newModel } from "../localsheet/load-engine";
import { type Case, type Times, timed } from "./measure";

const LENGTHS = [10_000, 100_000];

interface Example {
  call: string;
  plain: string;
}

/** For the first row. A is an amount or a price, B a share, C the size of a pack, D a density. */
const EXAMPLES: Record<string, Example> = {
  OILFOR: { call: "MIST.OILFOR(A1,B1)", plain: "A1*B1" },
  FLOZCOST: {
    call: 'MIST.FLOZCOST(A1,C1,"lb",D1)',
    plain: "A1/(C1*453.59237/D1/29.5735295625)",
  },
};

const inRow = (formula: string, row: number) => formula.replace(/\b([A-D])1\b/g, `$1${row}`);
const inColumn = (formula: string, rows: number) =>
  formula.replace(/\b([A-D])1\b/g, `$11:$1${rows}`);

/** The engine knows no error that is written out, and no N(), which an operand that is a number does not need. */
function withGuards({ call }: Example): string {
  const { text } = nativeFormula(readFormula(call), () => ({ rows: 1, columns: 1 }));
  return text.replaceAll("#VALUE!", '"refused"').replace(/\bN\(/g, "(");
}

/** How long all cells take to be worked out anew. */
async function workedOut(rows: number, formulas: (row: number) => string | undefined) {
  const cells: Record<string, string> = {};
  for (let row = 1; row <= rows; row++) {
    Object.assign(cells, { [`A${row}`]: String(10 + (row % 50)), [`B${row}`]: "0.05" });
    Object.assign(cells, { [`C${row}`]: String(1 + (row % 7)), [`D${row}`]: "0.9" });
    const formula = formulas(row);
    if (formula) cells[`F${row}`] = `=${formula}`;
  }
  const sheets = [{ id: "s", name: "S", colNumber: 8, rowNumber: rows, cells }];
  const model = newModel({ sheets });
  const time = await timed(rows > 10_000 ? 3 : 9, () => model.dispatch("EVALUATE_CELLS"));
  const last = model.getters.getEvaluatedCell({ sheetId: "s", col: 5, row: rows - 1 });
  if (typeof last.value !== "number") throw new Error(`no number in the last cell: ${last.value}`);
  return time;
}

async function each(formulas: (of: Example, rows: number) => (row: number) => string | undefined) {
  const times: Times = {};
  for (const [name, example] of Object.entries(EXAMPLES))
    for (const rows of LENGTHS)
      times[`${name} ${rows}`] = await workedOut(rows, formulas(example, rows));
  return times;
}

const filledDown = () =>
  each(
    ({ call }) =>
      (row) =>
        inRow(call, row),
  );
const plain = () => each((of) => (row) => inRow(of.plain, row));
const spilled = () =>
  each(
    ({ call }, rows) =>
      (row) =>
        row === 1 ? inColumn(call, rows) : undefined,
  );
const guarded = () =>
  each((of) => {
    const formula = withGuards(of);
    return (row) => inRow(formula, row);
  });

export const engine: Record<string, Case> = {
  "engine, filled down": { beside: "plain native", goal: 1.3, ours: filledDown, other: plain },
  "engine, guards": { beside: "native with guards", goal: 1, ours: filledDown, other: guarded },
  "engine, spilled": { beside: "plain native", goal: 1, ours: spilled, other: plain },
};
