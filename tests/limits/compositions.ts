/** Random compositions, known as ranges. */
import fc from "fast-check";

/** A number in six decimals; fc.double draws tiny numbers most of the time. */
export const uniform = (min: number, max: number) =>
  fc.integer({ min: min * 1e6, max: max * 1e6 }).map((millionths) => millionths / 1e6);

/** A composition known as ranges: something to widen on either side of real shares. */
export const composition = fc
  .array(
    fc.tuple(
      uniform(0.02, 1),
      uniform(0, 0.3),
      uniform(0, 0.3),
      uniform(0, 1),
      uniform(0, 1),
      uniform(0.7, 1.3),
      fc.boolean(),
    ),
    { minLength: 2, maxLength: 8 },
  )
  .map((lines) => {
    const whole = lines.reduce((sum, [part]) => sum + part, 0);
    // Six decimals, as a sheet would hold, and so that the solver reads just what we do.
    const six = (value: number) => Number(value.toFixed(6));
    const floor = (value: number) => six(Math.floor(value * 1e6) / 1e6);
    return {
      lows: lines.map(([part, below]) => floor(Math.max(0, part / whole - below))),
      highs: lines.map(([part, , above]) => six(Math.min(1, part / whole + above + 1e-6))),
      vocLows: lines.map(([, , , a, b]) => Math.min(a, b)),
      vocHighs: lines.map(([, , , a, b]) => Math.max(a, b)),
      densities: lines.map(([, , , , , density]) => density),
      counts: lines.map(([, , , , , , counts]) => counts),
    };
  });

export const columns = (...lists: number[][]) =>
  lists[0].map((_, i) => lists.map((list) => list[i]));
