/** The workings of Limits check: what each line counts as, and what is missing where. */
import { FEDERATION } from "../../../src/data/rules";
import {
  type Block,
  DAY,
  FRAGRANCE,
  KIND,
  LINES,
  NARROW,
  NEAR,
  NOT_APPROVED,
  OTHER_VOC,
  PART,
  PLACE,
  READS,
  SKIN,
  STATE,
  WATER,
  WATER_BY_VOLUME,
  WORK,
  categoryColumn,
  cells,
  found,
  isAny,
  looked,
  missing,
  names,
  percent,
  ruleColumn,
  section,
  sumIf,
  texts,
  unless,
  worked,
} from "./places";

const IS_OIL = `B${PART}="fragrance oil"`;
/** The line is filled, and its share is not known to be nothing. */
const IS_IN = `AND(A${WORK}<>"",NOT(AND(ISNUMBER(D${PART}),D${PART}=0)))`;
const HAS_DENSITY = `AND(ISNUMBER(G${PART}),G${PART}>0,G${PART}<=3)`;
const IS_HIGH_BELOW = (low: string, high: string) =>
  `AND(ISNUMBER(${low}${PART}),ISNUMBER(${high}${PART}),${low}${PART}>${high}${PART})`;
const lacks = (what: string) => `=IF(${what},A${WORK},"")`;

/** A limit as a certificate prints it, as a number; blank where it is none. */
function limitAsNumber(cell: string): string {
  const word = `SUBSTITUTE(LOWER(${cell})," ","")`;
  const number = `IF(AND(${cell}>0,${cell}<=1),${cell},"")`;
  const none = `OR(${word}="notapproved",${word}="none")`;
  return `=IF(ISNUMBER(${cell}),${number},IF(${word}="notlimited",1,IF(${none},0,"")))`;
}

/** The limit of this line in one of the two columns. */
const limitIn = (column: string) => `INDEX(V${WORK}:W${WORK},1,${column})`;

/** What is missing on a line, in the order of its cells. */
const GAPS = [
  missing(`B${PART}=""`, "what it is"),
  missing(`NOT(ISNUMBER(C${PART}))`, "low"),
  missing(`NOT(ISNUMBER(D${PART}))`, "high"),
  missing(IS_HIGH_BELOW("C", "D"), "a high that is not below the low"),
  missing(`AND(${IS_IN},NOT(ISNUMBER(E${PART})))`, "VOC part, low"),
  missing(`AND(${IS_IN},NOT(ISNUMBER(F${PART})))`, "VOC part, high"),
  missing(IS_HIGH_BELOW("E", "F"), "a VOC high that is not below its low"),
  missing(`AND(${IS_IN},G${PART}="")`, "density"),
  missing(
    `AND(${IS_IN},G${PART}<>"",NOT(${HAS_DENSITY}))`,
    "a density from 0 to 3 g/mL (lb per US gallon is 8.345 times it)",
  ),
  missing(`AND(${IS_IN},OR(${IS_OIL},B${PART}="other"),H${PART}="")`, "hazardous or not"),
  missing(`U${WORK}<>""`, "limit on the certificate"),
];

/** Zeros are not shown: most of them stand on spare lines. */
const PERCENT = "0.0%;-0.0%;";

