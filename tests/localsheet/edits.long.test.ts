/** Five hundred edits of each sheet, as of a hand that slips: no throw, no inner word of the engine, a file that is valid. */
import fc from "fast-check";
import { afterAll, expect, test } from "vitest";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { templates } from "../../taskpane/templates/index";
import { findings, validator } from "../files/validator";
import { INNER } from "./inner-words";
import { LocalWorkbook, newModel, toXlsx } from "./load-engine";

await import("../../localsheet/words");

type Model = ReturnType<typeof newModel>;
type Command = Parameters<Model["dispatch"]>;

const EDITS = 500;
/** So many edits are looked at together: looking at all cells takes longer than an edit. */
const LOOK = 20;

/** What people type: numbers in many spellings, words of lists, names, formulas, and slips of these. */
const TYPED = [
  ...["", "0", "5", "5%", "5 %", "-3", ".05", "12,5", "$46", "1e400", "1/2", "2026-11-28", "TRUE"],
  ...["g", "floz", "lb", "4 x 250 mL", "finished", "base", "Rain room", "Alder Clear", "n/a", "?"],
  ...["=A1", "=SUM(B:B)", "=B2*", "=B7/0", "=MIST.OILFOR(60,5%)", "=MIST.OILFOR(A1:A9,B2)"],
  ...["=NOPE(1)", '=MIST.TURN(1,"oz")', "=SEQUENCE(3,3)", "='No sheet'!A1", "='", "'=1+1"],
];

const ERRORS = /^#(VALUE!|NAME\?|REF!?|DIV\/0!|N\/A|NUM!|NULL!|SPILL!|CYCLE!?|ERROR!?|CALC!)$/;

const place = fc.record({ row: fc.nat(45), col: fc.nat(14) });
const edit = fc.oneof(
  { weight: 12, arbitrary: fc.tuple(fc.constant("type"), place, fc.constantFrom(...TYPED)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant("rows in"), place, fc.integer({ min: 1, max: 3 })) },
  {
    weight: 1,
    arbitrary: fc.tuple(fc.constant("rows out"), place, fc.integer({ min: 1, max: 2 })),
  },
  { weight: 1, arbitrary: fc.tuple(fc.constant("columns in"), place, fc.constant(1)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant("columns out"), place, fc.constant(1)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant("copy"), place, place) },
  { weight: 1, arbitrary: fc.tuple(fc.constant("cut"), place, place) },
  { weight: 2, arbitrary: fc.tuple(fc.constant("empty"), place, fc.integer({ min: 0, max: 3 })) },
  {
    weight: 1,
    arbitrary: fc.tuple(fc.constant("fill down"), place, fc.integer({ min: 1, max: 5 })),
  },
  { weight: 1, arbitrary: fc.tuple(fc.constant("sort"), place, fc.integer({ min: 1, max: 4 })) },
  { weight: 1, arbitrary: fc.tuple(fc.constant("merge"), place, fc.constant(1)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant("undo"), place, fc.constant(1)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant("redo"), place, fc.constant(1)) },
);
type Edit = typeof edit extends fc.Arbitrary<infer T> ? T : never;

function make(model: Model, [kind, { row, col }, more]: Edit) {
  const sheetId = model.getters.getActiveSheetId();
  const sheetName = model.getters.getSheetName(sheetId);
  const count = typeof more === "number" ? more : 0;
  const zone = { top: row, bottom: row + count, left: col, right: col + Math.min(count, 1) };
  const dispatch = (...command: unknown[]) => model.dispatch(...(command as Command));
  const other = typeof more === "object" ? more : { row, col };
  const there = { top: other.row, bottom: other.row, left: other.col, right: other.col };
  const sized = (dimension: "ROW" | "COL", base: number) =>
    dispatch("ADD_COLUMNS_ROWS", {
      ...{ sheetId, sheetName, dimension, base, quantity: count, position: "before" },
    });
  const removed = (dimension: "ROW" | "COL", first: number) =>
    dispatch("REMOVE_COLUMNS_ROWS", {
      ...{ sheetId, sheetName, dimension },
      elements: Array.from({ length: count }, (_, i) => first + i),
    });
  switch (kind) {
    case "type":
      return dispatch("UPDATE_CELL", { sheetId, row, col, content: String(more) });
    case "rows in":
      return sized("ROW", row);
    case "rows out":
      return removed("ROW", row);
    case "columns in":
      return sized("COL", col);
    case "columns out":
      return removed("COL", col);
    case "copy":
    case "cut":
      model.selection.selectZone({ cell: { row, col }, zone });
      dispatch(kind === "copy" ? "COPY" : "CUT");
      return dispatch("PASTE", { target: [there] });
    case "empty":
      return dispatch("DELETE_CONTENT", { sheetId, target: [zone] });
    case "fill down":
      model.selection.selectCell(col, row);
      dispatch("AUTOFILL_SELECT", { col, row: row + count });
      return dispatch("AUTOFILL");
    case "sort":
      return dispatch("SORT_CELLS", {
        ...{ sheetId, col, row, zone, sortDirection: "asc" },
        sortOptions: { sortHeaders: false },
      });
    case "merge":
      return dispatch("ADD_MERGE", { sheetId, target: [zone] });
    case "undo":
      return dispatch("REQUEST_UNDO");
    default:
      return dispatch("REQUEST_REDO");
  }
}

/** What a cell says that no maker should read. */
function unsaid(model: Model): string[] {
  const sheetId = model.getters.getActiveSheetId();
  return model.getters.getCells(sheetId).flatMap((cell) => {
    const position = { ...model.getters.getCellPosition(cell.id) };
    const { type, value, message = "" } = model.getters.getEvaluatedCell(position);
    if (type !== "error") return [];
    const isPlain = ERRORS.test(String(value)) && !INNER.test(message);
    return isPlain ? [] : [`${position.row},${position.col}: ${String(value)} ${message}`];
  });
}

const files: Record<string, Uint8Array> = {};

test.each(templates.map((template) => [template.title, template] as const))(
  "%s",
  async (title, template) => {
    const model = newModel();
    await insertTemplate(new LocalWorkbook(model), template, { where: "new sheet", filled: true });
    const edits = fc.sample(edit, { numRuns: EDITS, seed: title.length });
    let taken = 0;
    for (const [i, each] of edits.entries()) {
      if (make(model, each).isSuccessful) taken++;
      if (i % LOOK === LOOK - 1)
        expect(unsaid(model), `after ${i + 1}: ${fc.stringify(each)}`).toEqual([]);
    }
    expect(taken).toBeGreaterThan(EDITS / 2);
    files[title.replaceAll(" ", "-")] = await toXlsx(model);
  },
  300_000,
);

afterAll(async () => {
  if (validator) expect(await findings(files)).toEqual([]);
}, 300_000);
