import { expect, test } from "vitest";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet } from "../../taskpane/sheets/insert";
import { mainList } from "../../taskpane/from-cells/list";
import { proposed } from "../../taskpane/from-cells/own-columns";
import { drawFromOwnList, drawnBefore } from "../../taskpane/from-cells/own-list";
import { template } from "../../taskpane/templates/materials";
import { uniform } from "../chance";

/** A sheet as a maker keeps it: a title, headings of their own, three lines. */
const OWN = [
  ["What we pay", null, null, null, null, null],
  [null, null, null, null, null, null],
  ["Vendor", "Item", "Cost", "Qty", "Unit", "Shipping"],
  ["Alder Row", "Alder Clear", 46, 1, "gal", 14.5],
  ["Bluepost Chandlery", "Rain on Slate", 27.4, 1, "lb", 12.75],
  ["Drovers Wharf", "Attic Cedar", 11.9, 100, "mL", null],
];

/** The same with the pack as one text. */
const IN_WORDS = [
  ["Vendor", "Item", "Cost", "Pack", "Shipping"],
  ["Alder Row", "Alder Clear", 46, "1/2 gal jug", 14.5],
  ["Bluepost Chandlery", "Rain on Slate", 27.4, "1 lb", 12.75],
  ["Drovers Wharf", "Attic Cedar", 11.9, "1 lb or 16 fl oz", 3],
  ["Drovers Wharf", "Salt Orchard", 11.9, "4 x 250 mL", 3],
];

async function withOwnList(own: (string | number | null)[][] = OWN) {
  const model = newModel();
  const workbook = new LocalWorkbook(model);
  const [sheet = ""] = await workbook.sheetNames();
  await workbook.write(
    own.flatMap((line, row) =>
      line.map((content, column) => ({ spot: { sheet, row, column }, content })),
    ),
  );
  await insertSet(workbook, [template], false);
  const list = await mainList(workbook, sheet);
  if (!list) throw new Error("no list was found");
  const materials = (await findSheets(workbook, [template])).get("Materials");
  if (!materials) throw new Error("no Materials");
  const column = async (name: string, lines = 3) => {
    const place = materials.places.get(`materials.${name}`);
    if (!place) throw new Error(name);
    const spot = { sheet: materials.sheet, row: place.row, column: place.column };
    return (await workbook.read(spot, lines, 1)).map(([value]) => value);
  };
  return { model, workbook, sheet, list, materials, column };
}

test("headings of a maker's own are proposed for what they are", async () => {
  const { list } = await withOwnList();
  expect([list.head, list.last]).toEqual([2, 5]);
  const guess = proposed(list);
  const texts = Object.fromEntries([...guess].map(([key, { heading }]) => [key, heading]));
  expect(texts).toEqual({
    name: "Item",
    supplier: "Vendor",
    price: "Cost",
    size: "Qty",
    unit: "Unit",
    freight: "Shipping",
  });
});

test("Materials draws from the list, and follows it", async () => {
  const { workbook, sheet, list, materials, column } = await withOwnList();
  await drawFromOwnList(workbook, materials, list, proposed(list));
  expect(await column("name")).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar"]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
  // A blank of the list stays a blank: freight is not known, and said.
  expect(await column("freight")).toEqual([14.5, 12.75, ""]);
  await workbook.write([{ spot: { sheet, row: 3, column: 2 }, content: 50 }]);
  expect(await column("price", 1)).toEqual([50]);
});

