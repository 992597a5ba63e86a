/** The workings of Limits check: what each line counts as, and what is missing where. */
import { FEDERATION } from "../../../src/data/rules.ts";
import type { Part } from "../../sheets/parts.ts";
import {
  NARROW,
  NEAR,
  NOT_APPROVED,
  isAny,
  missing,
  names,
  percent,
  sumIf,
  unless,
} from "./words.ts";

/** A cell of the line as it stands above. */
const typed = (column: string) => `{parts.${column}:same}`;
/** A cell of the line's workings. */
const worked = (column: string) => `{work.${column}:same}`;

const isNumber = (column: string) => `ISNUMBER(${typed(column)})`;
const IS_OIL = `${typed("what")}="fragrance oil"`;
/** Those that may be hazardous without being alcohol or water. */
const MAY_BE_HAZARDOUS = `OR(${IS_OIL},${typed("what")}="other",${typed("what")}="not disclosed")`;
/** The line is filled, and its share is not known to be nothing. */
const IS_IN = `AND(${worked("name")}<>"",NOT(AND(${isNumber("high")},${typed("high")}=0)))`;
const HAS_DENSITY = `AND(${isNumber("density")},${typed("density")}>0,${typed("density")}<=3)`;
const isHighBelow = (low: string, high: string) =>
  `AND(${isNumber(low)},${isNumber(high)},${typed(low)}>${typed(high)})`;
const lacks = (what: string) => `=IF(${what},${worked("name")},"")`;

/** A limit as a certificate prints it, as a number; blank where it is none. */
function limitAsNumber(column: string): string {
  const cell = typed(column);
  const word = `SUBSTITUTE(LOWER(${cell})," ","")`;
  const number = `IF(AND(${cell}>0,${cell}<=1),${cell},"")`;
  const none = `OR(${word}="notapproved",${word}="none")`;
  return `=IF(ISNUMBER(${cell}),${number},IF(${word}="notlimited",1,IF(${none},0,"")))`;
}

/** The limit of this line in one of the two columns. */
const limitIn = (column: string) => `IF(${column}=1,{limit1},{limit2})`;

/** What is missing on a line, in the order of its cells. */
const GAPS = [
  missing(`${typed("what")}=""`, "what it is"),
  missing(`NOT(${isNumber("low")})`, "low"),
  missing(`NOT(${isNumber("high")})`, "high"),
  missing(isHighBelow("low", "high"), "a high that is not below the low"),
  missing(`AND(${IS_IN},NOT(${isNumber("voclow")}))`, "VOC part, low"),
  missing(`AND(${IS_IN},NOT(${isNumber("vochigh")}))`, "VOC part, high"),
  missing(isHighBelow("voclow", "vochigh"), "a VOC high that is not below its low"),
  missing(`AND(${IS_IN},NOT(${isNumber("density")}))`, "density"),
  missing(
    `AND(${IS_IN},${typed("density")}<>"",NOT(${HAS_DENSITY}))`,
    "a density from 0 to 3 g/mL (lb per US gallon is 8.345 times it)",
  ),
  missing(`AND(${IS_IN},${MAY_BE_HAZARDOUS},${typed("hazard")}="")`, "hazardous or not"),
  missing('{skinwork.lackslimit:same}<>""', "limit on the certificate"),
];

/** Zeros are not shown: most of them stand on spare lines. */
const PERCENT = "0.0%;-0.0%;";

/** Yes or no on a line that is filled. */
const flag = (...what: string[]) =>
  `=IF({name}="","",IF(OR(${what.map((each) => `${typed("what")}="${each}"`).join(",")}),"yes","no"))`;

const orZero = (column: string) => `=IF(${isNumber(column)},${typed(column)},0)`;

