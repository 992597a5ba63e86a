/** What a case of the benchmark is, and its clock. */

/** Milliseconds: of the processor, and by the clock. */
export interface Time {
  cpu: number;
  wall: number;
}

/** What was measured, by its name; two sides of a case have the same names. */
export type Times = Record<string, Time>;

export interface Case {
  /** What it is measured beside. */
  beside: string;
  /** The most that the ratio should be: of all that is measured, or of each by its name. */
  goal: number | Record<string, number>;
  ours: () => Promise<Times> | Times;
  /** A limit, in what `ours` is measured in, stands for the same number of every measure. */
  other: (() => Promise<Times> | Times) | number;
  /** How many processes of each side; the median counts. */
  runs?: number;
}

export function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
}

export function medianTime(times: readonly Time[]): Time {
  return { cpu: median(times.map(({ cpu }) => cpu)), wall: median(times.map(({ wall }) => wall)) };
}

/** The median time of a step, taken back in between where it says how. The first is not counted. */
export async function timed(
  times: number,
  step: (i: number) => unknown,
  back: () => unknown = () => undefined,
): Promise<Time> {
  const taken: Time[] = [];
  for (let i = 0; i <= times; i++) {
    const [start, began] = [process.cpuUsage(), performance.now()];
    await step(i);
    const { user, system } = process.cpuUsage(start);
    taken.push({ cpu: (user + system) / 1000, wall: performance.now() - began });
    await back();
  }
  return medianTime(taken.slice(1));
}

/** Something that is no time, such as kilobytes. */
export function plainly(value: number): Time {
  return { cpu: value, wall: value };
}
