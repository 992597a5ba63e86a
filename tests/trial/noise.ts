/** Seeded noise, so that a count is the same on every machine, and the hours of the trial log. */

export const LOG_HOURS = [0, 1, 2, 4, 6, 8, 12, 24, 48];

/** Half-lives that a room or a cloth has. */
export const LIVES = [2, 4, 6, 10, 16];

/** A stream of numbers from 0 to 1 (mulberry32, public domain). */
export function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal noise of standard deviation 1 (Box and Muller). */
export function normal(seed: number): () => number {
  const next = uniform(seed);
  return () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
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
