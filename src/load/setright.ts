import { BlankError, CalcError, amount, positiveShare, share } from "../errors.ts";
import { type Basis, basisOf, finishedShare } from "./basis.ts";

/** A batch this near its load is right: smaller than any scale step, larger than rounding. */
const NEAR = 1e-12;

/**
 * Oil and base to add to bring a mis-poured batch onto its load.
 *
 * @remarks Nothing is ever taken out: too little oil is mended with oil, too much with base. With f
 * the load as a share of the finished batch and b the batch as poured, oil to add = (f x b - oil) /
 * (1 - f), or base to add = oil / f - b.
 * @customfunction SETRIGHT
 * @topic load
 * @need I poured too much (or too little) oil: what do I add?
 * @words mistake, too strong, too weak, weak spray, fix a batch, rescue, added too much, correct,
 * overpoured, poured too much, too much oil, too much fragrance, too little oil, spilled, went
 * wrong, wrong amount
 * @param oil (amount) Oil poured, zero or more, in any unit of weight.
 * @param base (amount) Base poured, zero or more, in the same unit.
 * @param load (share) Fragrance load wanted, 0 % to 100 %.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (amount) Two cells: oil to add and base to add, in the unit of oil. One of them is zero.
 * @throws value - oil and base are both blank or zero
 * @throws value - a load of zero cannot be reached once oil is in, nor 100 % once base is in
 * @needs oil >= 0 and base >= 0
 * @needs load >= 0 and load <= 1
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs [or blank] oil + base > 0
 * @needs load > 0 or oil <= 1e-12 * (oil + base)
 * @needs load < 1 or same(basis, "base") or oil + base - oil <= 1e-12 * (oil + base)
 * @working [basis is finished] part (share): the oil's part of the finished batch, the load itself,
 * = load
 * @working [basis is base] part (share): the oil's part of the finished batch, the load divided by
 * base and oil together, = load / (1 + load)
 * @working poured (oil): all that was poured = oil + base
 * @working short (oil): the {part} of {poured} that should be oil, less the {oil} that is, = part *
 * poured - oil
 * @working [abs(short) <= 1e-12 * poured] add (oil: oil; base: oil): nothing to add, the load is
 * right = [0, 0]
 * @working [short > 1e-12 * poured] add (oil: oil; base: oil): oil to add, as some is lacking =
 * [short / (1 - part), 0]
 * @working [short < -1e-12 * poured] add (oil: oil; base: oil): base to add, as there is too much
 * oil = [0, oil / part - poured]
 * @source By hand, from the definition of the load: what is poured stays in.
 * @example SETRIGHT(4, 57, 5%) // => {0, 19}
 * @example SETRIGHT(2, 57, 5%) // => {1, 0}
 * @example SETRIGHT(2, 60, 5%, "base") // => {1, 0}
 */
export function setRight(
  oil: number,
  base: number,
  load: number,
  basis: Basis = "finished",
): number[][] {
  const poured = amount("oil", oil) + amount("base", base);
  const wanted = finishedShare(share("load", load), basisOf("basis", basis));
  if (poured === 0) throw new BlankError("oil and base together");
  const short = wanted * poured - oil;
  if (Math.abs(short) <= NEAR * poured) return [[0, 0]];
  if (short < 0) return [[0, oil / positiveShare("load", wanted) - poured]];
  if (wanted === 1) {
    throw new CalcError("load must be below 100 % once base is poured, got 100 %");
  }
  return [[short / (1 - wanted), 0]];
}
