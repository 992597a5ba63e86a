/**
 * A price list of the maker's own: its columns are chosen once, and the lines of Materials draw from it by
 * formulas, so that the list stays the one place where a price is typed.
 */
import { isBlank } from "../../functions/bind/cell.ts";
import { cellName } from "../../functions/formula/addresses.ts";
import type { Workbook, TypedCell } from "../host/workbook.ts";
import { quoted } from "../../functions/formula/sheet-names.ts";
import type { Other, Place } from "../sheets/names.ts";
import type { FoundColumn, FoundList } from "./list.ts";
import { matched } from "./matching.ts";

interface OwnColumn {
  label: string;
  words: readonly string[];
  /** Whether its cells are texts or numbers, where that tells it from another column. */
  holds?: "texts" | "numbers";
}

/** What of Materials a list may have, and words that its heading may be known by. */
export const OWN_COLUMNS: Record<string, OwnColumn> = {
  name: {
    label: "Material",
    words: ["material", "item", "product", "ingredient", "name", "thing", "what"],
  },
  supplier: { label: "Supplier", words: ["supplier", "vendor", "from", "shop", "bought"] },
  price: { label: "Price of a pack", words: ["price", "cost", "paid", "$"] },
  size: {
    label: "Pack size",
    words: ["size", "amount", "quantity", "qty", "weight", "volume"],
    holds: "numbers",
  },
  unit: { label: "Pack unit", words: ["unit", "uom", "measure"] },
  pack: {
    label: "Pack as one text (4 x 250 mL)",
    words: ["size", "pack", "contents", "comes", "amount", "quantity", "weight", "volume"],
    holds: "texts",
  },
  density: { label: "Density", words: ["density", "g/ml", "gravity", "sg", "s.g"] },
  packs: { label: "Packs in the order", words: ["packs", "count", "number", "ordered"] },
  freight: {
    label: "Freight of the order",
    words: ["freight", "shipping", "postage", "delivery", "=ship", "=post"],
  },
  freefrom: { label: "Freight free from", words: ["free from", "free over", "free"] },
  lost: { label: "Lost", words: ["lost", "loss", "waste"] },
  lot: { label: "Lot", words: ["lot", "batch"] },
};

/** Lines that are drawn below the last filled one, for those that are typed later. */
export const SPARE_LINES = 50;

/** Which column of a list each of Materials seems to be. */
export function proposed({ columns }: FoundList): Map<string, FoundColumn> {
  const wanted = Object.entries(OWN_COLUMNS).map(([key, { words, holds }]) => ({
    key,
    words,
    fits: (column: FoundColumn) => !holds || (holds === "texts") === holdsTexts(column),
  }));
  return matched(wanted, columns);
}

/** Whether the first filled cell of a column holds a text. */
function holdsTexts({ values }: FoundColumn): boolean {
  const first = values.find((value) => !isBlank(value));
  return typeof first === "string" && Number.isNaN(Number(first));
}

/** The cells of Materials that draw from the list; refuses where lines of Materials are filled already. */
export async function drawFromOwnList(
  workbook: Workbook,
  materials: Other,
  list: FoundList,
  chosen: ReadonlyMap<string, FoundColumn>,
): Promise<string> {
  const lines = list.last - list.head + SPARE_LINES;
  if (chosen.has("pack") && (chosen.has("size") || chosen.has("unit")))
    throw new Error("choose the pack as one text, or its size and unit, not both");
  const columns = [...chosen].flatMap(([key, from]) =>
    drawnColumns(key, from).map(({ column, formula }) => {
      const place = materials.places.get(`materials.${column}`);
      if (!place)
        throw new Error(`Materials has no column for "${OWN_COLUMNS[key]?.label ?? key}"`);
      return { column, place, from, formula };
    }),
  );
  if (!chosen.has("name")) throw new Error("choose which column names the material");
  await refuseFilled(workbook, materials.sheet, columns, lines);
  const cells = columns.flatMap(({ place, from, formula }) =>
    Array.from({ length: lines }, (_, i): TypedCell => {
      const cell = `${quoted(list.sheet)}!${cellName(list.first + i, from.column)}`;
      const spot = { sheet: materials.sheet, row: place.row + i, column: place.column };
      return { spot, content: `=IF(${cell}="","",${formula(cell)})` };
    }),
  );
  await workbook.write([...cells, ...guards(materials, list, columns, lines)]);
  return `Materials draws ${list.last - list.head} lines from "${list.sheet}", and the next ${SPARE_LINES} that you type there. Add lines at its foot: what you type on Materials stays on its row, and is told where your list is sorted.`;
}

