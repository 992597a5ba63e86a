/**
 * VOC that counts where a rule does not count the first points of fragrance.
 *
 * Only fragrance is waived, and never more than there is of it. Which of the oils the first points
 * are, no rule says: for the most that can count they are those with least VOC, for the least those
 * with most.
 */
import { at, sum } from "../lists.ts";
import { type Intervals, byWorth, mostOf } from "./intervals.ts";

export interface Exemption {
  isFragrance: readonly boolean[];
  /** Most fragrance that does not count, as a share of the product. */
  exempt: number;
}

/** The least and the most that can count in any composition within the ranges. Both are exact. */
export function countedVoc(
  parts: Intervals,
  voc: { lows: number[]; highs: number[] },
  { isFragrance, exempt }: Exemption,
): [least: number, most: number] {
  const total = (shares: readonly number[], ofFragrance: boolean) =>
    sum(shares.map((share, i) => (isFragrance[i] === ofFragrance ? share : 0)));
  // No composition has more fragrance than this.
  const mostFragrance = Math.min(total(parts.highs, true), 1 - total(parts.lows, false));
  const waived = { isFragrance, exempt: Math.min(exempt, mostFragrance) };
  const least = -greatest(
    parts,
    voc.lows.map((part) => -part),
    waived,
  );
  // Or there is less fragrance than may be waived, and more of the rest.
  const rest = voc.highs.map((part, i) => (isFragrance[i] ? 0 : part));
  return [least, Math.max(greatest(parts, voc.highs, waived), mostOf(parts, rest))];
}

/**
 * The most that the parts which count can be worth, just so much of the fragrance being waived. Of
 * the fragrance that is surely there the rest must count; what is then left to fill goes to what is
 * worth most, and of the fragrance no more can count than its highs less what is waived.
 */
function greatest(
  { lows, highs }: Intervals,
  worth: readonly number[],
  { isFragrance, exempt }: Exemption,
): number {
  const counted = lows.map((low, i) => (isFragrance[i] ? 0 : low));
  const fragrance = highs.map((high, i) => (isFragrance[i] ? high : 0));
  let surely = Math.max(0, sum(lows) - sum(counted) - exempt);
  let most = Math.max(0, sum(fragrance) - exempt);
  let left = 1 - exempt - sum(counted);
  const take = (i: number, more: number) => {
    counted[i] = at(counted, i) + more;
    left -= more;
    if (isFragrance[i]) most -= more;
  };
  for (const i of byWorth(worth, (each) => at(isFragrance, each) && at(lows, each) > 0)) {
    const more = Math.min(surely, at(lows, i));
    surely -= more;
    take(i, more);
  }
  for (const i of byWorth(worth, (each) => at(highs, each) > at(counted, each))) {
    const room = Math.min(left, at(highs, i) - at(counted, i), isFragrance[i] ? most : 1);
    take(i, Math.max(0, room));
  }
  return sum(counted.map((part, i) => part * at(worth, i)));
}
