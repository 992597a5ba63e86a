/** Seeded noise, so that a count is the same on every machine, and the hours of the trial log. */
import { normal as about } from "../chance";

export const LOG_HOURS = [0, 1, 2, 4, 6, 8, 12, 24, 48];

/** Half-lives that a room or a cloth has. */
export const LIVES = [2, 4, 6, 10, 16];

/** Normal noise of standard deviation 1. */
export function normal(seed: number): () => number {
  const draw = about(seed);
  return () => draw(0, 1);
}

/** What a nose would write down: whole scores from 0 to 10. */
export function scored(
  hours: number[],
  start: number,
  life: number,
  scatter: number,
  noise: () => number,
): number[] {
  return hours.map((hour) => {
    const smelled = start * 2 ** (-hour / life) + scatter * noise();
    return Math.min(10, Math.max(0, Math.round(smelled)));
  });
}