test("a pack in one text is drawn as it stands, and read as one that is typed", async () => {
  const { workbook, list, materials, column } = await withOwnList(IN_WORDS);
  const guess = proposed(list);
  expect(guess.get("pack")?.heading).toBe("Pack");
  expect(guess.has("size") || guess.has("unit")).toBe(false);
  await drawFromOwnList(workbook, materials, list, guess);
  expect(await column("size", 5)).toEqual([
    ...["1/2 gal jug", "1 lb", "1 lb or 16 fl oz", "4 x 250 mL"],
    "",
  ]);
  const write = async (name: string, content: number) => {
    const place = materials.places.get(`materials.${name}`);
    const { row = 0, column: at = 0 } = place ?? {};
    const lines = Array.from({ length: 4 }, (_, i) => ({ row: row + i, column: at }));
    const spots = lines.map((spot) => ({ ...spot, sheet: materials.sheet }));
    await workbook.write(spots.map((spot) => ({ spot, content })));
  };
  await write("packs", 1);
  await write("density", 0.8);
  // By hand: 46 + 14.5 for 64 fl oz, 11.9 + 3 for a litre of 33.814022... fl oz (29.5735295625 mL each).
  const floz = await column("perfloz", 4);
  expect(floz[0]).toBeCloseTo(60.5 / 64, 10);
  expect(floz[3]).toBeCloseTo((14.9 * 29.5735295625) / 1000, 10);
  // 27.4 + 12.75 for a pound of 453.59237 g.
  expect((await column("perg", 2))[1]).toBeCloseTo(40.15 / 453.59237, 10);
  expect(floz[2]).not.toBeTypeOf("number");
  expect((await column("said", 3))[2]).toMatch(/pack/);
  const both = new Map(guess).set("size", list.columns[2] ?? list.columns[0]);
  await expect(drawFromOwnList(workbook, materials, list, both)).rejects.toThrow("not both");
});

test("lines of Materials that are filled are not written over", async () => {
  const { workbook, list, materials } = await withOwnList();
  const place = materials.places.get("materials.price");
  const spot = { sheet: materials.sheet, row: (place?.row ?? 0) + 2, column: place?.column ?? 0 };
  await workbook.write([{ spot, content: 5 }]);
  await expect(drawFromOwnList(workbook, materials, list, proposed(list))).rejects.toThrow(
    "is filled",
  );
});

test("prices that are texts are drawn as money, and one that is no price is said", async () => {
  const written = [
    ["Vendor", "Item", "Cost", "Qty", "Unit", "Shipping", "Packs"],
    ["Alder Row", "Alder Clear", "'$46.00", 1, "gal", "'14.50 USD", 1],
    ["Bluepost Chandlery", "Rain on Slate", 27.4, 1, "lb", "'$0", 1],
    ["Drovers Wharf", "Attic Cedar", "ask", 100, "mL", 0, 1],
    ["Drovers Wharf", "Salt Orchard", "'$1,234", 100, "mL", 0, 1],
  ];
  const { workbook, list, materials, column } = await withOwnList(written);
  await drawFromOwnList(workbook, materials, list, proposed(list));
  expect(await column("price", 4)).toEqual([46, 27.4, "ask", "$1,234"]);
  expect(await column("freight", 4)).toEqual([14.5, 0, 0, 0]);
  // By hand: 46 and 14.50; no freight.
  expect(await column("landed", 2)).toEqual([60.5, 27.4]);
  const said = await column("said", 4);
  expect(said.slice(2)).toEqual(Array(2).fill("type a number: Price of a pack ($)"));
});

test("a line without a price, and lines that are spare, are not told as words", async () => {
  const written = [
    ["Vendor", "Item", "Cost", "Qty", "Unit", "Shipping", "Packs", "Density"],
    ["Alder Row", "Alder Clear", 46, 1, "lb", 0, 1, 0.9],
    ["Alder Row", "Alder Soft", null, 1, "lb", null, null, null],
    ["Alder Row", "Alder Last", 12, 1, "lb", 0, 1, 0.9],
  ];
  const { workbook, list, materials, column } = await withOwnList(written);
  await drawFromOwnList(workbook, materials, list, proposed(list));
  const [first, second, , spare] = (await column("said", 4)).map(String);
  expect(first).not.toContain("type a");
  expect(second).toContain("no price");
  expect(spare).toBe("");
  expect(await column("landed", 4)).toEqual([46, "", 12, ""]);
});

