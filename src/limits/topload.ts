import { type Cells, isBlank, limitOf } from "../cells.ts";
import { CalcError } from "../errors.ts";
import { at, cellsOf, sameLength } from "../lists.ts";

/**
 * The lowest of several limits on a load, and which one it is.
 *
 * @remarks Put in every limit that you know: skin category, supplier's maximum, what dissolved in
 * the trial, what VOC leaves room for. Lines with neither label nor limit are passed over; a label
 * without a limit is an error, because a limit that is not known is not "not limited". Many limits
 * are below 1 %: type 0.98 % with its sign, as .98 is 98 % and 1 is 100 %; Working says back in
 * words what was typed above 50 %.
 * @customfunction TOPLOAD
 * @topic limits
 * @need Which of my limits is the lowest?
 * @words safe, skin, maximum, most I can use, IFRA, certificate, limit, body
 * @param labels (label) One row or column: what each limit is.
 * @param limits (limit) One row or column as long as labels: the limits, as shares of the finished
 * product.
 * @returns (limit) Two cells: the lowest limit, and its label; of equals, both labels.
 * @throws value - a label has no limit
 * @throws value - there is no line at all
 * @needs samelength(labels, limits)
 * @needs isspare(labels, limits) or islimit(limits)
 * @working read (label): limits that were typed as numbers above 50 % = largelimits(limits)
 * @working each (limit): the limits as percents (not limited counts as 100 %) = limitsof(labels,
 * limits)
 * @working lowest (limit): the least of these = min(each)
 * @working answer (lowest: limit; which is: label): the least limit, and what it is = [lowest,
 * labelof(labels, limits)]
 * @source By hand: a product keeps all limits when it keeps the lowest.
 * @example TOPLOAD({"skin"; "supplier"}, {0.08; 0.05}) // => {5%, "supplier"}
 * @example TOPLOAD({"skin"; "seen to dissolve"}, {"not limited"; 0.12}) // => {12%, "seen to
 * dissolve"}
 */
export function topLoad(labels: Cells, limits: Cells): Cells {
  const lines = limitLines(labels, limits);
  if (lines.length === 0) throw new CalcError("labels and limits must hold a line");
  const lowest = lowestOf(lines);
  return [[lowest.limit, lowest.label]];
}

interface LimitLine {
  label: string;
  limit: number;
}

/** The lines that are filled. */
export function limitLines(labels: Cells, limits: Cells): LimitLine[] {
  const names = cellsOf("labels", labels);
  const cells = cellsOf("limits", limits);
  sameLength("labels", names, "limits", cells);
  return cells.flatMap(({ name, cell }, i) => {
    const label = String(at(names, i).cell);
    return isBlank(cell) && isBlank(label) ? [] : [{ label, limit: limitOf(name, cell) }];
  });
}

/** The least of the limits, and all the labels that have it. */
export function lowestOf(lines: readonly LimitLine[]): LimitLine {
  const lowest = lines.reduce((least, { limit }) => Math.min(least, limit), 1);
  const which = lines.filter(({ limit }) => limit === lowest).map(({ label }) => label);
  return { limit: lowest, label: lowest === 1 ? "not limited" : which.join(" and ") };
}
