/**
 * Where mixtures of ethanol and water begin to freeze, share by volume and degrees Celsius.
 *
 * Engineering ToolBox, "Ethanol Freeze Protected Water Solutions", freezing point against percent
 * by volume; read in a stored copy, printed to whole degrees, so good to about one degree. The OIML
 * formula does not say where a mixture has frozen, and above 40 % nothing freezes down to its limit
 * of -20 C.
 */
export const ETHANOL_FREEZING: readonly (readonly [share: number, celsius: number])[] = [
  [0, 0],
  [0.1, -4],
  [0.2, -9],
  [0.3, -15],
  [0.4, -23],
];
