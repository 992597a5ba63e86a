/**
 * What a fragrance load is a percentage of.
 *
 * "finished": oil / (oil + base). "base": oil / base. 5 % of the base is 4.76 % of the finished
 * batch, so every load function asks which is meant and says which it takes when it is not told.
 */
import { BlankError, CalcError, amount, choice } from "../errors.ts";

export type Basis = "finished" | "base";

const WORDS: readonly Basis[] = ["finished", "base"];

/** The basis by its word, case and spaces ignored. */
export function basisOf(argument: string, value: string): Basis {
  return choice(argument, value, WORDS);
}

/** A load in either convention as the share of the finished batch. */
export function finishedShare(load: number, basis: Basis): number {
  return basis === "finished" ? load : load / (1 + load);
}

/** The share of the finished batch as a load in either convention. */
export function loadFromFinished(share: number, basis: Basis): number {
  if (basis === "finished") return share;
  if (share < 1) return share / (1 - share);
  throw new CalcError(
    "load must be below 100 % to be told as a share of the base, got 100 %: there is no base",
  );
}

/** Oil and base together, of which there must be something. */
export function together(oil: number, base: number): number {
  const poured = amount("oil", oil) + amount("base", base);
  if (poured === 0) throw new BlankError("oil and base together");
  return poured;
}