/** The list drawn, with what a maker does to it and to Materials, and what Materials then says. */
async function drawnFrom(own?: (string | number | null)[][]) {
  const all = await withOwnList(own);
  const { model, workbook, sheet, materials } = all;
  const drawn = await drawFromOwnList(workbook, materials, all.list, proposed(all.list));
  const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
  const rows = (row: number, quantity: number, position: "before" | "after") => {
    const put = { type: "ADD_COLUMNS_ROWS", dimension: "ROW", base: row, quantity, position };
    model.dispatch(...([put.type, { ...put, sheetId, sheetName: sheet }] as never as [never]));
  };
  const lineAt = (row: number, line: (string | number | null)[]) =>
    workbook.write(line.map((content, column) => ({ spot: { sheet, row, column }, content })));
  const onMaterials = (name: string, line: number, content: string | number | null) => {
    const place = materials.places.get(`materials.${name}`);
    const spot = {
      sheet: materials.sheet,
      row: (place?.row ?? 0) + line,
      column: place?.column ?? 0,
    };
    return workbook.write([{ spot, content }]);
  };
  const note = async () => {
    const place = materials.places.get("filled");
    const spot = { sheet: materials.sheet, row: place?.row ?? 0, column: 2 };
    return (await workbook.read(spot, 1, 1))[0]?.[0];
  };
  const again = async () => {
    const list = await mainList(workbook, sheet);
    const found = (await findSheets(workbook, [template])).get("Materials");
    if (!list || !found) throw new Error("list or Materials is gone");
    return drawFromOwnList(workbook, found, list, proposed(list));
  };
  return { ...all, drawn, sheetId, rows, lineAt, onMaterials, note, again };
}

test("a list that is sorted moves nothing away from what was typed beside", async () => {
  const { lineAt, column, onMaterials } = await drawnFrom();
  await onMaterials("density", 1, 0.93);
  const [, second = [], third = []] = OWN.slice(3);
  await lineAt(4, third);
  await lineAt(5, second);
  expect(await column("name")).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar"]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
  expect(await column("supplier")).toEqual(["Alder Row", "Bluepost Chandlery", "Drovers Wharf"]);
  expect(await column("density")).toEqual([null, 0.93, null]);
});

