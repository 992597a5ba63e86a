/** Candidates judged on several criteria, each with a weight. */
import { type Cells, isBlank } from "../cells";
import { BlankError, CalcError, amount, cellsOf, choice, list, number, sum } from "../errors";

export interface Judgement {
  /** A row for each candidate: its scores, more being better. */
  worth: number[][];
  weights: number[];
  /** Weighted score of each candidate. */
  totals: number[];
  /** Candidates with the highest score, from 0. */
  winners: number[];
}

/** Scores this near to each other are a tie. */
const NEAR = 1e-9;

/**
 * Weighted sums. Without directions the scores count as they stand, more being better. With them, each
 * criterion is first laid between 0 for the worst and 1 for the best candidate, so that prices and hours
 * may stand side by side.
 */
export function judge(scores: number[][], weights: number[][], directions?: Cells): Judgement {
  const given = scores.map((row, i) => row.map((value) => number(`scores, row ${i + 1},`, value)));
  const shares = list("weights", weights, amount);
  const criteria = given[0].length;
  if (shares.length !== criteria) {
    throw new CalcError(
      `weights must have as many cells as scores has columns, got ${shares.length} and ${criteria}`,
    );
  }
  const whole = sum(shares);
  if (whole === 0) throw new BlankError("the sum of weights");
  const worth = directions ? onOneScale(given, directions) : given;
  const totals = worth.map((row) => sum(row.map((each, i) => (each * shares[i]) / whole)));
  if (!totals.every(Number.isFinite)) {
    throw new CalcError("scores and weights are too large to be weighed: check their sizes");
  }
  const best = Math.max(...totals);
  const near = NEAR * Math.max(1, ...worth.flat().map(Math.abs));
  const winners = totals.flatMap((total, i) => (best - total <= near ? [i] : []));
  return { worth, weights: shares, totals, winners };
}

function onOneScale(scores: number[][], directions: Cells): number[][] {
  const words = cellsOf("directions", directions).map(({ name, cell }) =>
    isBlank(cell) ? "up" : choice(name, String(cell), ["up", "down"] as const),
  );
  const criteria = scores[0].length;
  if (words.length !== criteria) {
    throw new CalcError(
      `directions must have as many cells as scores has columns, got ${words.length} and ${criteria}`,
    );
  }
  const ends = words.map((_, j) => {
    const column = scores.map((row) => row[j]);
    return { low: Math.min(...column), high: Math.max(...column) };
  });
  return scores.map((row) =>
    row.map((value, j) => {
      const { low, high } = ends[j];
      if (high === low) return 1;
      return words[j] === "up" ? (value - low) / (high - low) : (high - value) / (high - low);
    }),
  );
}
