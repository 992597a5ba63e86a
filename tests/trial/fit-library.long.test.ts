/** The fit beside that of a general-purpose library, which starts from several guesses. */
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { expect, test } from "vitest";
import { fitFade } from "../../src/trial/fade";
import { marksOf } from "../../src/trial/marks";
import { LIVES, LOG_HOURS, normal, scored } from "./noise";

const curve =
  ([level, rate]: number[]) =>
  (hour: number) =>
    level * 2 ** (-rate * hour);

/** How the curve changes with its level and with its rate. */
const changes =
  ([level, rate]: number[]) =>
  (hour: number) => [2 ** (-rate * hour), -level * Math.LN2 * hour * 2 ** (-rate * hour)];

function library(hours: number[], scores: number[]) {
  const fits = [0.02, 0.1, 0.3, 1].map((rate) =>
    levenbergMarquardt({ x: hours, y: scores }, curve, {
      initialValues: [Math.max(...scores), rate],
      jacobianFunction: changes,
      // Else it may run off to where the curve is nothing.
      minValues: [0.1, 0.001],
      maxValues: [100, 3],
      errorTolerance: 0,
      improvementThreshold: 1e-12,
      maxIterations: 100,
    }),
  );
  return fits.reduce((a, b) => (b.parameterError < a.parameterError ? b : a));
}

test.each(LIVES)(
  "half-lives of %s h: no library fit leaves less, and the best is ours",
  (life) => {
    const noise = normal(life);
    let alike = 0;
    for (let round = 0; round < 100; round++) {
      const scores = scored(LOG_HOURS, 8, life, 0.7, noise);
      const { best } = fitFade(marksOf([LOG_HOURS], [scores]));
      const { parameterValues, parameterError } = library(LOG_HOURS, scores);
      expect(best.left).toBeLessThanOrEqual(parameterError * (1 + 1e-9));
      if (Math.abs(parameterError / best.left - 1) > 1e-9) continue;
      alike++;
      expect(best.rate / parameterValues[1]).toBeCloseTo(1, 4);
      expect(best.level / parameterValues[0]).toBeCloseTo(1, 4);
    }
    expect(alike).toBeGreaterThan(90);
  },
  60_000,
);
