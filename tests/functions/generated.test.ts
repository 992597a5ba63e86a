import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { lateList } from "../../functions/bind/late-list";
import { lateIds, list } from "../../functions/bind/list";
import { boundOf } from "../../functions/bind/listed";
import { catalog } from "../../functions/catalog/catalog";
import { type Bound, wordsOf } from "../../functions/catalog/entry";
import { WORD_KINDS, zeroOf } from "../../functions/catalog/kinds";
import * as src from "../../src/index";

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

/** Both parts of the functions' bundle, in the order of the catalog. */
const all = [...list, ...lateList].sort(([a], [b]) => placeOf(a) - placeOf(b));

function placeOf(id: string): number {
  return catalog.findIndex((entry) => entry.id === id);
}

test("what is loaded after the first functions is what these wait for", () => {
  expect(lateList.map(([id]) => id)).toEqual(lateIds);
  expect(list.map(([id]) => id)).not.toEqual(expect.arrayContaining([expect.toBeOneOf(lateIds)]));
});

test("the functions' bundle has the shapes of the catalog", () => {
  const shape = ({ params, ...entry }: Bound) => ({
    id: entry.id,
    isRange: entry.returns.range,
    params: params.map(({ name, range, mixed = false, optional, kind }) => ({
      ...{ name, range, mixed, optional, isWord: WORD_KINDS.has(kind), zero: zeroOf(kind) },
      isPack: kind === "pack",
    })),
  });
  expect(all.map(boundOf).map(shape)).toEqual(catalog.map(shape));
});

test("the functions' bundle knows what stands in for a temperature, which a refusal tells", () => {
  const temperatures = (entries: readonly Bound[]) =>
    entries.flatMap(({ id, params }) =>
      params
        .filter(({ kind }) => kind === "celsius")
        .map((param) => `${id} ${param.name} ${param.default}`),
    );
  expect(temperatures(all.map(boundOf))).toEqual(temperatures(catalog));
});

test("the functions' bundle calls the function of each name", () => {
  const pure: Readonly<Record<string, unknown>> = src;
  for (const [i, [id, , run]] of all.entries()) expect(run, id).toBe(pure[catalog[i].name]);
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
