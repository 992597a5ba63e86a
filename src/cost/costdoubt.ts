import type { Cells } from "../cells.ts";
import { BlankError, CalcError, amount, choice, positive, show } from "../errors.ts";
import { at, sum } from "../lists.ts";
import { numberIn, usedLines } from "../filled.ts";

export type Prices = "apart" | "together";

/**
 * Cost of a bottle or batch with its uncertainty, from the spread of the quotes.
 *
 * @remarks Each price may lie anywhere between its lowest and highest quote: middle (low + high) /
 * 2, standard uncertainty (high - low) / (2 sqrt 3). Prices that move on their own (apart) partly
 * make up for each other: uncertainties add as squares. Prices that rise and fall together, as from
 * one supplier, do not: theirs add up, which is wider; in doubt take together. Low and high are two
 * standard uncertainties away (k = 2) and take in 95 % or more; where one ingredient decides they
 * reach a little beyond its quotes. One quote, typed as low and high, counts as certain, which it
 * is not. A line with nothing typed is passed over; an amount of zero needs no price.
 * @customfunction COSTDOUBT
 * @topic cost
 * @need How sure is that cost, when quotes differ?
 * @words estimate, price range, how sure, quotes
 * @param amounts (amount) One row or column: how much of each ingredient or part goes into it, zero
 * or more.
 * @param lows (money) One row or column as long as amounts: lowest quote for one unit of each,
 * above zero.
 * @param highs (money) One row or column as long as amounts: highest quote for one unit of each.
 * @param [prices] (choice) "apart" (default) or "together": how the prices move.
 * @returns (money) Four cells: the cost, its standard uncertainty, and low and high (k = 2).
 * @throws value - a quote or an amount is blank beside filled cells: a blank is never free
 * @throws value - a high is below its low
 * @needs same(prices, "apart") or same(prices, "together")
 * @needs samelength(amounts, lows) and samelength(amounts, highs)
 * @needs [or blank] isquoted(amounts, lows, highs)
 * @needs [or blank] sum(counted(amounts)) > 0
 * @working middles (money): each amount at the middle of its two quotes = counted(amounts) .*
 * (counted(lows) + counted(highs)) / 2
 * @working cost (money): the sum of these = sum(middles)
 * @working widths (money): how far each amount's cost goes from low to high = counted(amounts) .*
 * (counted(highs) - counted(lows))
 * @working [prices is apart] squares (number): each of these times itself = widths .^ 2
 * @working [prices is apart] doubt (money): what the cost is likely to be off, as some go up while
 * others go down, = sqrt(sum(squares) / 12)
 * @working [prices is together] doubt (money): what the cost is likely to be off, as all go up or
 * down together, = sum(widths) / sqrt(12)
 * @working answer (cost: money; likely off by: money; low: money; high: money): the cost, and twice
 * what it is likely to be off either way = [cost, doubt, max(0, cost - 2 * doubt), cost + 2 *
 * doubt]
 * @source JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and 5.2.2, from memory; checked by Monte Carlo as in
 * JCGM 101.
 * @example COSTDOUBT({95; 5; 1}, {0.01; 0.07; 1}, {0.012; 0.09; 1.3}) // => {2.595, about 0.1065,
 * about 2.382, about 2.808}
 * @example COSTDOUBT({95; 5; 1}, {0.01; 0.07; 1}, {0.012; 0.09; 1.3}, "together") // => {2.595,
 * about 0.1703, about 2.254, about 2.936}
 */
export function costDoubt(
  amounts: Cells,
  lows: Cells,
  highs: Cells,
  prices: Prices = "apart",
): number[][] {
  const moves = choice("prices", prices, ["apart", "together"] as const);
  const lines = usedLines({ amounts, lows, highs }, amount).map(({ amount, beside }) => {
    const [first, second] = [at(beside, 0), at(beside, 1)];
    const low = positive(first.name, numberIn(first));
    const high = positive(second.name, numberIn(second));
    if (high < low) {
      const least = `${second.name} must be at least its low`;
      throw new CalcError(`${least}, ${show(low)}, got ${show(high)}`);
    }
    return { middle: (amount * (low + high)) / 2, spread: (amount * (high - low)) / Math.sqrt(12) };
  });
  if (lines.length === 0) throw new BlankError("the sum of amounts");
  const cost = sum(lines.map(({ middle }) => middle));
  const spreads = lines.map(({ spread }) => spread);
  const doubt = moves === "together" ? sum(spreads) : Math.sqrt(sum(spreads.map((u) => u * u)));
  return [[cost, doubt, Math.max(0, cost - 2 * doubt), cost + 2 * doubt]];
}
