/**
 * Handed-over copies, worked out anew by a second engine that has none of our functions. Beside LibreOffice, and on
 * machines without it.
 */
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { readBook, writeInto } from "./read-book";
import { judged, lacking, spansIn } from "./second-judge";
import { LocalWorkbook, newModel, toXlsx, write } from "../localsheet/load-engine";
import { cellOf, isSame, notFollowing } from "../office/compare";
import { randomSheet } from "../office/random-sheet";

const SHEETS = 60;

/** Where it differs from ours, and how many formulas it judged and passed over. */
function verdict(original: Uint8Array) {
  const copy = handOver(original).bytes;
  const [ours, copied, theirs] = [readBook(original), readBook(copy), judged(copy)];
  const passedOver = cannotBeJudged(copy);
  const formulas = [...copied].flatMap(([sheet, cells]) =>
    [...cells].flatMap(([cell, { formula }]) =>
      formula === undefined ? [] : [{ sheet, cell, formula }],
    ),
  );
  const open = formulas.filter(({ sheet, cell }) => !passedOver.has(`${sheet}!${cell}`));
  const unlike = open.flatMap(({ sheet, cell, formula }) => {
    const [own, other] = [cellOf(ours, sheet, cell), cellOf(theirs, sheet, cell)];
    if (isSame(own, other)) return [];
    return [`${sheet}!${cell}: ours ${own.value}, theirs ${other.value}, from ${formula}`];
  });
  return { unlike, judged: open.length, passed: formulas.length - open.length };
}

/** Formulas of which the engine lacks something, what they fill, and all that hangs on them. */
function cannotBeJudged(copy: Uint8Array): Set<string> {
  const [book, spans] = [readBook(copy), spansIn(copy)];
  const fixed = [...book].flatMap(([sheet, cells]) =>
    [...cells].flatMap(([cell, { formula }]) => {
      return formula !== undefined && lacking(formula) ? [{ sheet, cell }] : [];
    }),
  );
  for (;;) {
    const open = notFollowing(book, fixed);
    const filled = [...spans].flatMap(([sheet, all]) =>
      [...all].flatMap(([first, span]) =>
        open.has(`${sheet}!${first}`) &&
        first !== span &&
        !fixed.some((each) => each.sheet === sheet && each.cell === span)
          ? [{ sheet, cell: span }]
          : [],
      ),
    );
    if (filled.length === 0) return open;
    fixed.push(...filled);
  }
}

test("it works out anew what a file says", async () => {
  const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
  write(model, "A1", "2");
  write(model, "A2", "=A1*3");
  const wrong = writeInto(await toXlsx(model), new Map([["Sheet", new Map([["A2", 7]])]]));
  expect(cellOf(judged(wrong), "Sheet", "A2").value).toBe(6);
});

describe("every template's copy shows what ours shows", () => {
  test.each(templates)("$title", async (template) => {
    const model = newModel({ sheets: [{ id: "s", name: "First" }] });
    const drawing = drawingOf(template, true);
    await new LocalWorkbook(model).drawOnNewSheet(template.title, drawing);
    const { unlike, judged: count, passed } = verdict(await toXlsx(model));
    expect(unlike).toEqual([]);
    expect(count).toBeGreaterThan(passed);
  });
});

test("random sheets of calls, handed over", async () => {
  const sheets = Array.from({ length: SHEETS }, (_, seed) => {
    const name = `Sheet ${seed}`;
    const cells = randomSheet(seed).contents;
    return { id: name, name, colNumber: 150, rowNumber: 90, cells };
  });
  const { unlike, judged: count, passed } = verdict(await toXlsx(newModel({ sheets })));
  expect(unlike).toEqual([]);
  expect(count).toBeGreaterThan(passed);
});
