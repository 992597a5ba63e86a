/** Linear programmes put to the HiGHS solver (npm highs, MIT), for checking bounds. */
import highsLoader from "highs";

const highs = await highsLoader();

export interface Programme {
  /** Worth of each variable. */
  worth: number[];
  /** Rows: factors of the variables, and what their sum must be. */
  equal: { factors: number[]; to: number }[];
  /** Rows: factors of the variables, whose sum must be zero or more. */
  least?: number[][];
  lows: number[];
  highs: number[];
}

/** The greatest, or least, sum of the worths. */
export function solve(direction: "Maximize" | "Minimize", programme: Programme): number {
  const terms = (factors: number[]) =>
    factors.map((factor, i) => `${factor < 0 ? "-" : "+"} ${Math.abs(factor)} x${i}`).join(" ");
  const rows = [
    ...programme.equal.map(({ factors, to }, i) => ` e${i}: ${terms(factors)} = ${to}`),
    ...(programme.least ?? []).map((factors, i) => ` l${i}: ${terms(factors)} >= 0`),
  ];
  const bounds = programme.lows.map((low, i) => ` ${low} <= x${i} <= ${programme.highs[i]}`);
  const model = `${direction}\n worth: ${terms(programme.worth)}\nSubject To\n${rows.join("\n")}\nBounds\n${bounds.join("\n")}\nEnd`;
  const { Status, ObjectiveValue } = highs.solve(model, {
    primal_feasibility_tolerance: 1e-10,
    dual_feasibility_tolerance: 1e-10,
  });
  if (Status !== "Optimal") throw new Error(`HiGHS: ${Status}`);
  return ObjectiveValue;
}
