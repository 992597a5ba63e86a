import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test, vi } from "vitest";
import type { Model } from "../../localsheet/engine";
import { fromXlsx, toXlsx } from "../../localsheet/files";
import { keep, recall } from "../../localsheet/keep";

const sheet = (formula: string) => `<c r="A1"><f t="array" ref="A1">${formula}</f><v>3</v></c>`;

function saved(content: string): Promise<Uint8Array> {
  const files = [{ path: "xl/worksheets/sheet0.xml", contentType: "sheet", content }];
  return toXlsx({
    exportXLSX: () => Promise.resolve({ name: "my.xlsx", files }),
  } as unknown as Model);
}

describe("calls of our functions in a file", () => {
  test.each([
    ["MIST.OILFOR(A1,B1)", "_xldudf_MIST_OILFOR(A1,B1)"],
    [
      "IF(A1=&quot;&quot;,MIST.TURN(A1,&quot;g&quot;,&quot;oz&quot;),1)",
      "IF(A1=&quot;&quot;,_xldudf_MIST_TURN(A1,&quot;g&quot;,&quot;oz&quot;),1)",
    ],
    ["MIST.BASEFOR(MIST.OILFOR(A1,B1),B1)", "_xldudf_MIST_BASEFOR(_xldudf_MIST_OILFOR(A1,B1),B1)"],
    [
      '"type MIST.OILFOR(60)"&MIST.OILFOR(1,B1)',
      '"type MIST.OILFOR(60)"&_xldudf_MIST_OILFOR(1,B1)',
    ],
    ["CHEMIST.OILFOR(A1)", "CHEMIST.OILFOR(A1)"],
  ])("%s is stored as %s, and read back", async (typed, stored) => {
    const bytes = await saved(sheet(typed));
    expect(strFromU8(unzipSync(bytes)["xl/worksheets/sheet0.xml"])).toBe(sheet(stored));
    const parts = unzipSync(bytes);
    const whole = zipSync({ ...parts, "xl/workbook.xml": strToU8("<workbook/>") });
    expect(fromXlsx(whole)["xl/worksheets/sheet0.xml"]).toBe(sheet(typed));
  });

  test("text outside formulas is left alone", async () => {
    const bytes = await saved("<t>MIST.OILFOR(60)</t>");
    expect(strFromU8(unzipSync(bytes)["xl/worksheets/sheet0.xml"])).toBe("<t>MIST.OILFOR(60)</t>");
  });
});

test("what is no workbook is refused", () => {
  expect(() => fromXlsx(strToU8("price,46"))).toThrow("it could not be unzipped");
  expect(() => fromXlsx(zipSync({ "a.xml": strToU8("<a/>") }))).toThrow("it has no sheets");
});

describe("keeping in the browser", () => {
  function storage(room = Number.POSITIVE_INFINITY) {
    const kept = new Map<string, string>();
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => {
        if (text.length > room) throw new Error("full");
        kept.set(key, text);
      },
    });
    return kept;
  }

  test("what was kept is recalled", () => {
    storage();
    expect(recall()).toBeNull();
    expect(keep({ sheets: [1] })).toBe(true);
    expect(recall()).toEqual({ sheets: [1] });
  });

  test("a browser without room says so", () => {
    storage(3);
    expect(keep({ sheets: [1] })).toBe(false);
  });

  test("a damaged one is set aside, not thrown away", () => {
    const kept = storage();
    keep({});
    const [key] = kept.keys();
    kept.set(key, "{broken");
    expect(recall()).toBeNull();
    expect(kept.get(`${key}.damaged`)).toBe("{broken");
  });
});
