import type { Cells } from "../cells.ts";
import { chiSquareTail } from "../distributions.ts";
import { CalcError } from "../errors.ts";
import { at, sum } from "../lists.ts";
import { exactChance } from "./friedman.ts";
import { type LeftOut, type Ranked, rankTotals, rankedRows } from "./ranks.ts";

/**
 * How far a panel agrees: Kendall's W, with Friedman's chi-square and the chance of it.
 *
 * @remarks Each row is one person, each column one sample; scores or ranks, either way round. They
 * are ranked within the row, ties at their mean rank, and chi-square is corrected for ties. W is 0
 * for no agreement and 1 for full. p is the chance of so much agreement or more where nobody
 * agrees. It is exact, all ways to rank being counted with the ties as they are, where those are at
 * most 10^15 and quick to count (two people up to ten samples, four six, eight five, twenty three);
 * else that of the chi-square distribution, which is approximate, and the fourth cell says which.
 * Rows with nothing in them are passed over.
 * @customfunction PANELAGREE
 * @topic trial
 * @need Do my testers agree with each other?
 * @words testers, friends, vote, same opinion, ranking, taste
 * @param ranks (number) A table: a row for each person, a column for each sample, two or more of
 * both.
 * @param [without] (choice) "nothing" (default), or where a score is blank "sample" or "person":
 * what is left out.
 * @returns (number) Four cells: W, chi-square, p as a share, and "exact" or "approximate:
 * chi-square".
 * @throws value - a score is blank beside others, and nothing is left out
 * @throws value - fewer than two people or samples
 * @throws value - everyone scored all samples alike
 * @working people ("people"): how many rows count = rows(ranks, without)
 * @working kinds ("samples"): how many columns count = samples(ranks, without)
 * @working totals (number): the ranks of each sample, added up = ranktotals(ranks, without)
 * @working middle (number): what each sum would be if nobody agreed = people * (kinds + 1) / 2
 * @working apart (number): how far each sum is from that, times itself = (totals - middle) .^ 2
 * @working ties (number): what equal ranks take off = rankties(ranks, without)
 * @working chi (number): the agreement as a chi-square (Friedman's) = 12 * sum(apart) / (people *
 * kinds * (kinds + 1) - ties / (kinds - 1))
 * @working how (label): how the chance is found = agreeway(ranks, without)
 * @working chance (share): the chance of so much agreement where nobody agrees = agreechance(ranks,
 * without)
 * @working whole (number): the agreement from 0 to 1 (Kendall's W) = chi / (people * (kinds - 1))
 * @working agree (W: number; chi-square: number; chance: share; how: label): all four = [whole,
 * chi, chance, how]
 * @source Friedman test with tie correction, Hollander and Wolfe (1973); W = chi-square / (people x
 * (samples - 1)). Exact p: permutations within each row, by hand.
 * @example PANELAGREE({1, 2, 3; 1, 2, 3; 1, 3, 2; 1, 2, 3}) // => {0.8125, 6.5, about 4.167%,
 * "exact"}
 * @example PANELAGREE({1, 2, 3, 4, 5; 1, 2, 3, 4, 5}) // => {1, 8, about 0.8333%, "exact"}
 */
export function panelAgree(ranks: number[][], without: LeftOut = "nothing"): Cells {
  const { w, chi, p, way } = agreement(rankedRows(ranks, without));
  return [[w, chi, p, way]];
}

/** Kendall's W, Friedman's chi-square, p, and how it was found. */
export function agreement(ranked: readonly Ranked[]) {
  const [people, samples] = [ranked.length, at(ranked, 0).places.length];
  const middle = (people * (samples + 1)) / 2;
  const apart = 12 * sum(rankTotals(ranked).map((total) => (total - middle) ** 2));
  const ties = sum(ranked.map((row) => row.ties));
  const most = people * samples * (samples + 1) - ties / (samples - 1);
  if (most <= 1e-9) throw new CalcError("ranks must differ in some row, got all samples alike");
  const chi = apart / most;
  const exact = exactChance(ranked.map(({ places }) => places));
  const p = exact ?? chiSquareTail(chi, samples - 1);
  const way = exact === undefined ? "approximate: chi-square" : "exact";
  return { w: chi / (people * (samples - 1)), chi, p, way };
}
