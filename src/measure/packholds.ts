import type { Cell } from "../cells.ts";
import { readPack } from "../packs.ts";
import { convert, unitOf } from "../units.ts";

/**
 * What a pack's text says that it holds, in a unit.
 *
 * @remarks Reads one size as price lists write it: "1 lb", "32 fl. oz.", "1/2 gal", "1 1/2 lb",
 * "half gallon", "case of 4 x 250 mL", "3.5 oz sample". The container's name (bottle, jug, pail,
 * bag, drum and the like) is passed over. oz is a weight and fl oz a volume, always. What may mean
 * two things is refused with the reason: two sizes, "1-2 lb", "10.000 mL", "G".
 * @customfunction PACKHOLDS
 * @topic measure
 * @need How much does this pack hold, by its text?
 * @words pack size, pound, gallon, ounces, case of bottles, text to number, jug, read a size
 * @param text (pack) What stands on the pack or in the list, such as "4 x 250 mL".
 * @param unit (unit) Unit that it is wanted in.
 * @param [density] (density) g/mL; only between weight and volume, no default.
 * @returns (amount) What all of it holds, in the unit asked for.
 * @throws value - the text says no size, two sizes, or one that may mean two things
 * @throws value - density is needed between a weight and a volume: "32 oz" in floz
 * @working packs (count): how many packs {text} tells of = packcount(text)
 * @working said (label): the unit that it says = packunit(text)
 * @working one (said): what one of them holds = packsize(text)
 * @working each (unit per said): one {said} in the unit asked for = inunit(said, unit, density)
 * @working answer (unit): what all hold together, {packs} times {one}, = packs * one * each
 * @source By hand: reading and multiplying; sizes of units as for TURN.
 * @example PACKHOLDS("1/2 gal", "floz") // => 64
 * @example PACKHOLDS("case of 4 x 250 mL", "L") // => 1
 * @example PACKHOLDS("3.5 oz sample", "g") // => 99.2233309375
 * @example PACKHOLDS("32 oz", "floz", 0.85) // => about 36.0889
 */
export function packHolds(text: Cell, unit: string, density?: number): number {
  const { count, size, unit: from } = readPack("text", text);
  return convert(count * size, from, unitOf("unit", unit), density);
}
