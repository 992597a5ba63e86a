/** Limits check: the estimate of the flash point, and what a measured one is classed as. */
import { type Block, FLASH, NONE, TEST, cells, found, heading, section, sumIf } from "./places";
import { ALCOHOL, texts, typed, worked } from "./places";

const POINT = TEST;
const BOILING = POINT + 1;
const GHS = BOILING + 1;
const LABEL = GHS + 1;
const isBlank = (row: number) => `OR(C${row}="",D${row}="")`;
const ofAll = (what: string) => `SUMIF(${typed("B")},"${what}",${worked("F")})`;
/** The rule prints degrees Celsius to a tenth, and so is turned what was typed in Fahrenheit. */
const AS_PRINTED = `IF(D${POINT}="F",ROUND(E${POINT},1),E${POINT})`;
const IN_OTHER_UNIT = `IF(D${POINT}="F",C${BOILING}*1.8+32,(C${BOILING}-32)/1.8)`;
/** A zero that was typed; FLAMECLASS takes one for a blank, as some hosts hand that over as zero. */
const notZero = (value: string) => `IF(${value}=0,0.01,${value})`;
const UNIT_NEEDED = `"${NONE}: pick its unit"`;

const ESTIMATE: Block[] = [
  section(FLASH, "Flash point, closed cup"),
  heading(FLASH, "A", "Estimate", "In words", "Cautious estimate (C)", "Lowest (C)", "Highest (C)"),
  heading(FLASH, "F", "What it decides", null, null, null),
  texts(`A${FLASH}`, "label", "Most alcohol, least water"),
  texts(`B${FLASH}`, "result", `=IF(C${FLASH}="","","An estimate: decides no class")`),
  {
    at: `C${FLASH}`,
    look: "result",
    format: "0",
    formula:
      `=IF(${found.composition}<>"","",IF(${sumIf(ALCOHOL, "F")}=0,"",` +
      `MIST.FLASHGUESS(${ofAll("ethanol")},MIN(${ofAll("isopropanol")},1-${ofAll("ethanol")}))))`,
    spills: [1, 4],
  },
  texts(
    `A${FLASH + 1}`,
    "note",
    "Vapour pressure over alcohol and water. Against the one published table it is off by 1.4 degrees on average and 2.1 at most if that table is by volume, by 1.8",
    "and 5.8 if by weight; which it is, is disputed, so the cautious value is shown. Fragrance oil, glycols and other solvents are not in it and can move it either way.",
    "Its constants are from memory. It decides no class: a closed-cup test does. Type what the test, or a data sheet of this very mixture, says:",
  ),
];

const MEASURED: Block[] = [
  heading(
    TEST,
    "A",
    "Measured, closed cup",
    "In words",
    "Value (C or F)",
    "Unit (pick it)",
    "In degrees Celsius (C)",
    "In the first one's unit (C or F)",
  ),
  texts(
    `A${POINT}`,
    "label",
    "Flash point",
    "Initial boiling point",
    "GHS category",
    "US consumer label",
  ),
  {
    at: `C${POINT}`,
    look: "input",
    format: "0.0",
    limits: [-100, 500],
    rows: [[95], [82]],
  },
  { at: `D${POINT}`, look: "input", words: ["C", "F"], rows: [["F"], ["C"]] },
  {
    ...texts(
      `B${POINT}`,
      "result",
      `=IF(C${POINT}="","",IF(D${POINT}="",${UNIT_NEEDED},"measured"))`,
      `=IF(C${BOILING}="","",IF(D${BOILING}="",${UNIT_NEEDED},"measured"))`,
      `=IF(${isBlank(POINT)},"",IF(C${GHS}="","${NONE}: boiling point needed",IF(C${GHS}="none","none, above 93 C","category "&C${GHS})))`,
      `=IF(${isBlank(POINT)},"",IF(${AS_PRINTED}<=-6.7,"extremely flammable",IF(${AS_PRINTED}<37.8,"flammable",IF(${AS_PRINTED}<=65.6,"combustible","none of the three"))))`,
    ),
    marks: [{ begins: NONE, mark: "lacking" }],
  },
  {
    at: `E${POINT}`,
    look: "result",
    format: "0.0",
    formula: `=IF(${isBlank(POINT)},"",IF(D${POINT}="F",(C${POINT}-32)/1.8,C${POINT}))`,
    down: 2,
  },
  {
    ...texts(
      `F${POINT}`,
      "result",
      `=IF(${isBlank(POINT)},"",${notZero(`C${POINT}`)})`,
      `=IF(OR(${isBlank(BOILING)},D${POINT}=""),"",${notZero(`IF(D${BOILING}=D${POINT},C${BOILING},${IN_OTHER_UNIT})`)})`,
    ),
    format: "0.0",
  },
  cells(`C${GHS}`, "answer", [
    `=IF(OR(${isBlank(POINT)},AND(F${BOILING}="",E${POINT}<23)),"",MIST.FLAMECLASS(F${POINT},F${BOILING},D${POINT}))`,
  ]),
  texts(
    `E${GHS}`,
    "note",
    `=IF(${isBlank(POINT)},"","By the measured value."&IF(C${FLASH}="",""," The estimate beside it: "&ROUND(D${FLASH},0)&" to "&ROUND(E${FLASH},0)&" C, which decides nothing."))`,
    `=IF(${isBlank(POINT)},"","16 CFR 1500.3(c)(6): extremely flammable to -6.7 C, flammable below 37.8 C, combustible to 65.6 C. A cosmetic is outside it.")`,
  ),
  texts(
    `A${LABEL + 1}`,
    "note",
    "Storage, fire codes and transport have cut-offs of their own. A category is a class of the liquid, never a leave to ship or to sell it.",
  ),
];

export const FLASH_POINTS: Block[] = [...ESTIMATE, ...MEASURED];