/** Each column of the lines: its heading, its number format and its formula. */
const COLUMNS: [heading: string, format: string | undefined, formula: string][] = [
  [
    "Ingredient",
    undefined,
    `=IF(SUMPRODUCT(--(A${PART}:J${PART}<>""))=0,"",IF(A${PART}="","line "&ROW(A${PART})-ROW(A$${PART - 1}),A${PART}))`,
  ],
  ["What is missing", undefined, `=IF(A${WORK}="","",TEXTJOIN(", ",TRUE,${GAPS.join(",")}))`],
  ["Low (%)", PERCENT, `=IF(ISNUMBER(C${PART}),C${PART},0)`],
  ["High (%)", PERCENT, `=IF(ISNUMBER(D${PART}),D${PART},0)`],
  [
    "Narrowest low (%)",
    PERCENT,
    unless(found.composition, `MIST.SDSTIGHTEN(${worked("C")},${worked("D")})`),
  ],
  ["Narrowest high (%)", PERCENT, ""],
  ["VOC part, low (%)", PERCENT, `=IF(ISNUMBER(E${PART}),E${PART},0)`],
  ["VOC part, high (%)", PERCENT, `=IF(ISNUMBER(F${PART}),F${PART},0)`],
  ["Density (g/mL)", "0.000;-0.000;", `=IF(${HAS_DENSITY},G${PART},0)`],
  ["Fragrance (yes or no)", undefined, flag(IS_OIL)],
  ["Alcohol (yes or no)", undefined, flag(`OR(B${PART}="ethanol",B${PART}="isopropanol")`)],
  ["Water (yes or no)", undefined, flag(`B${PART}="water"`)],
  [
    "Limit that counts (%)",
    "0.00%",
    `=IF(NOT(${IS_OIL}),"",IF(OR(${found.column}="",${found.column}=0,${found.otherColumn}=0),"",` +
      `IF(OR(${limitIn(found.column)}="",${limitIn(found.otherColumn)}=""),"",` +
      `MIN(${limitIn(found.column)},${limitIn(found.otherColumn)}))))`,
  ],
  ["Certificate budget, low (%)", PERCENT, budget("E")],
  ["Certificate budget, high (%)", PERCENT, budget("F")],
  [
    "Most of the fragrance (%)",
    PERCENT,
    `=IF(OR(J${WORK}<>"yes",${found.composition}<>""),0,` +
      `IF(F${WORK}=0,0,F${WORK}/(F${WORK}+${sumIf(FRAGRANCE, "E")}-E${WORK})))`,
  ],
  [
    "Lacks what it is or a share",
    undefined,
    lacks(
      `AND(A${WORK}<>"",OR(B${PART}="",NOT(ISNUMBER(C${PART})),NOT(ISNUMBER(D${PART})),C${WORK}>D${WORK}))`,
    ),
  ],
  [
    "Lacks a VOC part",
    undefined,
    lacks(`AND(${IS_IN},OR(NOT(ISNUMBER(E${PART})),NOT(ISNUMBER(F${PART})),G${WORK}>H${WORK}))`),
  ],
  ["Lacks a density", undefined, lacks(`AND(${IS_IN},NOT(${HAS_DENSITY}))`)],
  [
    "Not known if hazardous",
    undefined,
    lacks(`AND(${IS_IN},OR(${IS_OIL},B${PART}="other"),H${PART}<>"yes",H${PART}<>"no")`),
  ],
  [
    "Lacks a limit",
    undefined,
    lacks(
      `AND(${IS_IN},${IS_OIL},M${WORK}="",${found.column}<>"",${found.column}<>0,${found.otherColumn}<>0)`,
    ),
  ],
  ["First limit as a number (%)", "0.00%", limitAsNumber(`I${PART}`)],
  ["Second limit as a number (%)", "0.00%", limitAsNumber(`J${PART}`)],
  [
    "Hazardous by itself",
    undefined,
    lacks(`AND(${IS_IN},H${PART}="yes",K${WORK}="no",L${WORK}="no")`),
  ],
  [
    "Part / limit (times)",
    "0.000;-0.000;",
    `=IF(AND(ISNUMBER(M${WORK}),P${WORK}>0),IF(M${WORK}=0,0,P${WORK}/M${WORK}),0)`,
  ],
  ["VOC but for fragrance, low (%)", PERCENT, `=IF(J${WORK}="yes",0,G${WORK})`],
  ["VOC but for fragrance, high (%)", PERCENT, `=IF(J${WORK}="yes",0,H${WORK})`],
];

/** Yes or no on a line that is filled. */
function flag(condition: string): string {
  return `=IF(A${WORK}="","",IF(${condition},"yes","no"))`;
}

/** What a line uses of the certificates: its share over its limit. */
function budget(share: string): string {
  const used = `IF(M${WORK}=0,"${NOT_APPROVED}",${share}${WORK}/M${WORK})`;
  return `=IF(OR(M${WORK}="",${share}${WORK}=""),"",IF(${share}${WORK}=0,0,${used}))`;
}

/** The first of several reasons that holds, or nothing. */
function firstOf(...reasons: [condition: string, words: string][]): string {
  return reasons.reduceRight(
    (rest, [condition, words]) => `IF(${condition},${words},${rest})`,
    '""',
  );
}

const beside = (what: string, column: string): [string, string] => [
  isAny(worked(column)),
  `"${what}, beside "&${names(worked(column))}&"."`,
];
const first: [string, string] = [`${found.composition}<>""`, found.composition];
const lookUp = (column: string) =>
  `=IF(${SKIN}="","",IFERROR(INDEX(${categoryColumn(column)},MATCH(${SKIN},${categoryColumn("A")},0))&"",""))`;
const columnFor = (category: string) =>
  `IF(${READS[0]}&""=${category},1,IF(${READS[1]}&""=${category},2,0))`;
const READ_WORDS = `IF(${READS[0]}&${READS[1]}="","no category",TEXTJOIN(" and ",TRUE,${READS[0]}&"",${READS[1]}&""))`;
const NEEDED = `${found.category}&IF(${found.otherCategory}="",""," and "&${found.otherCategory})`;

