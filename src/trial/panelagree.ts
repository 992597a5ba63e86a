import jstat from "jstat";
import { CalcError, number, sum } from "../errors";

/**
 * How far a panel agrees: Kendall's W, with Friedman's chi-square and its p.
 *
 * @remarks Each row is one person, each column one sample; scores or ranks, either way round. They are ranked within the row, ties at their mean rank, and chi-square is corrected for ties. W is 0 for no agreement and 1 for full. The p is that of the chi-square distribution, an approximation that is rough for few people.
 * @customfunction PANELAGREE
 * @topic trial
 * @need Do my testers agree with each other?
 * @param ranks (number) A table: a row for each person, a column for each sample, two or more of both.
 * @returns (number) Three cells: W, chi-square, and p as a share.
 * @throws value - fewer than two people or samples
 * @throws value - everyone scored all samples alike
 * @working people: assessors = rows(ranks)
 * @working kinds: samples = samples(ranks)
 * @working totals: sums of the ranks of each sample = ranktotals(ranks)
 * @working middle: what each would be without agreement = people * (kinds + 1) / 2
 * @working chi: Friedman, corrected for ties = 12 * sum((totals - middle) .^ 2) / (people * kinds * (kinds + 1) - rankties(ranks) / (kinds - 1))
 * @working agree: W, chi-square and its p = [chi / (people * (kinds - 1)), chi, chisquarep(chi, kinds - 1)]
 * @source Friedman test with tie correction, Hollander and Wolfe (1973); W = chi-square / (people x (samples - 1)).
 * @example PANELAGREE({1, 2, 3; 1, 2, 3; 1, 3, 2; 1, 2, 3}) // => {0.8125, 6.5, about 3.877%}
 */
export function panelAgree(ranks: number[][]): number[][] {
  const [people, samples] = [ranks.length, ranks[0].length];
  if (people < 2 || samples < 2) {
    throw new CalcError(
      `ranks must be two people by two samples or more, got ${people} x ${samples}`,
    );
  }
  const ranked = ranks.map((row, i) =>
    midRanks(row.map((value) => number(`ranks, row ${i + 1},`, value))),
  );
  const totals = ranked[0].places.map((_, j) => sum(ranked.map(({ places }) => places[j])));
  const middle = (people * (samples + 1)) / 2;
  const apart = 12 * sum(totals.map((total) => (total - middle) ** 2));
  const ties = sum(ranked.map((row) => row.ties));
  const most = people * samples * (samples + 1) - ties / (samples - 1);
  if (most <= 1e-9) throw new CalcError("ranks must differ in some row, got all samples alike");
  const chi = apart / most;
  return [[chi / (people * (samples - 1)), chi, 1 - jstat.chisquare.cdf(chi, samples - 1)]];
}

/** Places within a row, ties at their mean, and the sum of t^3 - t over groups of ties. */
export function midRanks(row: readonly number[]): { places: number[]; ties: number } {
  const places = row.map((value) => {
    const below = row.filter((other) => other < value).length;
    return below + (row.filter((other) => other === value).length + 1) / 2;
  });
  // Each of a group of t brings t^2 - 1, so the group brings t^3 - t.
  const ties = sum(row.map((value) => row.filter((other) => other === value).length ** 2 - 1));
  return { places, ties };
}