/** What each line counts as. */
const work = (lines: number): Part => ({
  gap: 1,
  under: "volumes",
  list: "work",
  lines,
  columns: [
    {
      name: "name",
      heading: "Ingredient",
      formula: `=IF(SUMPRODUCT(--(${typed("name")}:${typed("limit2")}<>""))=0,"",IF(${typed("name")}="","line "&ROW(${typed("name")})-ROW({parts.name:head}),${typed("name")}))`,
    },
    {
      name: "missing",
      heading: "What is missing",
      formula: `=IF({name}="","",TEXTJOIN(", ",TRUE,${GAPS.join(",")}))`,
    },
    { name: "low", heading: "Low (%)", format: PERCENT, formula: orZero("low") },
    { name: "high", heading: "High (%)", format: PERCENT, formula: orZero("high") },
    {
      name: "narrowlow",
      heading: "Narrowest low (%)",
      look: "result",
      format: PERCENT,
      demo: [unless("{missingall}", "MIST.SDSTIGHTEN({work.low},{work.high})")],
    },
    // The answer beside fills it.
    {
      name: "narrowhigh",
      heading: "Narrowest high (%)",
      look: "result",
      format: PERCENT,
      demo: [],
    },
    { name: "voclow", heading: "VOC part, low (%)", format: PERCENT, formula: orZero("voclow") },
    { name: "vochigh", heading: "VOC part, high (%)", format: PERCENT, formula: orZero("vochigh") },
    {
      name: "density",
      heading: "Density (g/mL)",
      format: "0.000;-0.000;",
      formula: `=IF(${HAS_DENSITY},${typed("density")},0)`,
    },
    { name: "fragrance", heading: "Fragrance (yes or no)", formula: flag("fragrance oil") },
    { name: "alcohol", heading: "Alcohol (yes or no)", formula: flag("ethanol", "isopropanol") },
    {
      name: "maybealcohol",
      heading: "May be alcohol (yes or no)",
      formula: flag("ethanol", "isopropanol", "not disclosed"),
    },
    { name: "water", heading: "Water (yes or no)", formula: flag("water") },
    {
      name: "maybewater",
      heading: "May be water (yes or no)",
      formula: flag("water", "not disclosed"),
    },
  ],
});

/** What a line uses of the certificates: its share over its limit. */
function budget(share: string): string {
  const used = `IF({limit}=0,"${NOT_APPROVED}",${share}/{limit})`;
  return `=IF(OR({limit}="",${share}=""),"",IF(${share}=0,0,${used}))`;
}

/** Certificates line by line, what lacks where, and VOC beside the fragrance. */
const skinWork = (lines: number): Part => ({
  gap: 1,
  under: "work",
  list: "skinwork",
  lines,
  columns: [
    { heading: "Ingredient", formula: `=${worked("name")}` },
    {
      name: "lackswhat",
      heading: "Lacks what it is or a share",
      formula: lacks(
        `AND(${worked("name")}<>"",OR(${typed("what")}="",NOT(${isNumber("low")}),NOT(${isNumber("high")}),${worked("low")}>${worked("high")}))`,
      ),
    },
    {
      name: "limit1",
      heading: "First limit as a number (%)",
      format: "0.00%",
      formula: limitAsNumber("limit1"),
    },
    {
      name: "limit2",
      heading: "Second limit as a number (%)",
      format: "0.00%",
      formula: limitAsNumber("limit2"),
    },
    {
      name: "limit",
      heading: "Limit that counts (%)",
      format: "0.00%",
      formula:
        `=IF(NOT(${IS_OIL}),"",IF(OR({column}="",{column}=0,{othercolumn}=0),"",` +
        `IF(OR(${limitIn("{column}")}="",${limitIn("{othercolumn}")}=""),"",` +
        `MIN(${limitIn("{column}")},${limitIn("{othercolumn}")}))))`,
    },
    {
      name: "budgetlow",
      heading: "Certificate budget, low (%)",
      format: PERCENT,
      formula: budget(worked("narrowlow")),
    },
    {
      name: "budgethigh",
      heading: "Certificate budget, high (%)",
      format: PERCENT,
      formula: budget(worked("narrowhigh")),
    },
    {
      name: "most",
      heading: "Most of the fragrance (%)",
      format: PERCENT,
      formula:
        `=IF(OR(${worked("fragrance")}<>"yes",{missingall}<>""),0,` +
        `IF(${worked("narrowhigh")}=0,0,${worked("narrowhigh")}/(${worked("narrowhigh")}+${sumIf("fragrance", "narrowlow")}-${worked("narrowlow")})))`,
    },
    {
      name: "times",
      heading: "Part / limit (times)",
      format: "0.000;-0.000;",
      formula: "=IF(AND(ISNUMBER({limit}),{most}>0),IF({limit}=0,0,{most}/{limit}),0)",
    },
    {
      name: "lacksvoc",
      heading: "Lacks a VOC part",
      formula: lacks(
        `AND(${IS_IN},OR(NOT(${isNumber("voclow")}),NOT(${isNumber("vochigh")}),${worked("voclow")}>${worked("vochigh")}))`,
      ),
    },
    {
      name: "lacksdensity",
      heading: "Lacks a density",
      formula: lacks(`AND(${IS_IN},NOT(${HAS_DENSITY}))`),
    },
    {
      name: "unknownhazard",
      heading: "Not known if hazardous",
      formula: lacks(
        `AND(${IS_IN},${MAY_BE_HAZARDOUS},${typed("hazard")}<>"yes",${typed("hazard")}<>"no")`,
      ),
    },
    {
      name: "lackslimit",
      heading: "Lacks a limit",
      formula: lacks(
        `AND(${IS_IN},${IS_OIL},{limit}="",{column}<>"",{column}<>0,{othercolumn}<>0)`,
      ),
    },
    {
      name: "hazardous",
      heading: "Hazardous by itself",
      formula: lacks(
        `AND(${IS_IN},${typed("hazard")}="yes",${worked("alcohol")}="no",${worked("water")}="no")`,
      ),
    },
    {
      name: "restlow",
      heading: "VOC but for fragrance, low (%)",
      format: PERCENT,
      formula: `=IF(${worked("fragrance")}="yes",0,${worked("voclow")})`,
    },
    {
      name: "resthigh",
      heading: "VOC but for fragrance, high (%)",
      format: PERCENT,
      formula: `=IF(${worked("fragrance")}="yes",0,${worked("vochigh")})`,
    },
  ],
});

