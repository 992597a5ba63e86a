import type { Cells } from "../cells.ts";
import { BlankError, CalcError, choice, share, showShare } from "../errors.ts";
import { at, sum } from "../lists.ts";
import { type NamedCell, isEmpty, usedLines } from "../filled.ts";

export type Use = "leave-on" | "rinse-off";

/** Above these a cosmetic product names it. */
const THRESHOLDS: Record<Use, number> = { "leave-on": 0.00001, "rinse-off": 0.0001 };

/**
 * Nearer to the threshold than this it is neither above nor below: a rounding error decides
 * nothing.
 */
const NEAR = 1e-9;

const NOT_ZERO = "what is not listed is not zero, ask the supplier";

/**
 * Share of an allergen in a cosmetic product, against the share from which it must be named.
 *
 * @remarks Sum over the oils of load x share in the oil. Thresholds are those of cosmetic products
 * in the European Union: named where it is above 0.001 % in what stays on the skin, above 0.01 % in
 * what is rinsed off. Room and linen sprays and candles follow other rules (CLP), and a threshold
 * does not say what is safe. Take the allergen sheet of this version of the oil; where the rule
 * groups substances under one entry, their sum. What a sheet does not list is not zero but not
 * known: ask, and type 0 % only where the supplier states that there is none. Other ingredients
 * that bring the allergen are lines of their own.
 * @customfunction ALLERGENAT
 * @topic limits
 * @need Must I name this allergen on my label?
 * @words label, allergens, ingredients to name, declare, contains, warning, skin
 * @param loads (share) One row or column: share of each oil in the finished product, together 100 %
 * at most.
 * @param contents (share) One row or column as long as loads: share of the allergen in each oil.
 * @param [use] (choice) "leave-on" (default) or "rinse-off": what the product does on the skin.
 * @returns (worded) Two cells: share of the allergen in the product, and "declare", "below" or "at
 * the threshold".
 * @throws value - a share in an oil is blank or a word: not listed is not zero
 * @throws value - loads sum to more than 100 %
 * @needs same(use, "leave-on") or same(use, "rinse-off")
 * @needs samelength(loads, contents)
 * @needs [or blank] isknown(loads, contents)
 * @needs [or blank] sum(counted(loads)) > 0
 * @needs sum(counted(loads)) <= 1 + 1e-9
 * @working each (share): what each oil brings of the allergen, its share times its content =
 * counted(loads) .* counted(contents)
 * @working amount (share): the allergen in the product, the sum of these, = sum(each)
 * @working [use is leave-on] threshold (share): the share above which it is named, on what stays on
 * the skin, = 0.00001
 * @working [use is rinse-off] threshold (share): the share above which it is named, on what is
 * rinsed off, = 0.0001
 * @working [amount > threshold * (1 + 1e-9)] word (label): {amount} is above {threshold} =
 * "declare"
 * @working [amount < threshold * (1 - 1e-9)] word (label): {amount} is below {threshold} = "below"
 * @working [abs(amount - threshold) <= threshold * 1e-9] word (label): {amount} is {threshold} =
 * "at the threshold"
 * @working answer (allergen in the product: share; which is: label): both = [amount, word]
 * @source Regulation (EC) 1223/2009, annex III, as amended by (EU) 2023/1545: thresholds seen as
 * quoted from its recitals.
 * @example ALLERGENAT({0.02}, {0.001}) // => {0.002%, "declare"}
 * @example ALLERGENAT({0.02; 0.01}, {0.001; 0.004}, "rinse-off") // => {0.006%, "below"}
 */
export function allergenAt(loads: Cells, contents: Cells, use: Use = "leave-on"): Cells {
  const limit = THRESHOLDS[choice("use", use, ["leave-on", "rinse-off"] as const)];
  const lines = usedLines({ loads, contents }, share);
  const load = sum(lines.map(({ amount }) => amount));
  const inOils = lines.map(({ amount, beside }) => amount * contentOf(at(beside, 0)));
  if (load === 0) throw new BlankError("the sum of loads");
  if (load > 1 + 1e-9) throw new CalcError(`loads must be 100 % at most, got ${showShare(load)}`);
  return [[sum(inOils), word(sum(inOils) / limit)]];
}

/** The share in an oil, which must have been told. */
function contentOf({ name, cell }: NamedCell): number {
  if (isEmpty(cell)) throw new BlankError(name, `blank: ${NOT_ZERO}`);
  if (typeof cell === "number") return share(name, cell);
  throw new CalcError(`${name} must be from 0 % to 100 %, got "${cell}": ${NOT_ZERO}`);
}

function word(part: number): string {
  if (Math.abs(part - 1) <= NEAR) return "at the threshold";
  return part > 1 ? "declare" : "below";
}
