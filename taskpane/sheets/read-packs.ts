/**
 * A size and its unit, or a pack's text alone, such as "4 x 250 mL" with the unit left blank: hidden columns read
 * either, and all formulas of the list take the size and the unit from there. In a partner's copy the first two
 * are fixed values, as the text is read by a function of ours; the others stay live.
 */
import { PACK_UNITS, PIECE } from "./pack-units.ts";
import type { Column } from "./parts.ts";

/** What such a size holds, and in which unit; blank, or words, where that is not known. */
export const HELD = "{packheld}";
export const HELD_IN = "{packin}";

const hidden = (name: string, heading: string, formula: string): Column => {
  return { name, hidden: true, heading, formula };
};

/** The columns that read the size and the unit of a line; those of a second size have a name before theirs. */
export function packRead(size = "{size}", unit = "{unit}", of = ""): Column[] {
  const isText = `AND(ISTEXT(${size}),${size}<>"",${unit}="")`;
  const text = (to: string) => `MIST.PACKHOLDS(${size},"${to}")`;
  const isUnit = `OR(${unit}="${PIECE}",ISNUMBER(MIST.TURN(1,${unit},${unit})))`;
  const whose = of && ` (${of})`;
  return [
    hidden(
      `${of}packtext`,
      `Its text holds (g or mL)${whose}`,
      `=IF(${isText},IF(ISERROR(${text("g")}),IF(ISERROR(${text("mL")}),"",${text("mL")}),${text("g")}),"")`,
    ),
    hidden(
      `${of}packtextin`,
      `Unit of its text${whose}`,
      `=IF(ISNUMBER({${of}packtext}),IF(ISERROR(${text("g")}),"mL","g"),"")`,
    ),
    hidden(
      `${of}packheld`,
      `Size as it is read${whose}`,
      `=IF(${unit}="",{${of}packtext},IF(ISNUMBER(${size}),${size},""))`,
    ),
    hidden(
      `${of}packin`,
      `Unit as it is read${whose}`,
      `=IF(${unit}="",{${of}packtextin},IF(${isUnit},${unit},""))`,
    ),
  ];
}

/** What is said of a filled size that cannot be read, or of its unit; without its =. */
export function saidOfPack(of: string, size = "{size}", unit = "{unit}"): string {
  const alone = `IF(ISNUMBER(${size}),"${of} unit?",IF(ISNUMBER({packtext}),"","${of} size? type a number beside its unit, or 1 lb or 4 x 250 mL alone"))`;
  const beside = `IF(${HELD_IN}="","${of} unit? one of ${PACK_UNITS.join(" ")}",IF(ISNUMBER(${size}),"","${of} size? type a number beside a unit"))`;
  return `IF(${unit}="",${alone},${beside})`;
}
