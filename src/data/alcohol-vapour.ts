/**
 * Vapour of ethanol and isopropanol over water, for estimating a flash point.
 *
 * Antoine: log10(P / mm Hg) = a - b / (c + t), t in degrees Celsius. van Laar constants for the
 * alcohol (A12) and water (A21). Closed-cup flash points of the pure alcohols. All from memory, as
 * reference constants of the Liaw and Chiu form; the pressures at the boiling points come out at
 * 759 and 761 mm Hg.
 */
export interface Alcohol {
  molarMass: number;
  antoine: readonly [a: number, b: number, c: number];
  vanLaar: readonly [alcohol: number, water: number];
  flash: number;
}

export const ETHANOL: Alcohol = {
  molarMass: 46.069,
  antoine: [8.20417, 1642.89, 230.3],
  vanLaar: [1.6798, 0.9227],
  flash: 13,
};

export const PROPANOL: Alcohol = {
  molarMass: 60.096,
  antoine: [8.11778, 1580.92, 219.61],
  vanLaar: [2.4702, 1.0938],
  flash: 12,
};

export const WATER_MOLAR_MASS = 18.015;

/**
 * Closed-cup flash points of ethanol in water, percent and degrees Celsius: a handbook table, as
 * Engineering ToolBox reprints it ("% by weight") and as other lists do ("% by volume"). Its basis
 * is disputed, so nothing may rest on one reading of it.
 */
export const ETHANOL_FLASH_TABLE: readonly (readonly [share: number, celsius: number])[] = [
  [0.05, 62],
  [0.1, 49],
  [0.2, 36],
  [0.3, 29],
  [0.4, 26],
  [0.5, 24],
  [0.6, 22],
  [0.7, 21],
  [0.8, 20],
  [0.9, 17],
  [0.96, 17],
];