/**
 * Each line is drawn from a row. So that a list that is sorted, or a line put in within it, is told: the names that
 * the lines had, and how many filled lines of the list no line of Materials looks at.
 */
function guards(
  { sheet, places }: Other,
  list: FoundList,
  columns: readonly { column: string; from: FoundColumn; place: Place }[],
  lines: number,
): TypedCell[] {
  const [drawnAs, leftOut] = [places.get("materials.drawnas"), places.get("materials.leftout")];
  const names = columns.find(({ column }) => column === "name");
  // A Materials of an earlier version has no room for them.
  if (!drawnAs || !leftOut || !names) return [];
  const filled = (on: string, row: number, column: number) => {
    const ends = [cellName(row, column), cellName(row + lines - 1, column)];
    const range = ends.map((end) => end.replace(/([A-Z]+)/, "$$$1$$")).join(":");
    return `COUNTIF(${quoted(on)}!${range},"?*")`;
  };
  const { from, place } = names;
  const there = filled(list.sheet, list.first, from.column);
  const here = filled(sheet, place.row, place.column);
  return [
    { spot: { sheet, row: leftOut.row, column: leftOut.column }, content: `=${there}-${here}` },
    ...from.values.flatMap((value, i): TypedCell[] => {
      const spot = { sheet, row: drawnAs.row + i, column: drawnAs.column };
      const isName = typeof value === "string" || typeof value === "number";
      return isName && !isBlank(value) ? [{ spot, content: value }] : [];
    }),
  ];
}

interface DrawnColumn {
  column: string;
  /** What stands there, of a filled cell of the list. */
  formula: (cell: string) => string;
}

/** Money that is a text, "$6.00", as the function reads it that adds freight to a price; freight may be zero. */
const priceIn = (cell: string) => `MIST.LANDED(${cell},1,0)`;
const freightIn = (cell: string) => `ROUND(MIST.LANDED(1,1,${cell})-1,6)`;
const IN_FIGURES: Record<string, (cell: string) => string> = {
  price: priceIn,
  freight: freightIn,
  freefrom: freightIn,
};

/** The columns of Materials that a column of the list fills: a pack's text fills size and unit. */
function drawnColumns(key: string, { values }: FoundColumn): DrawnColumn[] {
  const inFigures = IN_FIGURES[key];
  if (inFigures && values.some((value) => typeof value === "string"))
    // What does not read as money stays a text, and Materials says so.
    return [
      {
        column: key,
        formula: (cell) => `IF(ISTEXT(${cell}),IFERROR(${inFigures(cell)},${cell}),${cell})`,
      },
    ];
  if (key !== "pack") return [{ column: key, formula: (cell) => cell }];
  const inOunces = (cell: string, unit: string) => `MIST.PACKHOLDS(${cell},"${unit}")`;
  // A weight does not read in fluid ounces without a density. What reads in neither stays as it is,
  // without a unit, and Materials asks for one.
  const either = (cell: string, volume: string, weight: string, none: string) =>
    `IF(ISERROR(${inOunces(cell, "floz")}),` +
    `IF(ISERROR(${inOunces(cell, "oz")}),${none},${weight}),${volume})`;
  return [
    {
      column: "size",
      formula: (cell) => either(cell, inOunces(cell, "floz"), inOunces(cell, "oz"), cell),
    },
    { column: "unit", formula: (cell) => either(cell, '"floz"', '"oz"', '""') },
  ];
}

async function refuseFilled(
  workbook: Workbook,
  sheet: string,
  columns: readonly { place: Place }[],
  lines: number,
) {
  for (const { place } of columns) {
    const filled = await workbook.firstFilled(
      { sheet, row: place.row, column: place.column },
      lines,
      1,
    );
    if (filled)
      throw new Error(
        `Nothing was drawn: ${filled} of "${sheet}" is filled. Insert Materials empty first, or take its lines out.`,
      );
  }
}
