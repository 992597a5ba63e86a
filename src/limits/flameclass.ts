import type { Cells } from "../cells";
import { CalcError, number, show } from "../errors";

/**
 * GHS category of a flammable liquid from a measured flash point.
 *
 * @remarks 1: flash below 23 and boiling up to 35. 2: flash below 23 and boiling above 35. 3: flash from 23 to 60. 4: flash above 60 to 93. Cut-offs are inclusive as the rule has them. Put in a closed-cup flash point from a test or a safety data sheet, not a guess; transport, storage and fire codes have cut-offs of their own.
 * @customfunction FLAMECLASS
 * @topic limits
 * @need Which flammable category is a flash point?
 * @param flash (celsius) Closed-cup flash point, degrees Celsius.
 * @param [boiling] (celsius) Initial boiling point, degrees Celsius; needed below a flash point of 23, no default.
 * @returns (category) 1, 2, 3 or 4, or "none" above 93.
 * @throws value - flash is blank
 * @throws value - boiling is needed and not given
 * @needs [or blank] filled(flash)
 * @needs flash >= 23 or given(boiling)
 * @working [flash < 23 and boiling <= 35] category: flash below 23, boiling up to 35 = 1
 * @working [flash < 23 and boiling > 35] category: flash below 23, boiling above 35 = 2
 * @working [flash >= 23 and flash <= 60] category: flash from 23 to 60 = 3
 * @working [flash > 60 and flash <= 93] category: flash above 60 to 93 = 4
 * @working [flash > 93] category: flash above 93 = "none"
 * @source GHS and 29 CFR 1910.1200, appendix B.6, table B.6.1.
 * @example FLAMECLASS(17, 78) // => 2
 * @example FLAMECLASS(60) // => 3
 * @example FLAMECLASS(93.1) // => "none"
 */
export function flameClass(flash: number, boiling?: number): Cells {
  const point = number("flash", flash);
  if (point < 23) {
    if (boiling === undefined) {
      throw new CalcError(
        `boiling is needed below a flash point of 23, got a flash of ${show(point)}`,
      );
    }
    return [[number("boiling", boiling) <= 35 ? 1 : 2]];
  }
  if (point <= 60) return [[3]];
  return [[point <= 93 ? 4 : "none"]];
}
