/** Copies for a partner of workbooks of many calls, beside LibreOffice opening, working out and saving them. */
import { handOver as copyOf } from "../../functions/files/hand-over";
import { newModel, toXlsx } from "../localsheet/load-engine";
import { libreOffice, recalculated } from "../office/libreoffice";
import { type Case, type Times, timed } from "./measure";

const CALLS = [10_000, 50_000];

async function book(rows: number): Promise<Uint8Array> {
  const cells: Record<string, string> = {};
  for (let row = 1; row <= rows; row++)
    Object.assign(cells, {
      [`A${row}`]: String(10 + (row % 50)),
      [`B${row}`]: `=MIST.FLOZCOST(A${row},1,"lb",0.9)`,
    });
  const sheets = [{ id: "s", name: "S", colNumber: 8, rowNumber: rows, cells }];
  return toXlsx(newModel({ sheets }));
}

/** Of each workbook, by the clock alone: what another program takes of the processor is not ours to read. */
async function byTheClock(
  ready: (bytes: Uint8Array) => Uint8Array,
  step: (bytes: Uint8Array) => unknown,
) {
  const times: Times = {};
  for (const calls of CALLS) {
    const bytes = ready(await book(calls));
    const { wall } = await timed(3, () => step(bytes.slice()));
    times[`${calls.toLocaleString("en-US")} calls`] = { cpu: wall, wall };
  }
  return times;
}

/** Not where there is no LibreOffice. */
export const handOver: Record<string, Case> = libreOffice
  ? {
      "hand over": {
        beside: "LibreOffice",
        goal: 1.5,
        runs: 1,
        ours: () => byTheClock((bytes) => bytes, copyOf),
        other: () => byTheClock((bytes) => copyOf(bytes).bytes, recalculated),
      },
    }
  : {};
