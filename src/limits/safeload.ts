import { type Cells, limitOf } from "../cells.ts";
import { share } from "../errors.ts";
import { at, cellsOf, list, orZero, sameLength, sum } from "../lists.ts";
import { checkWhole } from "../load/whole.ts";

/**
 * Highest total load of several oils, each with its certificate's limit.
 *
 * @remarks 1 / sum of share / limit, shares being each oil's part of the fragrance. Why it is
 * enough: a limit keeps every restricted substance of its oil within that substance's own bound, so
 * an oil at a part of its limit uses at most that part of each bound; parts that sum to 1 use no
 * bound up twice. "Not limited" is a limit of 100 %, not of nothing: such an oil may hold a
 * restricted substance up to its bound, so its part counts in full. It can be stricter than needed,
 * where the oils are limited by different substances. Many limits are below 1 %: type 0.98 % with
 * its sign, as .98 is 98 % and 1 is 100 %; Working says back in words what was typed above 50 %.
 * The certificate and its category decide, and this is arithmetic on them.
 * @customfunction SAFELOAD
 * @topic limits
 * @need How much of a blend of oils do their certificates allow?
 * @words safe, skin, maximum, most I can use, IFRA, certificate, several oils, body
 * @param shares (share) One row or column: each oil's part of the fragrance, together 100 %.
 * @param limits (limit) One row or column as long as shares: each oil's limit in the finished
 * product for the category, as on its certificate.
 * @returns (share) Highest total fragrance load that the rule allows; 0 % where an oil is not
 * approved.
 * @throws value - a limit is blank: a certificate that was not read allows nothing
 * @throws value - shares do not sum to 100 %: the text gives their sum
 * @needs shares >= 0 and shares <= 1
 * @needs samelength(shares, limits)
 * @needs abs(sum(shares) - 1) <= 0.001 * (1 + 1e-9)
 * @needs shares == 0 or islimit(limits)
 * @working read (label): limits that were typed as numbers above 50 % = largelimits(limits)
 * @working used ("times"): each oil's share divided by its limit (not limited counts as 100 %) =
 * usedup(shares, limits)
 * @working [not banned(shares, limits)] total ("times"): the sum of these = sum(used)
 * @working [banned(shares, limits)] load (share): no load, as an oil of the blend is not approved:
 * the most = 0
 * @working [not banned(shares, limits)] load (share): the most of this fragrance in the product,
 * 100 % divided by that sum, = 1 / max(1, total)
 * @source Sum of quotients; the same form as the United Kingdom's SI 1994/3247, Schedule 3,
 * paragraph 14. Derived by hand as in the remarks.
 * @example SAFELOAD({0.5; 0.5}, {0.1; 0.04}) // => about 5.714286%
 * @example SAFELOAD({0.5; 0.5}, {0.1; "not limited"}) // => about 18.1818%
 */
export function safeLoad(shares: number[][], limits: Cells): number {
  return Math.min(1, 1 / sum(usedUp(shares, limits)));
}

/** How much of each limit the oil of its line would use up, if all were fragrance. */
export function usedUp(shares: number[][], limits: Cells): number[] {
  const parts = list("shares", shares, orZero(share));
  const cells = cellsOf("limits", limits);
  sameLength("shares", parts, "limits", cells);
  const whole = checkWhole(parts);
  // An oil that is not in the blend needs no certificate.
  return cells.map((each, i) =>
    parts[i] === 0 ? 0 : at(parts, i) / whole / limitOf(each.name, each.cell),
  );
}
