import { share } from "../errors.ts";
import { type Basis, basisOf, finishedShare, loadFromFinished } from "./basis.ts";

/**
 * The same fragrance load told in the other convention.
 *
 * @remarks From finished to base: load / (1 - load). From base to finished: load / (1 + load).
 * @customfunction REBASIS
 * @topic load
 * @need My supplier gives the load of the base: what is it of the finished batch?
 * @words percent of base or of the whole, convert percentage, supplier percent
 * @param load (share) Fragrance load, 0 % to 100 %.
 * @param from (choice) "finished" or "base": what the given load is a percentage of.
 * @param to (choice) "finished" or "base": what the answer is a percentage of.
 * @returns (share) Fragrance load in the convention asked for.
 * @throws value - a load of 100 % of the finished batch has no base to be told as a share of
 * @needs [or blank] filled(from)
 * @needs same(from, "finished") or same(from, "base")
 * @needs [or blank] filled(to)
 * @needs same(to, "finished") or same(to, "base")
 * @needs load >= 0 and load <= 1
 * @needs same(to, "finished") or same(from, "base") or load < 1
 * @working [from is finished] part (share): the oil's part of the finished batch, the load itself,
 * = load
 * @working [from is base] part (share): the oil's part of the finished batch, the load divided by
 * base and oil together, = load / (1 + load)
 * @working [to is finished] answer (share): the same load, told as a part of the finished batch, =
 * part
 * @working [to is base] answer (share): the same load, told as a part of the base, = part / (1 -
 * part)
 * @source By hand, from the two definitions of the load.
 * @example REBASIS(5%, "base", "finished") // => about 4.7619%
 * @example REBASIS(20%, "finished", "base") // => 25%
 */
export function rebasis(load: number, from: Basis, to: Basis): number {
  const given = basisOf("from", from);
  const asked = basisOf("to", to);
  if (share("load", load) && given === asked) return load;
  return loadFromFinished(finishedShare(load, given), asked);
}
