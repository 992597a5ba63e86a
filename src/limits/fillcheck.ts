import type { Cells } from "../cells.ts";
import { choice, positive } from "../errors.ts";
import { convert, unitOf } from "../units.ts";
import { type Rule, allowedError, checkFills } from "./fills.ts";

/**
 * Average and short fills of a batch, from weighings, beside what two published systems ask.
 *
 * @remarks On average a bottle holds what is stated; a sample's average may be lower by chance, by
 * t x s / sqrt n (t of Student at 99.5 % for the EU, 97.5 % for the US), a batch weighed whole may
 * not. And few are short by more than the allowed error, in the EU none by more than twice that.
 * EU: error by the table of 76/211/EEC; a sample of 30 of 100 to 500 bottles, 50 up to 3200, then
 * 80, and as many short as its plans allow (of fewer than 20 none; between plans the stricter); a
 * batch under 100 is weighed whole, with 5 % short. US: look your maximum allowable variation up in
 * NIST Handbook 133, appendix A, and type it as allowed: its tables we could not read, so they are
 * not built in; t and how many may be short (none, one of 48 and more) are from memory. A help: the
 * inspector's procedure decides. Weigh net, to a fifth of the allowed error; volumes are at 20
 * degrees Celsius. Empty cells are passed over.
 * @customfunction FILLCHECK
 * @topic limits
 * @need Did I fill my bottles full enough?
 * @words underfilled, short, fill level, weights and measures, honest fill, legal
 * @param fills (amount) One row or column: net contents of the bottles that were weighed or
 * measured, two or more.
 * @param fillunit (unit) Their unit, a weight or a volume.
 * @param stated (amount) Contents that the label states, above zero.
 * @param statedunit (unit) Its unit, a weight or a volume.
 * @param rule (choice) "EU" (the United Kingdom too) or "US".
 * @param [density] (density) g/mL at 20 degrees; only between weight and volume, no default.
 * @param [allowed] (amount) Allowed error of one bottle, in statedunit: needed for the US (default
 * for the EU: its table).
 * @param [batch] (count) Bottles in the batch, at least as many as were weighed (default: 100 or
 * more, of which these are a sample).
 * @returns (label) Six cells, amounts in statedunit: average, least average that passes, least fill
 * that is not short, how many are short, how many by more than twice the allowed error, and what
 * these fills say.
 * @throws value - fewer than two fills, or more of them than the batch has
 * @throws value - density is needed between a weight and a volume
 * @throws value - allowed is needed for the US
 * @throws value - stated is below 5 or above 10000 g or mL for the EU
 * @working turned (statedunit per fillunit): one {fillunit} in the label's unit = inunit(fillunit,
 * statedunit, density)
 * @working error (statedunit): what one bottle may lack = allowederror(stated, statedunit, rule,
 * allowed)
 * @working check (average: statedunit; least average that passes: statedunit; least fill:
 * statedunit; bottles below it: count; far below: count; in words: label): these fills by the
 * {rule} rule, for a label of {stated} = fillscheck(fills, turned, stated, error, rule, batch)
 * @source Directive 76/211/EEC, annexes I and II, and SI 2006/659, schedule 2, seen in the text.
 * NIST Handbook 133: its requirements seen on NIST's page, its numbers from memory.
 * @example FILLCHECK({99.6; 101; 100.4; 94.9; 100.7}, "mL", 100, "mL", "EU", , , 5) // => {99.32,
 * 100, 95.5, 1, 0, "not kept: the average is too low"}
 * @example FILLCHECK({91; 90.5; 90.2; 90.8}, "g", 100, "mL", "US", 0.9, 5.5) // => {about 100.69,
 * about 99.38, 94.5, 0, 0, "kept by these"}
 */
export function fillCheck(
  fills: Cells,
  fillunit: string,
  stated: number,
  statedunit: string,
  rule: Rule,
  density?: number,
  allowed?: number,
  batch?: number,
): Cells {
  const label = positive("stated", stated);
  const [from, to] = [unitOf("fillunit", fillunit), unitOf("statedunit", statedunit)];
  const system = choice("rule", rule, ["EU", "US"] as const);
  const error = allowedError(label, to, system, allowed);
  return [checkFills(fills, convert(1, from, to, density), label, error, system, batch)];
}
