/** A bench sheet as it was filled, and the lines that it makes. */
import type { CellValue, TypedCell, Workbook } from "../host/workbook.ts";
import { Refused } from "../sheets/insert.ts";
import type { Other } from "../sheets/names.ts";
import { gramsOf } from "../sheets/pack-units.ts";
import type { Taken } from "./stock-told.ts";
import { cellAt, inAnyCapitals, type ListLine, isBlank, textOf, valuesAt } from "./sheet-lists.ts";

interface Form {
  recipe: string;
  number: string | number;
  date: CellValue;
  who: string;
  useby: CellValue;
  unit: string;
  notes: string;
  bottles: { size: string; count: CellValue; filled: CellValue }[];
  poured: { material: string; what: string; lot: string; reading: CellValue }[];
}

export async function formOf(workbook: Workbook, bench: Other): Promise<Form> {
  const at = (name: string) => valuesAt(workbook, bench, name);
  const text = async (name: string) => textOf((await at(name))[0]);
  const [number] = await at("number");
  const [date = null] = await at("date");
  const [useby = null] = await at("useby");
  const counts = await at("sizes.count");
  const filled = await at("sizes.filled");
  const lots = await at("pours.lot");
  const kinds = await at("pours.what");
  const readings = await at("pours.reading");
  return {
    recipe: await text("recipe"),
    number: typeof number === "number" ? number : textOf(number),
    date,
    who: await text("who"),
    useby,
    unit: await text("unit"),
    notes: await text("notes"),
    bottles: (await at("sizes.size")).map((size, i) => {
      return { size: textOf(size), count: counts[i] ?? null, filled: filled[i] ?? null };
    }),
    poured: (await at("pours.material")).map((material, i) => {
      const [what, lot] = [textOf(kinds[i]), textOf(lots[i])];
      return { material: textOf(material), what, lot, reading: readings[i] ?? null };
    }),
  };
}

const isAmount = (value: CellValue): value is number => typeof value === "number" && value >= 0;

/** Why it is no amount. */
function notAmount(value: CellValue): string {
  if (isBlank(value)) return "missing";
  return typeof value === "number" ? `no weight: ${value}` : `no number: ${textOf(value)}`;
}

/** What must be typed before a run can be booked, in words. */
export function missingIn({ recipe, number, date, unit, bottles, poured }: Form): string[] {
  const lines = poured.filter(({ material, reading }) => material !== "" || !isBlank(reading));
  return [
    ...(recipe === "" ? ["which recipe?"] : []),
    ...(number === "" ? ["which batch number?"] : []),
    ...(typeof date === "number" ? [] : ["which date?"]),
    ...(unit === "g" || unit === "oz" ? [] : ["were the readings g or oz?"]),
    ...(lines.length === 0 ? ["there is no material on the sheet"] : []),
    ...lines.flatMap(({ material, reading }) =>
      material === ""
        ? [`the reading ${textOf(reading)} has no material`]
        : isAmount(reading)
          ? []
          : [`the reading of ${material} is ${notAmount(reading)}`],
    ),
    ...bottles.flatMap(({ size, count, filled }) => {
      if (size === "") return isBlank(filled) ? [] : ["bottles filled of which size?"];
      if (isAmount(filled) && Number.isInteger(filled)) return [];
      return isBlank(count) && isBlank(filled)
        ? []
        : [`how many bottles of ${size} were really filled?`];
    }),
    ...(bottles.some(({ filled }) => !isBlank(filled)) ? [] : ["no bottles: type 0 for none"]),
  ];
}

/** The lots of the bench sheet and their use by, as cells that stay when Materials has others. */
export async function lotsKept(workbook: Workbook, bench: Other): Promise<TypedCell[]> {
  const kept: TypedCell[] = [];
  for (const name of ["pours.lot", "pours.useby"])
    for (const [line, value] of (await valuesAt(workbook, bench, name)).entries())
      if (!isBlank(value) && (typeof value === "number" || typeof value === "string"))
        kept.push(cellAt(bench, name, line, value));
  return kept;
}