const ONCE: [label: string, formula: string][] = [
  ["Lines that are filled (count)", `=SUMPRODUCT((${worked("A")}<>"")*1)`],
  ["Category needed", lookUp("B")],
  ["The other, if it is disputed", lookUp("C")],
  ["Its column of limits (0: none)", `=IF(${found.category}="","",${columnFor(found.category)})`],
  [
    "The other's column of limits",
    `=IF(${found.category}="","",IF(${found.otherCategory}="",${found.column},${columnFor(found.otherCategory)}))`,
  ],
  [
    "Rules that stand beside",
    `=IF(${PLACE}="","",IF(COUNTIFS(${ruleColumn("A")},${PLACE},${ruleColumn("F")},"${FEDERATION}")>0,"${FEDERATION}",""))`,
  ],
  [
    "Missing for all",
    `=${firstOf(
      [`${found.used}=0`, '"No ingredient is listed."'],
      beside("Missing: what it is, its low or its high", "Q"),
      [
        `SUM(${worked("C")})>1+${NEAR}`,
        `"The lows sum to "&${percent(`SUM(${worked("C")})`, 2)}&", more than 100 %."`,
      ],
      [
        `SUM(${worked("D")})<1-${NEAR}`,
        `"The highs sum to "&${percent(`SUM(${worked("D")})`, 2)}&", less than 100 %: give what is not disclosed a line."`,
      ],
    )}`,
  ],
  [
    "Missing for the certificates",
    `=${firstOf(
      first,
      [`${sumIf(FRAGRANCE, "D")}=0`, '"No fragrance oil is listed."'],
      [`${SKIN}=""`, '"Missing: the kind of product, for skin."'],
      [`${found.category}=""`, '"Missing: the category of this kind, in the table of categories."'],
      [
        `OR(${found.column}=0,${found.otherColumn}=0)`,
        `"Void: the limits were read for "&${READ_WORDS}&", this product needs "&${NEEDED}&": read the certificates again."`,
      ],
      beside("Missing: the limit on the certificate", "U"),
    )}`,
  ],
  [
    "Missing for VOC",
    `=${firstOf(
      first,
      [`${KIND}=""`, '"Missing: the kind of product, for VOC."'],
      [`${PLACE}=""`, '"Missing: the place where it is sold."'],
      [`NOT(ISNUMBER(${DAY}))`, '"Missing: the date on which it is made."'],
      beside("Missing: the VOC part", "R"),
    )}`,
  ],
  [
    "Missing for shares by volume",
    `=${firstOf(first, beside("Missing: a density from 0 to 3 g/mL", "S"))}`,
  ],
  [
    "Missing for hazardous or not",
    `=${firstOf(first, beside("Not known: hazardous or not (read the data sheet, or ask)", "T"))}`,
  ],
  [
    "Rule with least room (of 4)",
    `=IF(COUNT(${looked("F")})=0,1,MATCH(MIN(${looked("F")}),${looked("F")},0))`,
  ],
];

const letter = (index: number) =>
  `${index < 26 ? "" : "A"}${String.fromCharCode(65 + (index % 26))}`;

export const COLUMNS_OF_SHEET = COLUMNS.length;

export const WORKINGS: Block[] = [
  section(STATE, "Workings: nothing to type here", 0),
  texts(
    `A${STATE}`,
    "label",
    ...ONCE.map(([label]) => label),
    "Water by volume (%)",
    "VOC but for fragrance (%)",
  ),
  texts(`B${STATE}`, "result", ...ONCE.map(([, formula]) => formula)),
  {
    at: `B${WATER_BY_VOLUME}`,
    look: "result",
    format: PERCENT,
    formula: unless(found.densities, `MIST.ALCOHOLVOLUME(${NARROW},${worked("I")},${WATER})`),
    spills: [1, 2],
  },
  {
    at: `B${OTHER_VOC}`,
    look: "result",
    format: PERCENT,
    formula: unless(found.voc, `MIST.VOCSHARE(${NARROW},${worked("Z", "AA")})`),
    spills: [1, 2],
  },
  cells(
    `A${WORK - 1}`,
    "heading",
    COLUMNS.map(([title]) => title),
  ),
  ...COLUMNS.flatMap(([, format, formula], i): Block[] => {
    if (formula === "") return [];
    const size: Partial<Block> = letter(i) === "E" ? { spills: [LINES, 2] } : { down: LINES };
    return [{ at: `${letter(i)}${WORK}`, look: "result", format, formula, ...size }];
  }),
];
