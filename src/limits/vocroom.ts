import type { Cells } from "../cells.ts";
import { CalcError, share, showShare } from "../errors.ts";

/**
 * The loads of fragrance oil that keep a VOC limit: lowest, highest, and a word on them.
 *
 * @remarks VOC at a load = (1 - load) x base + what is above exempt of the load x oil, by weight:
 * fragrance up to exempt is not counted, the rest keeps its VOC part, and the base all of its own.
 * Where the base alone is over the limit, only more of an oil with less VOC brings it under: then
 * no load below the lowest will do. Where no load keeps it both cells say none, which TOPLOAD takes
 * for no load at all. Put in the highest that base and oil can have; with least the word says where
 * a lighter base would decide otherwise. What counts, what is exempt and which limit holds, the
 * rule of your place says; certificates have limits of their own.
 * @customfunction VOCROOM
 * @topic limits
 * @need How much oil can I use under a VOC limit?
 * @words emissions, air rules, California, most oil allowed, legal limit
 * @param limit (share) VOC limit of the product by weight, 0 % to 100 %.
 * @param base (share) Part of the base that counts as VOC, by weight; where it is known only as a
 * range, its high.
 * @param oil (share) Part of the oil that counts as VOC, by weight; the high of a range.
 * @param [exempt] (share) Fragrance that is not counted, as a share of the product, 0 % to 100 %
 * (default 0 %).
 * @param [least] (share) Low of the base's range, where base is its high (no default: base is
 * exact).
 * @returns (worded) Three cells: lowest and highest load, or "none" in both, and a word on them.
 * @throws value - least is above base
 * @throws value - a part is typed as 18 instead of 18 %
 * @needs limit >= 0 and limit <= 1
 * @needs base >= 0 and base <= 1
 * @needs oil >= 0 and oil <= 1
 * @needs exempt >= 0 and exempt <= 1
 * @needs [least given] least >= 0 and least <= base
 * @working near (share): the limit for VOC, with room for a rounding, = limit + 1e-12
 * @working bottom (share): the least VOC that any load gives = (1 - exempt) * min(base, oil)
 * @working alone (share): the VOC of the oil alone, without the {exempt} that is not counted, = (1
 * - exempt) * oil
 * @working [bottom <= near and base <= near] low (share): the lowest load, as the base alone keeps
 * the limit, = 0
 * @working [bottom <= near and base > near and base - limit <= exempt * base + 2e-12] low (share):
 * the lowest load, which brings the base's {base} down to {limit} while no oil counts, = 1 - limit
 * / base
 * @working [bottom <= near and base > near and base - limit > exempt * base + 2e-12] low (share):
 * the lowest load, which brings the base's {base} down to {limit} where the oil counts too, = (base
 * - exempt * oil - limit) / (base - oil)
 * @working [bottom <= near and alone <= near] high (share): the highest load, as the oil alone
 * keeps the limit, = 1
 * @working [bottom <= near and alone > near] high (share): the highest load, which brings the
 * base's {base} to {limit} with oil of {oil}, = (limit - base + exempt * oil) / (oil - base)
 * @working [bottom <= near and base <= near and alone <= near] said (label): which loads keep the
 * limit = "any load keeps it"
 * @working [bottom <= near and base <= near and alone > near] said (label): which loads keep the
 * limit = "up to the highest"
 * @working [bottom <= near and base > near and alone <= near] said (label): which loads keep the
 * limit = "from the lowest up"
 * @working [bottom <= near and base > near and alone > near] said (label): which loads keep the
 * limit = "from the lowest to the highest"
 * @working [least given] floor (share): the base at its least = least
 * @working [least not given] floor (share): the base, which is no range, = base
 * @working [bottom <= near and (floor < base and (base > near or alone > near))] open (label): what
 * stays open, as the base is a range = "; beyond that the base decides"
 * @working [bottom <= near and (floor == base or (base <= near and alone <= near))] open (label):
 * nothing stays open = ""
 * @working [bottom <= near] word (label): both in words = concat(said, open)
 * @working [bottom <= near] room (lowest: worded; highest: worded; in words: label): the loads that
 * keep the limit = [low, high, word]
 * @working [bottom > near and (1 - exempt) * min(floor, oil) <= near] room (lowest: worded;
 * highest: worded; in words: label): {bottom} is above {limit} = ["none", "none", "no load surely
 * keeps it: the base decides"]
 * @working [bottom > near and (1 - exempt) * min(floor, oil) > near] room (lowest: worded; highest:
 * worded; in words: label): {bottom} is above {limit} = ["none", "none", "no load keeps it"]
 * @source By hand, from 40 CFR 59.203(e) and 17 CCR 94510(c): fragrance up to a part of the product
 * is not included.
 * @example VOCROOM(18%, 17%, 50%, 2%) // => {0%, about 6.061%, "up to the highest"}
 * @example VOCROOM(18%, 20%, 10%) // => {20%, 100%, "from the lowest up"}
 * @example VOCROOM(18%, 40%, 90%, 2%) // => {"none", "none", "no load keeps it"}
 */
export function vocRoom(
  limit: number,
  base: number,
  oil: number,
  exempt = 0,
  least?: number,
): Cells {
  const allowed = share("limit", limit);
  const parts = { oil: share("oil", oil), exempt: share("exempt", exempt) };
  const most = share("base", base);
  const floor = least === undefined ? most : share("least", least);
  if (floor > most) {
    throw new CalcError(`least must be at most base, ${showShare(most)}, got ${showShare(floor)}`);
  }
  const room = roomOf(allowed, most, parts);
  if (room) return [[...room, wordOn(room, floor < most)]];
  const word = roomOf(allowed, floor, parts) ? "surely keeps it: the base decides" : "keeps it";
  return [["none", "none", `no load ${word}`]];
}

/** Nearer to the limit than this, a VOC is at the limit. */
const NEAR = 1e-12;

/** Lowest and highest load; none where even the least VOC is above the limit. */
function roomOf(
  limit: number,
  base: number,
  { oil, exempt }: { oil: number; exempt: number },
): [low: number, high: number] | undefined {
  const over = (voc: number) => voc > limit + NEAR;
  // At first each bit of oil takes base away; from exempt on it brings its own VOC, too.
  if (over((1 - exempt) * Math.min(base, oil))) return undefined;
  const crossing = (limit - base + exempt * oil) / (oil - base);
  const falling = base - limit <= exempt * base + 2 * NEAR ? 1 - limit / base : crossing;
  return [over(base) ? falling : 0, over((1 - exempt) * oil) ? crossing : 1];
}

function wordOn([low, high]: [number, number], isRange: boolean): string {
  if (low === 0 && high === 1) return "any load keeps it";
  const from = low === 0 ? "" : "from the lowest ";
  const to = high === 1 ? "up" : `${low === 0 ? "up " : ""}to the highest`;
  return `${from}${to}${isRange ? "; beyond that the base decides" : ""}`;
}