/** The line of the Batch book, and what was taken from which lot. */
export async function linesFor(
  workbook: Workbook,
  form: Form,
  others: ReadonlyMap<string, Other>,
): Promise<{ batch: ListLine; poured: Taken[]; pieces: Taken[]; without: string }> {
  const filled = form.bottles.flatMap(({ size, filled: count }) =>
    isAmount(count) && count > 0 ? [{ size, count }] : [],
  );
  const batch: ListLine = {
    number: form.number,
    date: Number(form.date),
    recipe: form.recipe,
    who: form.who || null,
    sizes: filled.map(({ size, count }) => `${count} x ${size}`).join(", ") || null,
    count: filled.reduce((sum, { count }) => sum + count, 0),
    ...pouredOf(form),
    useby: typeof form.useby === "number" ? form.useby : null,
    notes: form.notes || null,
  };
  const poured = form.poured.flatMap(({ material, lot, reading }) =>
    isAmount(reading) && reading > 0 ? [{ material, lot, grams: gramsOf(reading, form.unit) }] : [],
  );
  const pieces = await piecesOf(workbook, filled, others);
  const without = pieces
    ? ""
    : " Bottles, sprayers and labels were not counted: there is no sheet Sizes.";
  return { batch, poured, pieces: pieces ?? [], without };
}

/** All that was poured, and the part of it that is oil: not known where a line does not say what it is. */
function pouredOf({ poured, unit }: Form) {
  const lines = poured.flatMap(({ what, reading }) =>
    isAmount(reading) ? [{ what, grams: gramsOf(reading, unit) }] : [],
  );
  const sum = (of: typeof lines) => of.reduce((all, { grams }) => all + grams, 0);
  const weight = sum(lines);
  const isKnown = weight > 0 && lines.every(({ what }) => what !== "");
  const oil = sum(lines.filter(({ what }) => what === "fragrance oil"));
  return { weight, load: isKnown ? oil / weight : null };
}

const PIECES = ["bottle", "sprayer", "label", "box"];

/** Bottles, sprayers, labels and boxes of the sizes that were filled; none where there is no sheet Sizes. */
async function piecesOf(
  workbook: Workbook,
  filled: readonly { size: string; count: number }[],
  others: ReadonlyMap<string, Other>,
) {
  const sizes = others.get("Sizes");
  if (!sizes) return undefined;
  const names = (await valuesAt(workbook, sizes, "sizes.size")).map(textOf).map(inAnyCapitals);
  const taken = new Map<string, number>();
  for (const piece of PIECES) {
    const column = (await valuesAt(workbook, sizes, `sizes.${piece}`)).map(textOf);
    for (const { size, count } of filled) {
      const line = names.indexOf(inAnyCapitals(size));
      if (line < 0)
        throw new Refused(
          `Nothing was booked: ${size} is not on Sizes, so its bottles and labels cannot be counted.`,
        );
      const material = column[line];
      if (material) taken.set(material, (taken.get(material) ?? 0) + count);
    }
  }
  const lots = await lotsOf(workbook, others.get("Materials"));
  return [...taken].map(([material, grams]) => {
    return { material, lot: lots.get(inAnyCapitals(material)) ?? "", grams };
  });
}

/** The lots in use, by material. */
async function lotsOf(workbook: Workbook, materials: Other | undefined) {
  const lots = new Map<string, string>();
  if (!materials) return lots;
  const names = (await valuesAt(workbook, materials, "materials.key"))
    .map(textOf)
    .map(inAnyCapitals);
  const column = (await valuesAt(workbook, materials, "materials.lot")).map(textOf);
  names.forEach((name, i) => {
    if (name !== "" && !lots.has(name)) lots.set(name, column[i] ?? "");
  });
  return lots;
}