test.each([
  ["under the headings", 3],
  ["within", 5],
  ["below the last", 6],
])("a line put in %s is told, and drawn by its name or by drawing again", async (_, row) => {
  const { rows, lineAt, column, note, onMaterials, again } = await drawnFrom();
  expect(await note()).not.toContain("own list");
  if (row < 6) rows(row, 1, "before");
  await lineAt(row, ["Drovers Wharf", "Salt Orchard", 13, 1, "lb", 0]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
  expect(await note()).toMatch(/^of your own list not here: 1, Salt Orchard; draw from it again/);
  await onMaterials("name", 3, "Salt Orchard");
  expect(await column("price", 5)).toEqual([46, 27.4, 11.9, 13, ""]);
  expect(await note()).not.toContain("own list");
  await onMaterials("name", 3, null);
  expect(await note()).toContain("Salt Orchard");
  expect(await again()).toContain(": 1 new");
  expect(await column("name", 5)).toEqual([
    ...["Alder Clear", "Rain on Slate", "Attic Cedar", "Salt Orchard"],
    null,
  ]);
  expect(await column("price", 4)).toEqual([46, 27.4, 11.9, 13]);
  expect(await note()).not.toContain("own list");
  expect(await again()).toContain(": 0 new");
  expect(await column("name", 5)).toHaveLength(5);
});

test("a line put in above the list's total is told, and the total is no line", async () => {
  const total = ["Total", null, 85.3, null, null, null];
  const { drawn, rows, lineAt, column, note } = await drawnFrom([...OWN, total]);
  expect(drawn).toContain("Not drawn: row 7 of it, and what is below.");
  expect(await column("name", 4)).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar", null]);
  expect(await note()).not.toContain("own list");
  rows(6, 1, "before");
  await lineAt(6, ["Drovers Wharf", "Salt Orchard", 13, 1, "lb", 0]);
  expect(await note()).toContain("not here: 1, Salt Orchard");
});

test("more lines than Materials has spare ones are told", async () => {
  const { lineAt, note, again, column } = await drawnFrom();
  for (let i = 0; i < 60; i++) await lineAt(6 + i, ["Row", `Oil ${i}`, 5, 1, "lb", 0]);
  expect(await note()).toContain("not here: 60");
  await again();
  expect(await note()).not.toContain("own list");
  expect((await column("price", 64)).slice(60)).toEqual([5, 5, 5, ""]);
});

/** One oil of two suppliers, and of one of them in two packs. */
const OFFERS = [
  ["Vendor", "Item", "Cost", "Qty", "Unit", "Shipping"],
  ["Alder Row", "Rain on Slate", 30, 1, "lb", 0],
  ["Bluepost Chandlery", "Rain on Slate", 27, 1, "lb", 0],
  ["Bluepost Chandlery", "Rain on Slate", 8, 0.25, "lb", 0],
  ["Bluepost Chandlery", "Attic Cedar", 12, 1, "lb", 0],
];

test("offers of one name are told apart by supplier and pack, in any order", async () => {
  const { lineAt, column, again } = await drawnFrom(OFFERS);
  expect(await column("price", 4)).toEqual([30, 27, 8, 12]);
  const lines = OFFERS.slice(1);
  for (const [i, line] of [...lines].reverse().entries()) await lineAt(1 + i, line);
  expect(await column("price", 4)).toEqual([30, 27, 8, 12]);
  // The pack of one is another now: which it is, is not known until it is drawn again.
  await lineAt(2, ["Bluepost Chandlery", "Rain on Slate", 15, 0.5, "lb", 0]);
  expect(await column("price", 4)).toEqual([30, 27, "", 12]);
  expect((await column("said", 3))[2]).toContain("is not known: draw from it again");
  expect(await again()).toContain(": 0 new");
  expect(await column("price", 4)).toEqual([30, 27, 15, 12]);
});

test("lines that are alike in all have no price, and that is told", async () => {
  const twice = [...OFFERS, ["Alder Row", "Rain on Slate", 33, 1, "lb", 0]];
  const { column, again } = await drawnFrom(twice);
  expect(await column("price", 5)).toEqual(["", 27, 8, 12, ""]);
  expect((await column("said", 1))[0]).toContain("keep one of those that are alike");
  expect(await again()).toContain(": 0 new");
});

test("a second offer of a name that was alone leaves the first with its own price", async () => {
  const { lineAt, column } = await drawnFrom();
  await lineAt(6, ["Alder Row", "Rain on Slate", 99, 1, "lb", 0]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
});

test("a line that is gone from the list has no price, and that is told", async () => {
  const { model, sheetId, column, again } = await drawnFrom();
  const out = { dimension: "ROW" as const, elements: [4], sheetId, sheetName: "" };
  model.dispatch("REMOVE_COLUMNS_ROWS", out);
  expect(await column("price")).toEqual([46, "", 11.9]);
  expect((await column("said"))[1]).toContain("your own list has no line of this name");
  expect(await again()).toContain("Not in it: 1 of Materials");
});

test("spaces that are too many, and a web page's, are no other name", async () => {
  const dirty = OWN.map((line) => line.map((cell) => cell));
  dirty[4] = ["Bluepost Chandlery", " Rain  on\u00a0Slate ", 27.4, 1, "lb", 12.75];
  const { column, note } = await drawnFrom(dirty);
  expect(await column("name")).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar"]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
  expect(await note()).not.toContain("own list");
});

test("names that look like a date or a number stay as they are", async () => {
  const odd = ["'1/2", "'007", "3-4 oil", 1001, "'May 3"];
  const lines = odd.map((name, i) => ["Row", name, 10 + i, 1, "lb", 0]);
  const { column, note, again, onMaterials } = await drawnFrom([...OWN.slice(0, 3), ...lines]);
  expect(await column("name", 5)).toEqual(["1/2", "007", "3-4 oil", 1001, "May 3"]);
  expect(await column("price", 5)).toEqual([10, 11, 12, 13, 14]);
  expect(await note()).not.toContain("own list");
  // A line that was emptied is none that the list lacks; it is drawn below.
  await onMaterials("name", 1, null);
  expect(await again()).toMatch(/: 1 new, 4 were on Materials\.$/);
  expect(await column("price", 6)).toEqual([10, "", 12, 13, 14, 11]);
});

test("drawing again keeps what was typed over a drawn cell, and takes other columns", async () => {
  const { workbook, materials, list, onMaterials, column, sheet } = await drawnFrom();
  await onMaterials("price", 1, 25);
  const [vendor] = list.columns;
  const chosen = new Map(proposed(list));
  chosen.delete("freight");
  if (vendor) chosen.set("lot", vendor);
  await drawFromOwnList(workbook, materials, list, chosen);
  expect(await column("price")).toEqual([46, 25, 11.9]);
  expect(await column("freight")).toEqual([null, null, null]);
  expect(await column("lot", 1)).toEqual(["Alder Row"]);
  const before = await drawnBefore(workbook, materials);
  expect(before?.sheet).toBe(sheet);
  expect(before?.columns).toEqual(
    new Map(Object.entries({ name: 1, supplier: 0, price: 2, size: 3, unit: 4, lot: 0 })),
  );
});

test("of another list nothing is drawn into a Materials that draws from one", async () => {
  const { workbook, materials, list } = await drawnFrom();
  const other = { ...list, sheet: "Others" };
  await expect(drawFromOwnList(workbook, materials, other, proposed(list))).rejects.toThrow(
    "already",
  );
});

test("of two offers of one name, the one that is gone does not take the other's price", async () => {
  const { model, sheetId, column, again } = await drawnFrom(OFFERS);
  const out = { dimension: "ROW" as const, elements: [1, 3], sheetId, sheetName: "" };
  model.dispatch("REMOVE_COLUMNS_ROWS", out);
  expect(await column("price", 4)).toEqual(["", 27, "", 12]);
  expect(await again()).toContain("Not in it: 2 of Materials");
  expect(await column("price", 4)).toEqual(["", 27, "", 12]);
});

/** Lines that know who they are, to hold Materials against whatever was done to the list. */
test("after any edits of the list each line of Materials has the price of its own line, or none", async () => {
  const random = uniform(20_261_129);
  const pick = (n: number) => Math.floor(random() * n);
  for (let round = 0; round < 4; round++) {
    let lines = Array.from({ length: 8 }, (_, id) => {
      const [name, vendor] = [`Oil ${id % 6}`, `Row ${Math.floor(id / 6)}`];
      return { name, line: [vendor, name, 10 + id, 1, "lb", 0] as (string | number | null)[] };
    });
    const { lineAt, column, note } = await drawnFrom([
      ["Vendor", "Item", "Cost", "Qty", "Unit", "Shipping"],
      ...lines.map(({ line }) => line),
    ]);
    const onMaterials = [...lines];
    let longest = lines.length;
    for (let edit = 0; edit < 12; edit++) {
      const at = pick(lines.length);
      const kind = pick(4);
      const changed = lines[at];
      if (kind === 0) lines = lines.sort(() => random() - 0.5);
      if (kind === 1) lines = lines.filter((_, i) => i !== at);
      if (kind === 2) {
        const name = `Oil ${pick(9)}`;
        lines.splice(at, 0, { name, line: [`New ${edit}`, name, 50 + edit, 1, "lb", 0] });
      }
      if (kind === 3 && changed) changed.line[2] = 100 + edit;
      longest = Math.max(longest, lines.length);
      for (let row = 0; row < longest; row++)
        await lineAt(1 + row, lines[row]?.line ?? Array<null>(6).fill(null));
      const prices = await column("price", onMaterials.length);
      let undrawn = lines.length;
      for (const [i, own] of onMaterials.entries()) {
        const named = lines.filter(({ name }) => name === own.name);
        const isAlone = onMaterials.filter(({ name }) => name === own.name).length === 1;
        // A name that is alone on both sides is the same, whoever sells it.
        const line = lines.includes(own) ? own : isAlone && named.length === 1 ? named[0] : null;
        if (line) undrawn--;
        expect(prices[i], `round ${round}, edit ${edit}, ${own.name}`).toBe(line?.line[2] ?? "");
      }
      if (undrawn === 0) expect(await note()).not.toContain("own list");
      else expect(await note()).toContain(`of your own list not here: ${undrawn}, `);
    }
  }
});
