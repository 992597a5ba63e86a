import { positive } from "../errors.ts";
import { type Basis, basisOf, together } from "./basis.ts";

/**
 * Fragrance load that was really poured.
 *
 * @remarks Of the finished batch: oil / (oil + base). Of the base: oil / base.
 * @customfunction LOADOF
 * @topic load
 * @need What load did I really pour?
 * @words percentage, concentration, actual load, fragrance percent, strength in the bottle, check
 * what I poured
 * @param oil (amount) Oil poured, zero or more, in any unit of weight.
 * @param base (amount) Base poured, zero or more, in the same unit.
 * @param [basis] (choice) "finished" (default) or "base": what the load is a percentage of.
 * @returns (share) Fragrance load.
 * @throws value - oil and base are both blank or zero
 * @needs [or blank] oil + base > 0
 * @needs oil >= 0 and base >= 0
 * @needs same(basis, "finished") or same(basis, "base")
 * @needs same(basis, "finished") or base > 0
 * @working [basis is finished] load (share): the load, {oil} of oil in all that was poured, = oil /
 * (oil + base)
 * @working [basis is base] load (share): the load, {oil} of oil to {base} of base, = oil / base
 * @source Definition of the load; common practice, no published source.
 * @example LOADOF(3, 57) // => 5%
 * @example LOADOF(3, 60, "base") // => 5%
 */
export function loadOf(oil: number, base: number, basis: Basis = "finished"): number {
  const poured = together(oil, base);
  if (basisOf("basis", basis) === "finished") return oil / poured;
  return oil / positive("base", base);
}