/** The first of several reasons that holds, or nothing. */
function firstOf(...reasons: [condition: string, words: string][]): string {
  return reasons.reduceRight(
    (rest, [condition, words]) => `IF(${condition},${words},${rest})`,
    '""',
  );
}

const beside = (what: string, lacking: string): [string, string] => [
  isAny(lacking),
  `"${what}, beside "&${names(lacking)}&"."`,
];
const FIRST: [string, string] = ['{missingall}<>""', "{missingall}"];
const lookUp = (column: string) =>
  `=IF({skin}="","",IFERROR(INDEX({categories.${column}},MATCH({skin},{categories.product},0))&"",""))`;
const columnFor = (category: string) =>
  `IF({readfirst}&""=${category},1,IF({readsecond}&""=${category},2,0))`;
const READ_WORDS =
  'IF({readfirst}&{readsecond}="","no category",TEXTJOIN(" and ",TRUE,{readfirst}&"",{readsecond}&""))';
const NEEDED = '{category}&IF({othercategory}="",""," and "&{othercategory})';

/** What is found once for the whole sheet. */
const once = (lines: number): Part => ({
  name: "once",
  under: "workings",
  fields: [
    {
      name: "used",
      label: "Lines that are counted (count)",
      formula: '=SUMPRODUCT(({work.name}<>"")*1)',
    },
    {
      name: "filled",
      label: "Lines filled, below them too",
      formula: `=SUMPRODUCT(--(${["name", "what", "low", "high"].map((column) => `({parts.${column}:around}<>"")`).join("+")}>0))-1`,
    },
    {
      name: "leftout",
      label: "Of the recipe, not here (count)",
      formula: `=MAX(0,{ingredients}+{rests}+{loadcount}-${lines})`,
      alone: "=0",
    },
    { name: "category", label: "Category needed", formula: lookUp("category") },
    { name: "othercategory", label: "The other, if it is disputed", formula: lookUp("other") },
    {
      name: "column",
      label: "Its column of limits (0: none)",
      formula: `=IF({category}="","",${columnFor("{category}")})`,
    },
    {
      name: "othercolumn",
      label: "The other's column of limits",
      formula: `=IF({category}="","",IF({othercategory}="",{column},${columnFor("{othercategory}")}))`,
    },
    {
      name: "federal",
      label: "Rules that stand beside",
      formula: `=IF({soldin}="","",IF(COUNTIFS({rules.place},{soldin},{rules.stateof},"${FEDERATION}")>0,"${FEDERATION}",""))`,
    },
    {
      name: "missingall",
      label: "Missing for all",
      formula: `=${firstOf(
        [
          "{filled}>{used}",
          `"Lines that are not counted: "&({filled}-{used})&". Only the ${lines} ingredients drawn here are: take out lines that were put in or typed below."`,
        ],
        ["{used}=0", '"No ingredient is listed."'],
        [
          "{leftout}>0",
          `"The recipe has more ingredients than the ${lines} that fit: "&{leftout}&" of it not here."`,
        ],
        beside("Missing: what it is, its low or its high", "{skinwork.lackswhat}"),
        [
          `SUM({work.low})>1+${NEAR}`,
          `"The lows sum to "&${percent("SUM({work.low})", 2)}&", more than 100 %."`,
        ],
        [
          `SUM({work.high})<1-${NEAR}`,
          `"The highs sum to "&${percent("SUM({work.high})", 2)}&", less than 100 %: give what is not disclosed a line."`,
        ],
      )}`,
    },
    {
      name: "missingskin",
      label: "Missing for the certificates",
      formula: `=${firstOf(
        FIRST,
        [`${sumIf("fragrance", "high")}=0`, '"No fragrance oil is listed."'],
        ['{skin}=""', '"Missing: the kind of product, for skin."'],
        ['{category}=""', '"Missing: the category of this kind, in the table of categories."'],
        [
          "OR({column}=0,{othercolumn}=0)",
          `"Void: the limits were read for "&${READ_WORDS}&", this product needs "&${NEEDED}&": read the certificates again."`,
        ],
        beside("Missing: the limit on the certificate", "{skinwork.lackslimit}"),
      )}`,
    },
    {
      name: "missingvoc",
      label: "Missing for VOC",
      formula: `=${firstOf(
        FIRST,
        ['{kind}=""', '"Missing: the kind of product, for VOC."'],
        ['{soldin}=""', '"Missing: the place where it is sold."'],
        ["NOT(ISNUMBER({madeon}))", '"Missing: the date on which it is made."'],
        beside("Missing: the VOC part", "{skinwork.lacksvoc}"),
      )}`,
    },
    {
      name: "missingvolume",
      label: "Missing for shares by volume",
      formula: `=${firstOf(
        FIRST,
        beside("Missing: a density from 0 to 3 g/mL", "{skinwork.lacksdensity}"),
      )}`,
    },
    {
      name: "unknownhazards",
      label: "Missing for hazardous or not",
      formula: `=${firstOf(
        FIRST,
        beside(
          "Not known: hazardous or not (read the data sheet, or ask)",
          "{skinwork.unknownhazard}",
        ),
      )}`,
    },
    {
      name: "strictest",
      label: "Rule with least room (of 4)",
      formula: "=IF(COUNT({looked.room})=0,1,MATCH(MIN({looked.room}),{looked.room},0))",
    },
  ],
});

