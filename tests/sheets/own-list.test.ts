import { expect, test } from "vitest";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { findSheets } from "../../taskpane/sheets/find";
import { insertSet } from "../../taskpane/sheets/insert";
import { mainList } from "../../taskpane/from-cells/list";
import { drawFromOwnList, proposed } from "../../taskpane/from-cells/own-list";
import { templates } from "../../taskpane/templates/index";

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
  await insertSet(workbook, templates, false);
  const list = await mainList(workbook, sheet);
  if (!list) throw new Error("no list was found");
  const materials = (await findSheets(workbook, templates)).get("Materials");
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

test("Materials draws from the list, follows it, and takes lines that are typed later", async () => {
  const { workbook, sheet, list, materials, column } = await withOwnList();
  await drawFromOwnList(workbook, materials, list, proposed(list));
  expect(await column("name")).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar"]);
  expect(await column("price")).toEqual([46, 27.4, 11.9]);
  // A blank of the list stays a blank: freight is not known, and said.
  expect(await column("freight")).toEqual([14.5, 12.75, ""]);
  await workbook.write([
    { spot: { sheet, row: 3, column: 2 }, content: 50 },
    { spot: { sheet, row: 6, column: 1 }, content: "Salt Orchard" },
  ]);
  expect(await column("price", 1)).toEqual([50]);
  expect(await column("name", 5)).toEqual([
    "Alder Clear",
    "Rain on Slate",
    "Attic Cedar",
    "Salt Orchard",
    "",
  ]);
});

test("a pack in one text is drawn as size and unit; what cannot be read is shown and asked for", async () => {
  const { workbook, list, materials, column } = await withOwnList(IN_WORDS);
  const guess = proposed(list);
  expect(guess.get("pack")?.heading).toBe("Pack");
  expect(guess.has("size") || guess.has("unit")).toBe(false);
  await drawFromOwnList(workbook, materials, list, guess);
  const sizes = await column("size", 5);
  // By hand: 64 fl oz in half a gallon, 16 oz in a pound, a litre over 29.5735295625 mL.
  expect(sizes.slice(0, 3)).toEqual([64, 16, "1 lb or 16 fl oz"]);
  expect(sizes[3]).toBeCloseTo(1000 / 29.5735295625, 10);
  expect(sizes[4]).toBe("");
  expect(await column("unit", 5)).toEqual(["floz", "oz", "", "floz", ""]);
  expect(await column("said", 3)).toEqual([
    expect.not.stringContaining("pack unit?"),
    expect.not.stringContaining("pack unit?"),
    expect.stringContaining("pack size?"),
  ]);
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

test("a list that is sorted after something was typed beside is told, line by line", async () => {
  const { workbook, sheet, list, materials, column } = await withOwnList();
  await drawFromOwnList(workbook, materials, list, proposed(list));
  const told = async () =>
    (await column("said")).map((text) => /where (.*) was/.exec(String(text))?.[1]);
  expect(await told()).toEqual([undefined, undefined, undefined]);
  // Sorted by the name, the third line comes second.
  const [, second = [], third = []] = OWN.slice(3);
  await workbook.write(
    [third, second].flatMap((line, i) =>
      line.map((content, at) => ({ spot: { sheet, row: 4 + i, column: at }, content })),
    ),
  );
  expect(await column("name")).toEqual(["Alder Clear", "Attic Cedar", "Rain on Slate"]);
  expect(await told()).toEqual([undefined, "Rain on Slate", "Attic Cedar"]);
});

test("a line put in within the list is not drawn, and that is told", async () => {
  const { model, workbook, sheet, list, materials, column } = await withOwnList();
  await drawFromOwnList(workbook, materials, list, proposed(list));
  const note = async () => {
    const place = materials.places.get("filled");
    const spot = { ...place, sheet: materials.sheet, row: place?.row ?? 0, column: 2 };
    return (await workbook.read(spot, 1, 1))[0]?.[0];
  };
  expect(await note()).not.toContain("own list");
  const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
  const put = { dimension: "ROW", base: 5, quantity: 1, position: "before" } as const;
  model.dispatch("ADD_COLUMNS_ROWS", { ...put, sheetId, sheetName: sheet });
  await workbook.write([{ spot: { sheet, row: 5, column: 1 }, content: "Salt Orchard" }]);
  expect(await column("name")).toEqual(["Alder Clear", "Rain on Slate", "Attic Cedar"]);
  expect(await note()).toBe("lines of your own list that are not drawn: 1");
});
