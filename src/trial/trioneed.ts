import { CalcError, positiveShare, showShare } from "../errors";
import { chanceOfAtLeast, wholeTests } from "./trio";

/**
 * How often the odd one must be found before guessing is ruled out.
 *
 * @remarks The least number of correct answers whose chance by guessing is alpha or less. Decide alpha and the number of tests beforehand, and count every test.
 * @customfunction TRIONEED
 * @topic trial
 * @need How many must find the odd one before I believe it?
 * @param tests (count) Tests made, 1 to 1000.
 * @param [alpha] (share) Chance of being fooled that you accept, above 0 % and below 100 % (default 5 %).
 * @returns (count) Correct answers needed.
 * @throws value - so few tests that even all correct could be guessed
 * @working need: the least number whose chance is alpha or less, found by counting = oddneed(tests, alpha)
 * @working correct: correct answers needed = need
 * @source Binomial distribution with chance 1/3; equal to the table of ISO 4120 and FAO v7180e, appendix A.
 * @example TRIONEED(16) // => 9
 * @example TRIONEED(12, 1%) // => 9
 */
export function trioNeed(tests: number, alpha = 0.05): number {
  const made = wholeTests("tests", tests);
  const accepted = positiveShare("alpha", alpha);
  for (let correct = Math.ceil(made / 3); correct <= made && made > 0; correct++) {
    if (chanceOfAtLeast(correct, made) <= accepted) return correct;
  }
  throw new CalcError(`tests must be more for an alpha of ${showShare(accepted)}, got ${made}`);
}
