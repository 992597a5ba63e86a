/** Answers of three and four cells in a copy: down a column of lines, across a row of them, and by themselves. */
import { describe, expect, test } from "vitest";
import { handOver } from "../../functions/files/hand-over";
import { readBook, writeInto } from "../files/read-book";
import { newModel, toXlsx, write } from "../localsheet/load-engine";
import { cellOf, isSame, tell } from "./compare";
import { libreOffice, recalculated } from "./libreoffice";

const CONTENTS: Record<string, string> = {
  // Oil, base and step; lines down and across, one blank, one a word.
  ...{ A1: "3", A2: "57", A3: "0.1", A4: "base", A5: "2" },
  ...{ B1: "1", B3: "4", D1: "1", E1: "2", F1: "x" },
  A10: "=MIST.LOADDOUBT(A1,A2,A3)",
  A11: "=MIST.LOADDOUBT(A1,A2,A3,A4,A5)",
  A12: "=MIST.LOADDOUBT(A1,0.1,A3)",
  A13: "=MIST.LOADDOUBT(B1:B3,A2,A3)",
  A16: "=MIST.LOADDOUBT(D1:F1,A2,A3)",
  // Amounts and quotes: a spare line, and a line of none.
  ...{ H1: "95", H2: "5", H4: "0", I1: "0.01", I2: "0.07", J1: "0.012", J2: "0.09" },
  H10: "=MIST.COSTDOUBT(H1:H4,I1:I4,J1:J4)",
  H11: '=MIST.COSTDOUBT(H1:H4,I1:I4,J1:J4,"together")',
  H12: "=MIST.COSTDOUBT(H1:H2,I1:I2,J2:J3)",
  H13: "=MIST.COSTDOUBT(H1:H2,J1:J2,I1:I2)",
  // Limit, base, oil and exemption.
  ...{ M1: "0.18", M2: "0.17", M3: "0.5", M4: "0.02", M5: "0.1", M6: "0.2", M7: "0.4" },
  M10: "=MIST.VOCROOM(M1,M2,M3,M4)",
  M11: "=MIST.VOCROOM(M1,M2,M3,M4,M5)",
  M12: "=MIST.VOCROOM(M1,M6,M5)",
  M13: "=MIST.VOCROOM(M1,M7,0.9,0,M5)",
  M14: "=MIST.VOCROOM(M1,M6,M6)",
  M15: "=MIST.VOCROOM(M1,M5:M7,M3,M4)",
  // Loads and shares of an allergen; grams, room and air changes.
  ...{ R1: "0.02", R2: "0.01", S1: "0.001", S2: "0.004", S4: "not listed" },
  R10: "=MIST.ALLERGENAT(R1:R3,S1:S3)",
  R11: '=MIST.ALLERGENAT(R1:R2,S1:S2,"rinse-off")',
  R12: "=MIST.ALLERGENAT(R1:R2,S2:S3)",
  R13: "=MIST.ALLERGENAT(R1,S4)",
  R14: "=MIST.ALLERGENAT(0.01,0.001)",
  ...{ V1: "0.7", V2: "20", V3: "ft3", V4: "0.5", W2: "1", W3: "-1" },
  V10: '=MIST.AIRDOSE(V1,"oz",V2,V3,V4,W1:W3)',
  V13: '=MIST.AIRDOSE(V1,"g",V2,"m3",0,8)',
};

/** Inputs of every function, moved. */
const CHANGES = Object.entries({
  ...{ A1: 5, B3: 7, D1: 3, H1: 80, J2: 0.11 },
  ...{ M1: 0.19, M2: 0.16, R1: 0.0001, V1: 0.9, V4: 1.5 },
});

describe.skipIf(!libreOffice)("answers of several cells stay live", () => {
  test("as they were, and with other inputs", async () => {
    const model = newModel({ sheets: [{ id: "s", name: "Sheet" }] });
    for (const [cell, content] of Object.entries(CONTENTS)) write(model, cell, content);
    const bytes = await toXlsx(model);
    const copy = handOver(bytes);
    expect(copy.replaced.map(({ became }) => became)).toEqual(Array(22).fill("formula"));
    const wrong = (ours: Uint8Array, theirs: Uint8Array) => {
      const [own, other] = [readBook(ours), readBook(recalculated(theirs))];
      return [...(own.get("Sheet") ?? [])].flatMap(([cell, value]) => {
        const shown = cellOf(other, "Sheet", cell);
        return isSame(value, shown) ? [] : [tell("Sheet", cell, value, shown)];
      });
    };
    expect(wrong(bytes, copy.bytes)).toEqual([]);
    for (const [cell, value] of CHANGES) write(model, cell, String(value));
    const changed = writeInto(copy.bytes, new Map([["Sheet", new Map(CHANGES)]]));
    expect(wrong(await toXlsx(model), changed)).toEqual([]);
  }, 120_000);
});
