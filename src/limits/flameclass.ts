import type { Cells } from "../cells.ts";
import { BlankError, CalcError, choice, isBlankNumber, number, show } from "../errors.ts";
import { at } from "../lists.ts";

type Scale = "C" | "F";

const SCALES = ["C", "F"] as const;

/** Cut-offs of the rule, which gives them in both scales. */
const CUT_OFFS = {
  C: { cold: 23, boils: 35, warm: 60, hot: 93 },
  F: { cold: 73.4, boils: 95, warm: 140, hot: 199.4 },
};

/**
 * GHS category of a flammable liquid from a measured flash point.
 *
 * @remarks 1: flash below 23 C (73.4 F) and boiling up to 35 C (95 F). 2: flash below 23 C and
 * boiling above 35 C. 3: flash from 23 C to 60 C (140 F). 4: flash above 60 C to 93 C (199.4 F).
 * Cut-offs are inclusive as the rule has them. 62 F is category 2, 62 C is category 4: without a
 * scale only those numbers are answered that are of one category in both. Some hosts hand a blank
 * cell over as 0, so an exact 0 is refused: type 0.001 for it. Put in a closed-cup flash point from
 * a test or a safety data sheet, not a guess; transport, storage and fire codes have cut-offs of
 * their own.
 * @customfunction FLAMECLASS
 * @topic limits
 * @need Which flammable category is a flash point?
 * @words flammable, fire, hazard, warning label, pictogram, post, mail, shipping, dangerous goods
 * @param flash (celsius) Closed-cup flash point.
 * @param [boiling] (celsius) Initial boiling point, in the same scale; needed below a flash point
 * of 23 C (73.4 F), no default.
 * @param [scale] (choice) "C" or "F": the scale of both; no default, as most numbers could be
 * either.
 * @returns (category) 1, 2, 3 or 4, or "none" above 93 C (199.4 F).
 * @throws value - flash is blank, or 0
 * @throws value - boiling is needed, and blank or 0
 * @throws value - scale is needed: the text gives the category in either
 * @needs [or blank] filled(flash)
 * @needs flash != 0
 * @needs not filled(scale) or same(scale, "C") or same(scale, "F")
 * @needs [boiling not given] flash >= 73.4 or (flash >= 23 and not same(scale, "F"))
 * @needs [boiling given] boiling != 0 or flash >= 73.4 or (flash >= 23 and not same(scale, "F"))
 * @needs [boiling not given] filled(scale) or flash > 199.4
 * @needs [boiling given] filled(scale) or flash > 199.4 or (flash < 23 and (boiling <= 35 or
 * boiling > 95))
 * @working [same(scale, "F")] cold ("°F"): the flash point below which it is category 1 or 2 = 73.4
 * @working [not same(scale, "F")] cold ("°C"): the flash point below which it is category 1 or 2 =
 * 23
 * @working [same(scale, "F")] boils ("°F"): the boiling point up to which it is category 1 = 95
 * @working [not same(scale, "F")] boils ("°C"): the boiling point up to which it is category 1 = 35
 * @working [same(scale, "F")] warm ("°F"): the flash point up to which it is category 3 = 140
 * @working [not same(scale, "F")] warm ("°C"): the flash point up to which it is category 3 = 60
 * @working [same(scale, "F")] hot ("°F"): the flash point up to which it is category 4 = 199.4
 * @working [not same(scale, "F")] hot ("°C"): the flash point up to which it is category 4 = 93
 * @working [flash < cold and boiling <= boils] category (category): {flash} is below {cold}, and
 * {boiling} is not above {boils}: the category = 1
 * @working [flash < cold and boiling > boils] category (category): {flash} is below {cold}, and
 * {boiling} is above {boils}: the category = 2
 * @working [flash >= cold and flash <= warm] category (category): {flash} is not below {cold}, and
 * not above {warm}: the category = 3
 * @working [flash > warm and flash <= hot] category (category): {flash} is above {warm}, and not
 * above {hot}: the category = 4
 * @working [flash > hot] category (category): {flash} is above {hot}: the category = "none"
 * @source GHS and 29 CFR 1910.1200, appendix B.6, table B.6.1.
 * @example FLAMECLASS(17, 78, "C") // => 2
 * @example FLAMECLASS(62, , "C") // => 4
 * @example FLAMECLASS(62, 173, "F") // => 2
 * @example FLAMECLASS(-20, 30) // => 1
 * @example FLAMECLASS(93.1, , "C") // => "none"
 */
export function flameClass(flash: number, boiling?: number, scale?: Scale): Cells {
  const point = number("flash", flash);
  if (point === 0) throw new BlankError("flash", "blank or zero: for zero degrees type 0.001");
  const boils = !boiling || isBlankNumber(boiling) ? undefined : number("boiling", boiling);
  const readings = (scale ? [choice("scale", scale, SCALES)] : SCALES).map((each) => ({
    each,
    category: categoryOf(point, boils, each),
  }));
  const [{ category }, other] = [at(readings, 0), readings[1]];
  if (other && other.category !== category) {
    const said = readings.map((each) => {
      const where = each.category === "none" ? "in none" : `category ${each.category}`;
      return `${show(point)} ${each.each} is ${where}`;
    });
    throw new CalcError(`scale is needed: ${said.reverse().join(", ")}`);
  }
  if (category !== UNDECIDED) return [[category]];
  throw new CalcError(
    "boiling is needed below a flash point of 23 C (73.4 F), and is blank or zero: " +
      "for zero degrees type 0.001",
  );
}

const UNDECIDED = "1 or 2";

function categoryOf(flash: number, boiling: number | undefined, scale: Scale): number | string {
  const { cold, boils, warm, hot } = CUT_OFFS[scale];
  if (flash >= cold) return flash <= warm ? 3 : flash <= hot ? 4 : "none";
  if (boiling === undefined) return UNDECIDED;
  return boiling <= boils ? 1 : 2;
}
