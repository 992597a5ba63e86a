/** A copy for a partner of a workbook of 10,000 calls, beside LibreOffice opening, working out and saving it. */
import { handOver as copyOf } from "../../functions/files/hand-over";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { libreOffice, recalculated } from "../office/libreoffice";
import { type Case, timed } from "./measure";

const ROWS = 10_000;

async function book(): Promise<Uint8Array> {
  const cells: Record<string, string> = {};
  for (let row = 1; row <= ROWS; row++)
    Object.assign(cells, {
      [`A${row}`]: String(10 + (row % 50)),
      [`B${row}`]: `=MIST.FLOZCOST(A${row},1,"lb",0.9)`,
    });
  const sheets = [{ id: "s", name: "S", colNumber: 8, rowNumber: ROWS, cells }];
  return toXlsx(newModel({ sheets }));
}

/** By the clock alone: what another program takes of the processor is not ours to read. */
async function byTheClock(step: () => unknown) {
  const { wall } = await timed(3, step);
  return { "10,000 calls": { cpu: wall, wall } };
}

/** Not where there is no LibreOffice. */
export const handOver: Record<string, Case> = libreOffice
  ? {
      "hand over": {
        beside: "LibreOffice",
        goal: 1.5,
        runs: 1,
        ours: async () => {
          const bytes = await book();
          return byTheClock(() => copyOf(bytes.slice()));
        },
        other: async () => {
          const bytes = copyOf(await book()).bytes;
          return byTheClock(() => recalculated(bytes));
        },
      },
    }
  : {};
