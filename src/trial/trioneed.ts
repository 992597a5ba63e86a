import { CalcError, share, showShare } from "../errors.ts";
import { chanceOfAtLeast, wholeTests } from "./trio.ts";

/**
 * How often the odd one must be found before guessing is ruled out.
 *
 * @remarks The least number of correct answers whose chance by guessing is alpha or less. Decide
 * alpha and the number of tests beforehand, and count every test.
 * @customfunction TRIONEED
 * @topic trial
 * @need How many must find the odd one before I believe it?
 * @words blind test, smell the difference, sniff test, how many people, how many testers, triangle
 * test, tell apart
 * @param tests (count) Tests made, 1 to 1000.
 * @param [alpha] (share) Chance of being fooled that you accept, above 0 % and below 100 % (default
 * 5 %).
 * @returns (count) Correct answers needed.
 * @throws value - alpha is 0 % or 100 %
 * @throws value - so few tests that even all correct could be guessed
 * @working need ("right answers"): how many of {tests} guessing reaches with a chance of {alpha} or
 * less = oddneed(tests, alpha)
 * @source Binomial distribution with chance 1/3; equal to the table of ISO 4120 and FAO v7180e,
 * appendix A.
 * @example TRIONEED(16) // => 9
 * @example TRIONEED(12, 1%) // => 9
 */
export function trioNeed(tests: number, alpha = 0.05): number {
  const made = wholeTests("tests", tests);
  const accepted = share("alpha", alpha);
  if (accepted === 0 || accepted === 1) {
    throw new CalcError(`alpha must be above 0 % and below 100 %, got ${showShare(accepted)}`);
  }
  if (made === 0 || chanceOfAtLeast(made, made) > accepted) {
    throw new CalcError(`tests must be more for an alpha of ${showShare(accepted)}, got ${made}`);
  }
  // Fewer right answers are likelier by guessing, so halving the doubt finds the least number.
  let [few, enough] = [0, made];
  while (enough - few > 1) {
    const middle = Math.floor((few + enough) / 2);
    if (chanceOfAtLeast(middle, made) <= accepted) enough = middle;
    else few = middle;
  }
  return enough;
}
