/**
 * Flash point of alcohol and water by vapour pressure.
 *
 * A pure alcohol flashes where its vapour is just thick enough. Over a mixture its vapour is
 * thinner, by its mole fraction and its activity coefficient (van Laar), so the mixture must be
 * warmer to be as thick: the sum over the alcohols of x * gamma * P(t) / P(flash of the pure
 * alcohol) is 1. Water does not burn.
 */
import { type Alcohol, ETHANOL, PROPANOL, WATER_MOLAR_MASS } from "../data/alcohol-vapour.ts";
import { at } from "../lists.ts";

/**
 * Degrees Celsius at which the vapour over the mixture can flash; shares by weight, the rest water.
 */
export function vapourFlash(ethanol: number, propanol: number): number {
  const moles = [ethanol / ETHANOL.molarMass, propanol / PROPANOL.molarMass];
  const all = at(moles, 0) + at(moles, 1) + Math.max(0, 1 - ethanol - propanol) / WATER_MOLAR_MASS;
  const alcohols = [ETHANOL, PROPANOL].map((alcohol, i) => ({ alcohol, part: at(moles, i) / all }));
  const inAll = (at(moles, 0) + at(moles, 1)) / all;
  const thickness = (celsius: number) =>
    alcohols.reduce((total, { alcohol, part }) => {
      const needed = pressure(alcohol, alcohol.flash);
      return total + (part * activity(alcohol, inAll) * pressure(alcohol, celsius)) / needed;
    }, 0);
  let [cold, hot] = [0, 100];
  while (hot - cold > 1e-9) {
    const middle = (cold + hot) / 2;
    if (thickness(middle) < 1) cold = middle;
    else hot = middle;
  }
  return (cold + hot) / 2;
}

/** Vapour pressure, mm Hg (Antoine). */
function pressure({ antoine: [a, b, c] }: Alcohol, celsius: number): number {
  return 10 ** (a - b / (c + celsius));
}

/** Activity coefficient in water (van Laar), the alcohols together taken as one. */
function activity({ vanLaar: [ofAlcohol, ofWater] }: Alcohol, alcohols: number): number {
  const water = 1 - alcohols;
  if (water <= 0) return 1;
  const ratio = (ofWater * water) / (ofAlcohol * alcohols + ofWater * water);
  return Math.exp(ofAlcohol * ratio ** 2);
}
