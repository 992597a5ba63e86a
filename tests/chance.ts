/** Chance that is the same in every run: what intervals are simulated with. */

/** Numbers from 0 to 1 (mulberry32). */
export function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Numbers about a mean (Box and Muller). */
export function normal(seed: number): (mean: number, spread: number) => number {
  const draw = uniform(seed);
  return (mean, spread) => {
    const radius = Math.sqrt(-2 * Math.log(1 - draw()));
    return mean + spread * radius * Math.cos(2 * Math.PI * draw());
  };
}

/** Part of the trials in which something holds. */
export function partOf(trials: number, holds: () => boolean): number {
  let held = 0;
  for (let i = 0; i < trials; i++) if (holds()) held++;
  return held / trials;
}
