/** What a person waits for in the local sheet: the whole set inserted, a key in a workbook of 50,000 cells. */
import { insertSet } from "../../taskpane/sheets/insert";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel, write } from "../localsheet/load-engine";
import { type Case, timed } from "./measure";

const CELLS = 50_000;

async function inserted() {
  const model = newModel();
  await insertSet(new LocalWorkbook(model), templates, true);
  return model;
}

/** Half of the cells are formulas that look at the ones beside them. */
export function longBook() {
  const cells: Record<string, string> = {};
  for (let row = 1; row <= CELLS / 2; row++)
    Object.assign(cells, { [`A${row}`]: String(row), [`B${row}`]: `=MIST.OILFOR(A${row},5%)` });
  return { sheets: [{ id: "s", name: "S", colNumber: 8, rowNumber: CELLS / 2, cells }] };
}

export const page: Record<string, Case> = {
  "all sheets": {
    beside: "the engine opening them",
    goal: 3,
    ours: async () => ({ inserted: await timed(3, inserted) }),
    other: async () => {
      const data = (await inserted()).exportData();
      return { inserted: await timed(3, () => newModel(structuredClone(data))) };
    },
  },
  "50,000 cells": {
    beside: "a tenth of a second",
    goal: 1,
    other: 100,
    ours: async () => {
      const model = newModel(longBook());
      return { "a key": await timed(9, (i) => write(model, `A${100 + i}`, String(i))) };
    },
  },
};
