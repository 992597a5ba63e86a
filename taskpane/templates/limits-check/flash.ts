/** Limits check: the estimate of the flash point, and what a measured one is classed as. */
import type { Part } from "../../sheets/parts.ts";
import { NONE, sumIf, wide } from "./words.ts";

const ofAll = (what: string) => `SUMIF({parts.what},"${what}",{work.narrowhigh})`;
/** What is not disclosed may be the alcohol that burns soonest. */
const ETHANOL = `MIN(1,${ofAll("ethanol")}+${ofAll("not disclosed")})`;

const isBlank = (line: string) =>
  `OR(NOT(ISNUMBER({measured.value:${line}})),{measured.unit:${line}}="")`;
const POINT = "{measured.value:point}";
const UNIT = "{measured.unit:point}";
const BOILING = "{measured.value:boiling}";
const ITS_UNIT = "{measured.unit:boiling}";
/** The rule prints degrees Celsius to a tenth, and so is turned what was typed in Fahrenheit. */
const AS_PRINTED = `IF(${UNIT}="F",ROUND({measured.celsius:point},1),{measured.celsius:point})`;
const IN_OTHER_UNIT = `IF(${UNIT}="F",${BOILING}*1.8+32,(${BOILING}-32)/1.8)`;
/** A zero that was typed; FLAMECLASS takes one for a blank, as some hosts hand that over as zero. */
const notZero = (value: string) => `IF(${value}=0,0.01,${value})`;
const UNIT_NEEDED = `"${NONE}: pick its unit"`;
const MARKS = [{ begins: NONE, mark: "lacking" as const }];

export const FLASH_POINTS: Part[] = [
  { gap: 1, text: "section", rows: ["Flash point, closed cup"] },
  {
    list: "flash",
    lines: ["estimate", "sheets"],
    columns: [
      {
        heading: "Estimate",
        look: "label",
        demo: ["Most alcohol, least water", "Lowest by the data sheets above"],
      },
      {
        heading: "In words",
        look: "result",
        demo: [
          '=IF({flash.cautious:estimate}="","","An estimate: decides no class")',
          '=IF({flash.cautious:sheets}="","","Of "&INDEX({parts.sheet},MATCH({flash.cautious:sheets},{parts.flash},0))&": decides no class")',
        ],
      },
      {
        name: "cautious",
        heading: "Cautious estimate (C)",
        look: "result",
        format: "0",
        demo: [
          `=IF({missingall}<>"","",IF(${sumIf("maybealcohol", "narrowhigh")}=0,"",` +
            `MIST.FLASHGUESS(${ETHANOL},MIN(${ofAll("isopropanol")},1-${ETHANOL}))))`,
          '=IF(COUNT({parts.flash})=0,"",MIN({parts.flash}))',
        ],
      },
      // The answer beside fills these.
      { name: "lowest", heading: "Lowest (C)", look: "result", format: "0", demo: [] },
      { name: "highest", heading: "Highest (C)", look: "result", format: "0", demo: [] },
      { heading: wide("What it decides", 4), look: "note", demo: [] },
    ],
  },
  {
    text: "note",
    rows: [
      "Vapour pressure over alcohol and water; its constants are from memory. Against the one published table",
      "it is off by 1.4 degrees on average and 2.1 at most if that table is by volume, by 1.8 and 5.8 if by weight.",
      "Which it is, is disputed, so the cautious value is shown.",
      "Fragrance oil, glycols and other solvents are not in it and can move it either way.",
      "What is not disclosed is taken for alcohol in it. It decides no class: a closed-cup test does.",
      "Type what the test, or a data sheet of this very mixture, says:",
    ],
  },
  {
    list: "measured",
    lines: ["point", "boiling"],
    columns: [
      {
        heading: "Measured, closed cup",
        look: "label",
        demo: ["Flash point", "Initial boiling point"],
      },
      {
        name: "words",
        heading: "In words",
        marks: MARKS,
        formula: `=IF({value}="","",IF({unit}="",${UNIT_NEEDED},"measured"))`,
      },
      {
        name: "value",
        heading: "Value (C or F)",
        format: "0.0",
        limits: [-100, 500],
        demo: [95, 82],
      },
      { name: "unit", heading: "Unit (pick it)", words: ["C", "F"], demo: ["F", "C"] },
      {
        name: "celsius",
        heading: "In degrees Celsius (C)",
        format: "0.0",
        formula: '=IF(OR({value}="",{unit}=""),"",IF({unit}="F",({value}-32)/1.8,{value}))',
      },
      {
        name: "alike",
        heading: "In the first one's unit (C or F)",
        look: "result",
        format: "0.0",
        demo: [
          `=IF(${isBlank("point")},"",${notZero(POINT)})`,
          `=IF(OR(${isBlank("boiling")},${UNIT}=""),"",${notZero(`IF(${ITS_UNIT}=${UNIT},${BOILING},${IN_OTHER_UNIT})`)})`,
        ],
      },
    ],
  },
  {
    list: "classed",
    headed: false,
    lines: ["ghs", "consumer"],
    columns: [
      { look: "label", demo: ["GHS category", "US consumer label"] },
      {
        name: "words",
        look: "result",
        marks: MARKS,
        demo: [
          `=IF(${isBlank("point")},"",IF({classed.category:ghs}="","${NONE}: boiling point needed",IF({classed.category:ghs}="none","none, above 93 C","category "&{classed.category:ghs})))`,
          `=IF(${isBlank("point")},"",IF(${AS_PRINTED}<=-6.7,"extremely flammable",IF(${AS_PRINTED}<37.8,"flammable",IF(${AS_PRINTED}<=65.6,"combustible","none of the three"))))`,
        ],
      },
      {
        name: "category",
        look: "answer",
        demo: [
          `=IF(OR(${isBlank("point")},AND({measured.alike:boiling}="",{measured.celsius:point}<23)),"",MIST.FLAMECLASS({measured.alike:point},{measured.alike:boiling},${UNIT}))`,
        ],
      },
      { heading: null },
      {
        name: "why",
        look: "note",
        demo: [
          `=IF(${isBlank("point")},"","By the measured value"&IF({flash.cautious:estimate}="","",", not the estimate: "&ROUND({flash.lowest:estimate},0)&" to "&ROUND({flash.highest:estimate},0)&" C")&".")`,
          `=IF(${isBlank("point")},"","16 CFR 1500.3(c)(6); not of cosmetics.")`,
        ],
      },
    ],
  },
  {
    text: "note",
    rows: [
      "Storage, fire codes and transport have cut-offs of their own.",
      "A category is a class of the liquid, never a leave to ship or to sell it.",
    ],
  },
];
