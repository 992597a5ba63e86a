import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import list from "../../functions/bind/list.json";
import { catalog } from "../../functions/catalog/catalog";
import { wordsOf } from "../../functions/catalog/entry";

// Field by field from Microsoft's page "Manually create JSON metadata for custom functions"; strict,
// so that a field Excel does not know fails.
const name = z
  .string()
  .regex(/^[A-Za-z][A-Za-z0-9._]*$/)
  .max(128);
const Metadata = z.strictObject({
  allowCustomDataForDataTypeAny: z.literal(true),
  functions: z
    .array(
      z.strictObject({
        id: name,
        name,
        description: z.string().min(1),
        helpUrl: z.url(),
        parameters: z.array(
          z.strictObject({
            name,
            description: z.string().min(1),
            type: z.enum(["any", "string"]),
            dimensionality: z.literal("matrix"),
            optional: z.literal(true).optional(),
            customEnumId: name.optional(),
          }),
        ),
        result: z.strictObject({ dimensionality: z.literal("matrix") }),
      }),
    )
    .min(1),
  enums: z.array(
    z.strictObject({
      id: name,
      type: z.literal("string"),
      values: z
        .array(z.strictObject({ name, stringValue: z.string().min(1), tooltip: z.string() }))
        .min(2),
    }),
  ),
});

const metadata = Metadata.parse(JSON.parse(readFileSync("functions/functions.json", "utf8")));

describe("functions.json", () => {
  test("has the functions of the catalog, each once", () => {
    const ids = metadata.functions.map((entry) => entry.id);
    expect(ids).toEqual(catalog.map((entry) => entry.id));
    expect(new Set(ids.map((id) => id.toUpperCase().replaceAll(".", "_"))).size).toBe(ids.length);
  });

  test("optional arguments come last, as in Excel's own functions", () => {
    for (const { id, parameters } of metadata.functions) {
      const optional = parameters.map((parameter) => Boolean(parameter.optional));
      expect(optional, id).toEqual([...optional].sort());
    }
  });

  test("leads to a page of help for each function", () => {
    for (const { id, helpUrl } of metadata.functions) {
      const page = /^https:\/\/localhost:3000\/help\/(.+)\.html$/.exec(helpUrl)?.[1];
      expect(existsSync(`docs/${page}.md`), id).toBe(true);
      expect(page).toBe(`reference/${id.toLowerCase()}`);
    }
  });

  test("offers the words of each choice, and those alone are texts", () => {
    const enums = new Map(metadata.enums.map(({ id, values }) => [id, values]));
    for (const [i, { id, params }] of catalog.entries()) {
      for (const [j, param] of params.entries()) {
        const { type, customEnumId } = metadata.functions[i].parameters[j];
        const isChoice = param.kind === "choice" && !param.range;
        expect([id, param.name, type]).toEqual([id, param.name, isChoice ? "string" : "any"]);
        const offered = enums.get(customEnumId ?? "")?.map(({ stringValue }) => stringValue);
        expect(offered).toEqual(isChoice ? wordsOf(param) : undefined);
      }
    }
  });

  test("does not ask Excel for what is known to crash", () => {
    const text = readFileSync("functions/functions.json", "utf8");
    expect(text).not.toContain("allowErrorForDataTypeAny");
    expect(text).not.toContain("repeating");
  });
});

test("the functions' bundle has the shapes of the catalog, and none of its texts", () => {
  expect(list.map(({ id }) => id)).toEqual(catalog.map(({ id }) => id));
  expect(catalog).toMatchObject(list);
  expect(JSON.stringify(list).length).toBeLessThan(JSON.stringify(catalog).length / 5);
});

test("ids never change once landed: workbooks hold them", () => {
  const landed =
    "BASEFOR BATCHFROM LEASTBATCH LOADOF LOADSPAN OILFOR REBASIS SETRIGHT SIZERUN " +
    "DENSITYOF DROPRATE DROPSFOR FILLWEIGHT TURN BLENDDENSITY BLENDOF BLENDSHARE " +
    "BLENDSPLIT SPIRITBYVOLUME SPIRITBYWEIGHT SPIRITCUT SPIRITDENSITY SPIRITMARRY " +
    "ASKPRICE BOTTLECOST EVENPOINT FLOZCOST KEEPRATE LANDED PACKPLAN ALCOHOLVOLUME " +
    "FLAMECLASS FLASHGUESS NETLABEL SAFELOAD SDSTIGHTEN TOPLOAD VOCSHARE FADEHALF " +
    "LASTSFOR PANELAGREE STANDING TIPPOINT TRIOCHANCE TRIONEED " +
    "LOADDOUBT SPRAYSIN COSTDOUBT AIRDOSE ALLERGENAT FILLCHECK VOCROOM PACKHOLDS";
  expect(catalog.map((entry) => entry.id)).toEqual(expect.arrayContaining(landed.split(" ")));
});
