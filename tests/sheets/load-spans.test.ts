/** Loads for two products from one base: the lowest of the certificate, the base and the maker's span. By hand. */
import { expect, test } from "vitest";
import { wholeSet } from "./whole-set";

/** Lines of the demo's Recipes: one base, Alder Clear, for a room and for a body spray. */
const ROOM = { base: 0, slate: 1, cedar: 2 };
const BODY = { base: 5, orchard: 6 };

async function recipes() {
  const set = await wholeSet(true, ["Materials", "Recipes"]);
  const { at, put } = await set.on("Recipes");
  const materials = await set.on("Materials");
  const highest = async (line: number) => [
    await at("recipes.highest", line),
    await at("recipes.setby", line),
  ];
  const line = async (name: string) => {
    for (let i = 0; ; i++) if ((await materials.at("materials.key", i)) === name) return i;
  };
  return {
    at,
    put,
    highest,
    material: async (name: string, of: string, value: string | number | null, across = 0) =>
      materials.put(`materials.${of}`, value, await line(name), across),
  };
}

test("the demo has one base in a room and a body spray, each with its own highest load", async () => {
  const { at, highest } = await recipes();
  expect(await at("recipes.material", ROOM.base)).toBe(await at("recipes.material", BODY.base));
  // Room: certificate above it, base 8 %, span to 7 %. Body: certificate 4 %, base 8 %, a strong oil to 3 %.
  expect(await highest(ROOM.slate)).toEqual([0.07, "your span"]);
  expect(await highest(BODY.orchard)).toEqual([0.03, "your span, a strong oil"]);
  expect(String(await at("recipes.said", ROOM.base))).not.toContain("span");
});

test("the lowest of the three decides, whichever it is, and ties name both", async () => {
  const { highest, material } = await recipes();
  await material("Alder Clear", "takes", 0.025);
  expect(await highest(BODY.orchard)).toEqual([0.025, "the base"]);
  await material("Salt Orchard", "limits", 0.02, 2);
  expect(await highest(BODY.orchard)).toEqual([0.02, "the certificate"]);
  await material("Salt Orchard", "limits", 0.025, 2);
  expect(await highest(BODY.orchard)).toEqual([0.025, "the certificate, the base"]);
});

test("what is blank is not known, never without a limit", async () => {
  const { at, put, highest, material } = await recipes();
  await material("Salt Orchard", "limits", null, 2);
  await material("Alder Clear", "takes", null);
  expect(await highest(BODY.orchard)).toEqual([
    0.03,
    "your span, a strong oil, certificate not known, base not known",
  ]);
  for (const column of ["least", "most", "strong"]) await put(`kinds.${column}`, null, 2);
  expect(await highest(BODY.orchard)).toEqual(["", ""]);
  expect(await at("recipes.limit", BODY.orchard)).toBe("not known");
});

test("words on a certificate: not approved is none at all, not limited leaves the others, others are not known", async () => {
  const { at, highest, material } = await recipes();
  await material("Salt Orchard", "limits", "not limited", 2);
  expect(await highest(BODY.orchard)).toEqual([0.03, "your span, a strong oil"]);
  await material("Salt Orchard", "limits", "not approved", 2);
  expect(await highest(BODY.orchard)).toEqual([0, "the certificate"]);
  expect(await at("recipes.said", BODY.orchard)).toMatch(/^over the certificate limit/);
  await material("Salt Orchard", "limits", "about 4", 2);
  expect(await at("recipes.limit", BODY.orchard)).toBe("not known");
});

test("all oils of a recipe together are held against its span, in words", async () => {
  const { at, put, material } = await recipes();
  await put("recipes.load", 0.065, ROOM.slate);
  // 6.5 % and 1 % are 7.5 %, over 7 %; each alone is under it.
  expect(await at("recipes.said", ROOM.base)).toMatch(
    /^over your span: 7\.5% of oils, at most 7\.0%/,
  );
  await put("recipes.load", 0.02, ROOM.slate);
  expect(await at("recipes.said", ROOM.base)).toMatch(/under your span: 3\.0% of oils, from 5\.0%/);
  await put("recipes.load", 0.04, ROOM.slate);
  await material("Attic Cedar", "strong", "yes");
  // A strong oil lowers the span of its recipe to 5 %, which the two come to.
  expect(await at("recipes.said", ROOM.base)).not.toContain("span");
  expect(await at("recipes.highest", ROOM.slate)).toBe(0.05);
  await material("Alder Clear", "takes", 0.045);
  expect(await at("recipes.said", ROOM.base)).toMatch(
    /^over what this base takes: 5\.0% of oils, at most 4\.5%/,
  );
});
