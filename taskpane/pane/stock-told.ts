/** What a booked run takes from stock, in words: from which lots, what is below zero then, what does not fall. */
import type { Workbook } from "../host/workbook.ts";
import type { Other } from "../sheets/names.ts";
import { inAnyCapitals, textOf, valuesAt } from "./sheet-lists.ts";

export interface Taken {
  material: string;
  lot: string;
  grams: number;
}

interface Stock {
  onHand: number;
  countedOn: number;
}

export function lotsTold(poured: readonly Taken[]): string {
  const known = poured.filter(({ lot }) => lot !== "");
  const without = poured.filter(({ lot }) => lot === "").map(({ material }) => material);
  const told = [
    ...(known.length > 0
      ? [known.map(({ material, lot }) => `${material} ${lot}`).join(", ")]
      : []),
    ...(without.length > 0 ? [`none of ${without.join(", ")}`] : []),
  ];
  return told.length > 0 ? ` Lots: ${told.join("; ")}.` : "";
}

/** Told before it is booked, as a host may calculate later. */
export async function stockTold(
  workbook: Workbook,
  materials: Other | undefined,
  taken: readonly Taken[],
  date: number,
): Promise<{ hasFallen: boolean; told: string }> {
  const stockOf = await stockOn(workbook, materials);
  const counted = eachOnce(taken).flatMap((each) => {
    const stock = stockOf(each);
    return stock ? [{ ...each, ...stock }] : [];
  });
  const falling = counted.filter(({ countedOn }) => countedOn <= date);
  const staying = counted.filter(({ countedOn }) => countedOn > date);
  const below = falling.filter(({ onHand, grams }) => onHand - grams < 0);
  const named = (words: string, lines: readonly Taken[]) =>
    lines.length > 0 ? ` ${words}: ${lines.map(({ material }) => material).join(", ")}.` : "";
  return {
    hasFallen: falling.length > 0,
    told:
      named("Counted after that day, so that on hand does not fall", staying) +
      named("On hand is below zero now, count anew", below),
  };
}

/** What is taken of a lot in several pours, as one. */
function eachOnce(taken: readonly Taken[]): Taken[] {
  const all = new Map<string, Taken>();
  for (const each of taken) {
    const key = inAnyCapitals(`${each.material}|${each.lot}`);
    all.set(key, { ...each, grams: each.grams + (all.get(key)?.grams ?? 0) });
  }
  return [...all.values()];
}

/** The stock that Materials takes it from: that of its lot, or else that of the line in use. */
async function stockOn(workbook: Workbook, materials: Other | undefined) {
  const column = (name: string) =>
    materials ? valuesAt(workbook, materials, `materials.${name}`) : Promise.resolve([]);
  const texts = async (name: string) => (await column(name)).map(textOf).map(inAnyCapitals);
  const [names, keys, lots] = [await texts("name"), await texts("key"), await texts("lot")];
  const [onHand, countedOn] = [await column("onhand"), await column("countedon")];
  return ({ material, lot }: Taken): Stock | undefined => {
    const [name, own] = [inAnyCapitals(material), inAnyCapitals(lot)];
    const ofLot = own === "" ? -1 : names.findIndex((each, i) => each === name && lots[i] === own);
    const line = ofLot < 0 ? keys.indexOf(name) : ofLot;
    const left = onHand[line];
    if (typeof left !== "number") return undefined;
    const day = countedOn[line];
    return { onHand: left, countedOn: typeof day === "number" ? day : 0 };
  };
}
