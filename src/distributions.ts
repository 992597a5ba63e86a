/**
 * Student's t and chi-square from the curves of their chances: a part of the area under a curve
 * beside the whole of it, so that no constants are needed.
 */
import { sum } from "./lists.ts";

/** A curve is at an end where it has fallen to e to the minus this of its height: 4e-18. */
const FALLEN = 40;

/**
 * Of Student's t: the number that it stays below with a chance above one half. Degrees of freedom
 * may be any number from 1 on, whole or not.
 *
 * With t = sqrt(degrees) sinh(s) the curve is cosh(s)^-degrees.
 */
export function studentReach(chance: number, degrees: number): number {
  const curve = (s: number) => Math.exp((-degrees / 2) * Math.log1p(Math.sinh(s) ** 2));
  const end = Math.asinh(Math.sqrt(Math.expm1((2 * FALLEN) / degrees)));
  const wanted = (2 * chance - 1) * area(curve, 0, end);
  // Newton's steps from zero come closer and never go past, as the curve only falls.
  let s = 0;
  let step = wanted;
  while (step > 1e-14 * s) {
    s += step;
    step = (wanted - area(curve, 0, s)) / curve(s);
  }
  return Math.sqrt(degrees) * Math.sinh(s);
}

/** The chance that chi-square is this large or larger. */
export function chiSquareTail(chi: number, degrees: number): number {
  // The root of chi-square has its peak at the root of degrees - 1, and is nowhere wider than 1.
  const peak = Math.sqrt(degrees - 1);
  const curve = (root: number) =>
    Math.exp((degrees - 1) * Math.log(root / (peak || 1)) - (root ** 2 - peak ** 2) / 2);
  const reach = Math.sqrt(2 * FALLEN);
  const start = Math.max(0, peak - reach);
  const from = Math.max(start, Math.sqrt(chi));
  const tail = area(curve, from, Math.max(from, peak) + reach);
  return tail / area(curve, start, peak + reach);
}

/** Places from either end of a length of 1, and what the curve counts at both. */
const PLACES = Array.from({ length: 104 }, (_, i) => {
  const t = i / 32;
  const away = 1 / (1 + Math.exp(Math.PI * Math.sinh(t)));
  const weight = (Math.PI / 32) * Math.cosh(t) * away * (1 - away);
  // The one in the middle is reached from both ends.
  return { away, weight: i === 0 ? weight / 2 : weight };
});

/** The area under a smooth curve, by the double exponential rule of Takahasi and Mori (1974). */
function area(curve: (at: number) => number, from: number, to: number): number {
  const length = to - from;
  const heights = PLACES.map(({ away, weight }) => {
    return weight * (curve(from + away * length) + curve(to - away * length));
  });
  return length * sum(heights);
}
