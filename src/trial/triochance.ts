import { CalcError } from "../errors.ts";
import { chanceOfAtLeast, wholeTests } from "./trio.ts";

/**
 * Chance to find the odd one out so often by guessing alone.
 *
 * @remarks Three coded samples, two alike; who tests must name one, and a guess is right one time
 * in three. Exact binomial. A small chance says that a difference is smelled, not that it is liked,
 * nor how large it is.
 * @customfunction TRIOCHANCE
 * @topic trial
 * @need Could they have guessed that?
 * @words blind test, smell the difference, sniff test, luck, triangle test, tell apart
 * @param correct (count) Tests in which the odd one was found.
 * @param tests (count) Tests made, 1 to 1000.
 * @returns (share) Chance of at least so many by guessing.
 * @throws value - correct is more than tests, or a number is not whole
 * @working chance (share): the chance to find the odd one {correct} times or more in {tests} tests
 * by guessing = oddchance(correct, tests)
 * @source Binomial distribution with chance 1/3, as in ISO 4120 and FAO v7180e, appendix A.
 * @example TRIOCHANCE(9, 16) // => about 4.996%
 */
export function trioChance(correct: number, tests: number): number {
  const made = wholeTests("tests", tests);
  const found = wholeTests("correct", correct);
  if (made === 0) throw new CalcError("tests must be from 1 to 1000, got 0");
  if (found > made) throw new CalcError(`correct must be at most ${made}, got ${found}`);
  return chanceOfAtLeast(found, made);
}
