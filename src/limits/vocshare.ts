import { type Cells, flagsOf } from "../cells.ts";
import { CalcError, share, showShare } from "../errors.ts";
import { sameLength, usedIn } from "../lists.ts";
import { countedVoc } from "./exemption.ts";
import { compositionOf, intervalsOf, lowHigh } from "./intervals.ts";

/**
 * VOC of a product by weight.
 *
 * @remarks Sum of share x VOC part, less the VOC of the fragrance that the rule exempts: of a 2 %
 * exemption the first 2 points of fragrance, with what VOC they hold, and never a part of the
 * alcohol. Which of several oils come first, no rule says: those with least VOC are taken off,
 * which is the cautious answer; the low end of a range takes off those with most. All by weight;
 * alcohol by volume is another number. Which substances count, and which are of low vapour pressure
 * (LVP) and do not, the rule of your place says. Where a component is a range, give low and high in
 * two columns: the answer is the least and the most that any composition within the ranges can
 * have.
 * @customfunction VOCSHARE
 * @topic limits
 * @need How much VOC is in my spray, by weight?
 * @words emissions, air rules, California, volatile, legal
 * @param shares (share) One column, or two for low and high: each ingredient's share of the product
 * by weight, together 100 %.
 * @param vocshares (share) One column, or two for low and high: the part of each ingredient that
 * counts as VOC, by weight.
 * @param [fragrance] (yesno) One column with a line for each ingredient: yes for those that are
 * fragrance; no default where exempt is given.
 * @param [exempt] (share) Most fragrance that the rule exempts, as a share of the product, 0 % to
 * 100 % (default 0 %).
 * @returns (share) VOC by weight; two cells, low and high, where ranges were given.
 * @throws value - shares cannot sum to 100 %: the text gives their sums
 * @throws value - vocshares has not as many lines as shares
 * @throws value - the VOC part of an ingredient that is in the product is blank, or whether it is
 * fragrance
 * @throws value - exempt is given, and not which lines are fragrance
 * @throws value - fragrance is a share, as it was once: it is yes or no, line by line
 * @needs shares >= 0 and shares <= 1
 * @needs abs(sum(shares) - 1) <= 0.001 * (1 + 1e-9)
 * @needs samelength(shares, vocshares)
 * @needs shares == 0 or filled(vocshares)
 * @needs vocshares >= 0 and vocshares <= 1
 * @needs exempt >= 0 and exempt <= 1
 * @needs exempt == 0 or given(fragrance)
 * @needs [fragrance given] samelength(shares, fragrance)
 * @needs [fragrance given] shares == 0 or isyesno(fragrance)
 * @working [isrange(shares, vocshares)] waived (share): the most fragrance that is not counted =
 * exempt
 * @working [not isrange(shares, vocshares)] waived (share): the VOC of the fragrance that is not
 * counted = waivedvoc(shares, vocshares, fragrance, exempt)
 * @working [isrange(shares, vocshares)] voc (low: share; high: share): the least and the most that
 * a composition within the ranges can have, less what is not counted = countedvoc(shares,
 * vocshares, fragrance, waived)
 * @working [not isrange(shares, vocshares)] whole (share): share times VOC part of each ingredient,
 * added up, = vocof(shares, vocshares)
 * @working [not isrange(shares, vocshares)] voc (share): all of it less what is not counted = whole
 * - waived
 * @source By hand from 40 CFR 59.203(e), by which fragrances up to a combined 2 % are not included,
 * and 17 CCR 94508 to 94510; bounds are those of the linear programme.
 * @example VOCSHARE({0.18; 0.03; 0.79}, {1; 0.5; 0}, {"no"; "yes"; "no"}, 2%) // => 18.5%
 * @example VOCSHARE({0.2; 0.03; 0.05; 0.72}, {1; 1; 0; 0}, {"no"; "yes"; "no"; "no"}, 2%) // => 21%
 * @example VOCSHARE({0.6, 0.8; 0.2, 0.4}, {1; 0}) // => {60%, 80%}
 */
export function vocShare(
  shares: number[][],
  vocshares: number[][],
  fragrance?: Cells,
  exempt = 0,
): number[][] {
  const parts = compositionOf("shares", shares);
  const voc = intervalsOf("vocshares", vocshares, (_, i) => parts.highs[i] === 0);
  if (voc.lows.length !== parts.lows.length) {
    const counts = `${voc.lows.length} and ${parts.lows.length}`;
    throw new CalcError(`vocshares must have as many lines as shares, got ${counts}`);
  }
  const exemption = { exempt: share("exempt", exempt), isFragrance: parts.highs.map(() => false) };
  if (fragrance) exemption.isFragrance = fragranceLines(fragrance, parts.highs);
  else if (exempt > 0) throw new CalcError(`fragrance is needed with exempt: ${FLAGS}`);
  const [least, most] = countedVoc(parts, voc, exemption);
  return lowHigh(parts.isRange || voc.isRange, least, most);
}

const FLAGS = "a cell for each line of shares, yes for the lines that are fragrance";

/** Which lines are fragrance. How much of it there is, the shares say. */
function fragranceLines(fragrance: Cells, shares: number[]): boolean[] {
  const first = fragrance[0]?.[0];
  const isShare = typeof first === "number" && (shares.length > 1 || (first !== 0 && first !== 1));
  if (isShare && fragrance.flat().length === 1)
    throw new CalcError(`fragrance must be yes or no, ${FLAGS}, got ${showShare(first)}`);
  const lines = flagsOf("fragrance", fragrance, usedIn(shares));
  sameLength("shares", shares, "fragrance", lines);
  return lines;
}
