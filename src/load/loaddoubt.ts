import { CalcError, positive, show, whole } from "../errors.ts";
import { type Basis, basisOf, together } from "./basis.ts";

/**
 * Fragrance load with its uncertainty from the steps of the scale.
 *
 * @remarks A reading stands for anything within half a step: standard uncertainty step / (2 sqrt
 * 3). The difference of two readings (full less empty, without the tare key) has twice the
 * variance. Load = oil / (oil + base), its uncertainty follows from both weights. Low and high are
 * two standard uncertainties away (k = 2) and take in 95 % or more. LOADSPAN gives the worst case
 * of single roundings; where one weight alone decides, as a little oil in much base, low and high
 * reach a little beyond it, since twice the standard uncertainty is more than half a step. Only
 * steps are counted, not a scale out of true, a draught or drips. For a base of less than 5 steps
 * it does not hold, and is refused.
 * @customfunction LOADDOUBT
 * @topic load
 * @need How far off can my load be, as a figure with an uncertainty?
 * @words how accurate, scale error, uncertainty, precise
 * @param oil (amount) Oil as the scale showed it, zero or more, in any unit of weight.
 * @param base (amount) Base as the scale showed it, 5 steps of the scale or more, in the same unit.
 * @param readability (amount) Smallest step that the scale shows, above zero, in the same unit.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @param [readings] (count) Readings behind each weight, a whole number (default 1): 2 where the
 * vessel was taken off by subtraction.
 * @returns (share) Four cells: the load, its standard uncertainty, and low and high (k = 2).
 * @throws value - readability is blank or zero
 * @throws value - base is less than 5 steps of the scale
 * @needs [or blank] oil + base > 0
 * @needs oil >= 0 and base >= 0
 * @needs [or blank] readability > 0
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs readings > 0 and readings == floor(readings)
 * @needs base >= 5 * readability * sqrt(readings) * (1 - 1e-9)
 * @working each (readability): what one weight is likely to be off, on a scale with steps of
 * {readability}, = readability * sqrt(readings / 12)
 * @working [basis is finished] load (share): the load, {oil} of oil in all that was poured, = oil /
 * (oil + base)
 * @working [basis is base] load (share): the load, {oil} of oil to {base} of base, = oil / base
 * @working [basis is finished] doubt (share): what the load is likely to be off = each * sqrt(oil ^
 * 2 + base ^ 2) / (oil + base) ^ 2
 * @working [basis is base] doubt (share): what the load is likely to be off = each * sqrt(oil ^ 2 +
 * base ^ 2) / base ^ 2
 * @working answer (load: share; likely off by: share; low: share; high: share): the load, and twice
 * what it is likely to be off either way = [load, doubt, max(0, load - 2 * doubt), load + 2 *
 * doubt]
 * @source JCGM 100:2008 (GUM), 4.3.7, 5.1.2 and F.2.2.1, from memory; checked by Monte Carlo as in
 * JCGM 101.
 * @example LOADDOUBT(3, 57, 0.1) // => {5%, about 0.0458%, about 4.908%, about 5.092%}
 * @example LOADDOUBT(3, 57, 0.1, "finished", 2) // => {5%, about 0.0647%, about 4.871%, about
 * 5.129%}
 */
export function loadDoubt(
  oil: number,
  base: number,
  readability: number,
  basis: Basis = "finished",
  readings = 1,
): number[][] {
  const poured = together(oil, base);
  const step = positive("readability", readability);
  const of = basisOf("basis", basis) === "finished" ? poured : base;
  const least = LEAST_STEPS * step * Math.sqrt(whole("readings", readings));
  if (base < least * (1 - 1e-9)) {
    throw new CalcError(
      `base must be ${show(least)} or more for a step of ${show(step)}, got ${show(base)}: ` +
        `weigh more, or take LOADSPAN`,
    );
  }
  const load = oil / of;
  const doubt = (step * Math.sqrt(readings / 12) * Math.hypot(oil, base)) / of ** 2;
  return [[load, doubt, Math.max(0, load - 2 * doubt), load + 2 * doubt]];
}

/** Below so many steps the load is too far from a straight line in the base (Monte Carlo). */
const LEAST_STEPS = 5;
