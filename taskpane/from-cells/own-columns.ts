/** What of Materials a price list of the maker's own may have, and how Materials draws each of its columns. */
import { isBlank } from "../../functions/bind/cell.ts";
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

/** The column of Materials that a column of the list fills: a pack in one text is a size that has its unit. */
export function drawnColumn(key: string, { values }: FoundColumn): DrawnColumn {
  const column = key === "pack" ? "size" : key;
  const inFigures = IN_FIGURES[key];
  if (!inFigures || values.every((value) => typeof value !== "string"))
    return { column, formula: (cell) => cell };
  // What does not read as money stays a text, and Materials says so.
  const formula = (cell: string) =>
    `IF(ISTEXT(${cell}),IFERROR(${inFigures(cell)},${cell}),${cell})`;
  return { column, formula };
}
