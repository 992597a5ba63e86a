import type { Cells } from "../cells.ts";
import { CalcError, amount, positive, rest, whole } from "../errors.ts";
import { type Sample, meanReach, sampleOf } from "../sample.ts";
import { convert, unitOf, weightUnit } from "../units.ts";

/**
 * Sprays in a bottle, and the weight of one spray, from strokes that were weighed.
 *
 * @remarks Weight of a spray = mean of the weighings / strokes, with Student's 95 % interval;
 * sprays = what comes out of the fill / that weight, low and high from the ends of the interval. It
 * holds for the mean of this pump: for all pumps weigh one group of strokes of each of several
 * bottles. Leave out the first strokes, which fill the pump, and the last, which draw air. A stroke
 * weighs a tenth of a gram or so: on a scale of 0.01 g weigh ten or more at once. With readability
 * a whole step is added on either side, as a weighing is the difference of two readings; weighings
 * that are all alike need it. Empty cells are passed over. For a label take the low, rounded down.
 * @customfunction SPRAYSIN
 * @topic measure
 * @need How many sprays are in this bottle?
 * @words how many sprays, pumps, squirts, atomiser, how long a bottle lasts
 * @param weighings (weight) One row or column: what single strokes weigh, or groups of as many
 * strokes each; two or more.
 * @param weightunit (unit) Unit of weight of the weighings.
 * @param fill (amount) What is in the bottle, above zero, a weight or a volume.
 * @param fillunit (unit) Unit of the fill, a weight or a volume.
 * @param [density] (density) g/mL; only for a fill by volume, no default.
 * @param [strokes] (count) Strokes in each weighing, a whole number (default 1).
 * @param [left] (share) Part of the fill that the dip tube leaves in the bottle, 0 % and below 100 %
 * (default 0 %).
 * @param [readability] (weight) Smallest step that the scale shows, in weightunit (default 0: not
 * counted).
 * @returns (number) Six cells: sprays, their low and high; weight of one spray in weightunit, its
 * low and high.
 * @throws value - fewer than two weighings, or all alike without the scale's step
 * @throws value - a weighing is more than the fill: the bottle's weight instead of the difference
 * @throws value - density is needed for a fill by volume
 * @throws value - a weighing is zero
 * @working turned (weightunit per fillunit): one {fillunit} in the unit of the weighings =
 * inunit(fillunit, weightunit, density)
 * @working content (weightunit): what can be sprayed, {fill} without the {left} that stays behind,
 * = fill * turned * (1 - left)
 * @working middle (weightunit): the average of the weighings = averageof(weighings)
 * @working each (weightunit): the weight of one spray, the average divided by the strokes of a
 * weighing, = middle / strokes
 * @working scatter (weightunit): how far the weighings scatter (their standard deviation) =
 * spreadof(weighings)
 * @working reach (number): how many times the scatter their average may be off, at a chance of 95
 * %, = reachof(0.975, weighings)
 * @working half (weightunit): what one spray may be off, with a step of the scale, = (reach *
 * scatter + readability) / strokes
 * @working [half < each] sprays (sprays: number; sprays at least: number; sprays at most: number;
 * one spray: weightunit; one at least: weightunit; one at most: weightunit): what can be sprayed,
 * divided by one spray, and by the most and the least that it may be = [content / each, content /
 * (each + half), content / (each - half), each, each - half, each + half]
 * @working [half >= each] sprays (sprays: number; sprays at least: number; sprays at most: number;
 * one spray: weightunit; one at least: weightunit; one at most: weightunit): what can be sprayed,
 * divided by one spray, and by the most that it may be; the least is not known = [content / each,
 * content / (each + half), "no upper end", each, 0, each + half]
 * @source Student's interval for a mean, t as printed in tables; the step of the scale by hand, as
 * the worst case.
 * @example SPRAYSIN({0.13; 0.14; 0.15}, "g", 100, "g") // => {about 714.3, about 606.6, about
 * 868.4, 0.14, about 0.1152, about 0.1648}
 * @example SPRAYSIN({1.3, 1.4, 1.5}, "g", 100, "mL", 0.9, 10, 2%) // => {630, about 535.1, about
 * 765.9, 0.14, about 0.1152, about 0.1648}
 */
export function spraysIn(
  weighings: Cells,
  weightunit: string,
  fill: number,
  fillunit: string,
  density?: number,
  strokes = 1,
  left = 0,
  readability = 0,
): Cells {
  const held = positive("fill", fill);
  const unit = weightUnit("weightunit", weightunit);
  const sample = sampleOf("weighings", weighings);
  const half = halfOf(sample, readability) / whole("strokes", strokes);
  const content = convert(held, unitOf("fillunit", fillunit), unit, density) * rest("left", left);
  const each = sample.mean / strokes;
  if (each > content) {
    throw new CalcError(
      "weighings must be what strokes weigh, not the bottle: each is above the fill",
    );
  }
  const most = half < each ? content / (each - half) : "no upper end";
  const low = Math.max(0, each - half);
  return [[content / each, content / (each + half), most, each, low, each + half]];
}

/** Half of the interval of a weighing's mean. */
function halfOf({ values, spread }: Sample, readability: number): number {
  if (values.length < 2) {
    throw new CalcError(`weighings must hold two or more, got ${values.length}`);
  }
  const step = amount("readability", readability);
  if (spread === 0 && step === 0) {
    throw new CalcError(
      "readability is needed: the weighings are all alike, so the scale is too coarse to tell them apart",
    );
  }
  return meanReach(0.975, values.length) * spread + step;
}
