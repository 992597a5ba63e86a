import { CalcError, positive, show } from "../errors.ts";
import { type Basis, basisOf, loadFromFinished, together } from "./basis.ts";

/**
 * Lowest and highest load that two scale readings can mean.
 *
 * @remarks A reading stands for anything within half a step of it. Lowest: oil half a step less and
 * base half a step more; highest: the other way round. Only the scale's rounding is counted.
 * @customfunction LOADSPAN
 * @topic load
 * @need How sure can I be of a load weighed on a coarse scale?
 * @words how accurate, kitchen scale, rounding, scale not accurate
 * @param oil (amount) Oil as the scale showed it, zero or more, in any unit of weight.
 * @param base (amount) Base as the scale showed it, more than half a step, in the same unit.
 * @param readability (amount) Smallest step that the scale shows, above zero, in the same unit.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (share) Two cells: lowest and highest load.
 * @throws value - readability is blank or zero
 * @throws value - base is not more than half a step of the scale
 * @needs [or blank] oil + base > 0
 * @needs oil >= 0 and base >= 0
 * @needs [or blank] readability > 0
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs base > readability / 2
 * @working half (readability): half a step of the scale = readability / 2
 * @working least (oil): the least oil that it can be = max(oil - half, 0)
 * @working low (share): the lowest load, the least oil with the most base, as a part of the
 * finished batch, = least / (least + base + half)
 * @working high (share): the highest load, the most oil with the least base, as a part of the
 * finished batch, = (oil + half) / (oil + base)
 * @working [basis is finished] span (lowest: share; highest: share): the lowest and the highest
 * load = [low, high]
 * @working [basis is base] span (lowest: share; highest: share): the lowest and the highest load,
 * as parts of the base = [low / (1 - low), high / (1 - high)]
 * @source By hand, from the rounding of a digital display to its nearest step.
 * @example LOADSPAN(3, 57, 0.1) // => {about 4.9167%, about 5.0833%}
 * @example LOADSPAN(0.1, 1.9, 0.1) // => {2.5%, 7.5%}
 */
export function loadSpan(
  oil: number,
  base: number,
  readability: number,
  basis: Basis = "finished",
): number[][] {
  const poured = together(oil, base);
  const half = positive("readability", readability) / 2;
  const asked = basisOf("basis", basis);
  if (base <= half) {
    throw new CalcError(`base must be more than half of readability, got ${show(base)}`);
  }
  const low = Math.max(oil - half, 0) / (Math.max(oil - half, 0) + base + half);
  const high = (oil + half) / poured;
  return [[loadFromFinished(low, asked), loadFromFinished(high, asked)]];
}