const byVolume = (flags: string) =>
  unless("{missingvolume}", `MIST.ALCOHOLVOLUME(${NARROW},{work.density},{work.${flags}})`);

/** What of the whole is alcohol and water by volume, and VOC beside the fragrance. */
const VOLUMES: Part = {
  gap: 1,
  under: "once",
  table: "volumes",
  across: 2,
  heads: ["Of the whole, estimates", "Low (%)", "High (%)"],
  rows: [
    { name: "alcohol", label: "Alcohol by volume (%)", formula: byVolume("alcohol") },
    {
      name: "maybealcohol",
      label: "with all that may be it (%)",
      formula: byVolume("maybealcohol"),
    },
    { name: "water", label: "Water by volume (%)", formula: byVolume("water") },
    { name: "maybewater", label: "with all that may be it (%)", formula: byVolume("maybewater") },
    {
      name: "others",
      label: "VOC but for fragrance (%)",
      formula: unless("{missingvoc}", `MIST.VOCSHARE(${NARROW},{skinwork.restlow:resthigh})`),
    },
  ].map((row) => ({ ...row, format: PERCENT, spills: 1 })),
};

/** The workings of a sheet of so many ingredients. */
export const workings = (lines: number): Part[] => [
  {
    gap: 1,
    under: "names",
    text: "section",
    name: "workings",
    rows: ["Workings: nothing to type here"],
  },
  once(lines),
  VOLUMES,
  work(lines),
  skinWork(lines),
];
