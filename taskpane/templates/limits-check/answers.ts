/** What Limits check answers: each limit beside its value, VOC rule by rule, the lowest on the load. */
import { READ } from "../../../src/data/rules";
import {
  type Block,
  ALCOHOL,
  BOTH,
  FRAGRANCE,
  KIND,
  LIMIT,
  LOAD,
  MARKED,
  NARROW,
  NEAR,
  NONE,
  NOT_APPROVED,
  OTHER_VOC,
  OVER,
  PLACE,
  RULE,
  SECOND,
  UNLIMITED,
  UNLISTED,
  WATER,
  WATER_BY_VOLUME,
  WITHIN,
  cells,
  found,
  heading,
  isAny,
  judged,
  looked,
  names,
  percent,
  ruleColumn,
  section,
  sumIf,
  texts,
  told,
  unless,
  verdict,
  worked,
} from "./places";

const PERCENT = "0.0%";
const SKIN_ROW = LIMIT;
const VOC_ROW = SKIN_ROW + 1;
const ALCOHOL_ROW = VOC_ROW + 1;
const WATER_ROW = ALCOHOL_ROW + 1;
const HAZARD_ROW = WATER_ROW + 1;
const CARRIED_ROW = HAZARD_ROW + 1;

/** The four rules that are looked at: of the place and of its country, for each of two kinds. */
const RULES = [
  { place: PLACE, kind: KIND },
  { place: PLACE, kind: SECOND },
  { place: found.federal, kind: KIND },
  { place: found.federal, kind: SECOND },
].map(({ place, kind }, i) => ({ place, kind, row: RULE + i }));

const anyRule = (words: string) => `COUNTIF(${looked("B")},"${words}")>0`;
const ofRule = (column: string) => `INDEX(${looked(column)},${found.strictest})`;
const strictestKind = `IF(OR(${found.strictest}=1,${found.strictest}=3),${KIND},${SECOND})`;
const alike = (place: string, kind: string) =>
  `${ruleColumn("A")},${place},${ruleColumn("B")},${kind}`;
const isUnread = (place: string, kind: string) =>
  `COUNTIFS(${alike(place, kind)},${ruleColumn("G")},">0",${ruleColumn("I")},"<>${READ}")>0`;

/** Of the oils, the one that uses most of the certificates. */
const greediest = (column: string) =>
  `INDEX(${worked(column)},MATCH(MAX(${worked("O")}),${worked("O")},0))`;
const refused = `COUNTIF(${worked("O")},"${NOT_APPROVED}")>0`;

const IN_WORDS: Record<string, string> = {
  skin: judged(
    found.certificates,
    verdict(`C${SKIN_ROW}`, `D${SKIN_ROW}`, `E${SKIN_ROW}`),
    `IF(LEFT(${found.certificates},4)="Void","${NONE}: limits are void","${NONE}")`,
  ),
  // A count passes over errors: a rule that could not be looked at must not pass for one that is kept.
  voc: judged(
    found.voc,
    `IF(SUMPRODUCT(ISERROR(${looked("B")})*1)>0,"${NONE}",IF(${anyRule("Over*")},"${OVER}",IF(${anyRule("Doubt*")},"${BOTH}",` +
      `IF(${anyRule("Within*")},IF(${anyRule(UNLISTED)},"Within the rules listed","${WITHIN}"),` +
      `IF(${anyRule(UNLISTED)},"${UNLISTED}","${UNLIMITED}")))))`,
  ),
  alcohol: judged(
    found.densities,
    `IF(D${ALCOHOL_ROW}<=0.235,"Within: 24 % at most",IF(C${ALCOHOL_ROW}>0.24,"Over 24 % (!)",` +
      `IF(D${ALCOHOL_ROW}>0.24,"${BOTH}","Doubt: too near to tell (?)")))`,
  ),
  water: judged(
    found.densities,
    `IF(C${WATER_ROW}>=0.5-${NEAR},"Within: 50 % or more",IF(D${WATER_ROW}<0.5,"Under 50 % (!)","${BOTH}"))`,
  ),
  hazard: judged(
    found.composition,
    `IF(${isAny(worked("X"))},"Outside: there is one (!)",IF(${found.hazards}<>"","${NONE}","Within: there is none"))`,
  ),
  carried: judged(
    found.composition,
    `IF(${sumIf(ALCOHOL, "D")}=0,"No alcohol is listed",` +
      `IF(OR(LEFT(B${ALCOHOL_ROW},4)="Over",LEFT(B${WATER_ROW},5)="Under",LEFT(B${HAZARD_ROW},7)="Outside"),"Outside the exception (!)",` +
      `IF(COUNTIF(B${ALCOHOL_ROW}:B${HAZARD_ROW},"${NONE}*")>0,"${NONE}",` +
      `IF(COUNTIF(B${ALCOHOL_ROW}:B${HAZARD_ROW},"Doubt*")>0,"Doubt: not decided (?)","Within the exception"))))`,
  ),
};

const WHY: Record<string, string> = {
  skin: told(
    found.certificates,
    `IF(${refused},INDEX(${worked("A")},MATCH("${NOT_APPROVED}",${worked("O")},0))&" is not approved for this category.",` +
      `${greediest("A")}&" uses most of it, "&${percent(`MAX(${worked("O")})`)}&", by a limit of "&${percent(greediest("M"), 4)}&".")&` +
      `IF(${found.otherCategory}="",""," Of "&${found.category}&" and "&${found.otherCategory}&" the lower limit was taken.")`,
  ),
  voc: told(
    found.voc,
    `IF(COUNT(${looked("F")})=0,"",IF(${found.federal}="","Strictest: ","Strictest of "&${PLACE}&" and "&${found.federal}&": ")&${ofRule("A")}&", "&${strictestKind}&".")&` +
      `IF(${anyRule(UNLISTED)}," Not listed: "&TEXTJOIN("; ",TRUE,${RULES.map(
        ({ kind, row }) => `IF(B${row}="${UNLISTED}",A${row}&", "&${kind},"")`,
      ).join(",")})&". Look it up.","")&` +
      `IF(${isUnread(ofRule("A"), strictestKind)}," Not read whole: read it.","")`,
  ),
  alcohol: told(
    found.densities,
    `"From 23.5 to 24 % measure it: the estimate reads up to 0.50 points low."`,
  ),
  water: told(
    found.densities,
    `"The lesser of two: by weight "&${percent(sumIf(WATER, "E"))}&" or more, by volume "&${percent(`B${WATER_BY_VOLUME}`)}&" or more."`,
  ),
  hazard:
    `=IF(${found.used}=0,"",IF(${found.composition}<>"",${found.composition},` +
    `IF(${isAny(worked("X"))},"By its data sheet: "&${names(worked("X"))}&". The exception is lost.",${found.hazards})))`,
  carried: told(
    found.composition,
    `"49 CFR 173.150(e) asks for all three above. A trained shipper decides."`,
  ),
};

export const LIMITS: Block[] = [
  section(LIMIT, "Each limit beside its value"),
  heading(
    LIMIT,
    "A",
    "What is limited",
    "In words, on these numbers",
    "Value, low (%)",
    "Value, high (%)",
    "Limit (%)",
    "Room left (%)",
  ),
  heading(LIMIT, "G", "Why, and who decides", null, null, null, null, null),
  texts(
    `A${LIMIT}`,
    "label",
    "Skin: certificate budget used",
    "VOC by weight: strictest rule",
    "Alcohol by volume (estimate)",
    "Water (at least)",
    "Any other hazardous material",
    "Aqueous alcohol in transport",
  ),
  { ...texts(`B${LIMIT}`, "result", ...Object.values(IN_WORDS)), marks: MARKED },
  texts(`G${LIMIT}`, "note", ...Object.values(WHY)),
  cells(
    `C${SKIN_ROW}`,
    "result",
    [
      ...["N", "O"].map((column) =>
        unless(
          found.certificates,
          `IF(COUNTIF(${worked(column)},"${NOT_APPROVED}")>0,"${NOT_APPROVED}",SUM(${worked(column)}))`,
        ),
      ),
      unless(found.certificates, "1"),
      `=IF(ISNUMBER(D${SKIN_ROW}),E${SKIN_ROW}-D${SKIN_ROW},"")`,
    ],
    PERCENT,
  ),
  cells(
    `C${VOC_ROW}`,
    "result",
    ["C", "D", "E", "F"].map((column) => unless(found.voc, ofRule(column))),
    PERCENT,
  ),
  {
    at: `C${ALCOHOL_ROW}`,
    look: "result",
    format: PERCENT,
    formula: unless(found.densities, `MIST.ALCOHOLVOLUME(${NARROW},${worked("I")},${ALCOHOL})`),
    spills: [1, 2],
  },
  cells(
    `E${ALCOHOL_ROW}`,
    "result",
    [unless(found.densities, "0.24"), unless(found.densities, `E${ALCOHOL_ROW}-D${ALCOHOL_ROW}`)],
    PERCENT,
  ),
  cells(
    `C${WATER_ROW}`,
    "result",
    [
      unless(found.densities, `MIN(${sumIf(WATER, "E")},B${WATER_BY_VOLUME})`),
      unless(found.densities, `MIN(${sumIf(WATER, "F")},C${WATER_BY_VOLUME})`),
      unless(found.densities, "0.5"),
      unless(found.densities, `C${WATER_ROW}-E${WATER_ROW}`),
    ],
    PERCENT,
  ),
  texts(
    `A${CARRIED_ROW + 1}`,
    "note",
    "Skin: the sum of share / limit over the oils, 100 % at most. VOC: a state's stricter limit holds beside the federal one; see rule by rule, below.",
    "Transport: at most 24 % alcohol by volume, at least 50 % water and no other hazardous material. The rule says 50 percent, not of what, so the lesser is compared.",
    "The words come first. Dark is over or outside, amber is in doubt, pale is within, slanted grey says that something is missing or not listed.",
  ),
];

/** The most oil that a rule leaves room for, beside the most VOC of all else. */
function mostOil(row: number): string {
  const others = `$C$${OTHER_VOC}`;
  const part = `MAXIFS(${worked("H")},${FRAGRANCE},"yes")`;
  const room = `MIN(1,H${row}+(E${row}-${others})/${part})`;
  return `=IF(AND(ISNUMBER(D${row}),ISNUMBER(E${row})),IF(${others}>E${row},0,IF(${part}=0,1,${room})),"")`;
}

function ruleRow({ place, kind, row }: (typeof RULES)[number]): Block[] {
  const ofKind = alike(place, kind);
  const isNone = `COUNTIFS(${ofKind},${ruleColumn("C")},"none")>0`;
  return [
    texts(`A${row}`, "result", `=IF(OR(${place}="",${kind}=""),"",${place})`),
    {
      at: `B${row}`,
      look: "result",
      marks: MARKED,
      rows: [
        [
          `=IF(OR(A${row}="",${found.used}=0),"",IF(${found.voc}<>"","${NONE}",IF(E${row}="no limit","${UNLIMITED}",` +
            `IF(E${row}="","${UNLISTED}",${verdict(`C${row}`, `D${row}`, `E${row}`)}))))`,
        ],
      ],
    },
    {
      at: `C${row}`,
      look: "result",
      format: PERCENT,
      formula: `=IF(OR(A${row}="",${found.voc}<>""),"",MIST.VOCSHARE(${NARROW},${worked("G", "H")},${FRAGRANCE},H${row}))`,
      spills: [1, 2],
    },
    cells(
      `E${row}`,
      "result",
      [
        `=IF(A${row}="","",IF(G${row}>0,MINIFS(${ruleColumn("G")},${ofKind}),IF(${isNone},"no limit","")))`,
        `=IF(AND(ISNUMBER(D${row}),ISNUMBER(E${row})),E${row}-D${row},"")`,
      ],
      PERCENT,
    ),
    cells(`G${row}`, "result", [`=IF(A${row}="","",COUNTIFS(${ofKind},${ruleColumn("G")},">0"))`]),
    cells(
      `H${row}`,
      "result",
      [`=IF(A${row}="","",IF(G${row}>0,MINIFS(${ruleColumn("H")},${ofKind}),0))`, mostOil(row)],
      "0.00%",
    ),
    texts(
      `J${row}`,
      "note",
      `=IF(A${row}="","",${kind}&": "&IF(G${row}>0,IF(${isUnread(place, kind)},"not read whole, see the rules further down.","read in the rule."),` +
        `IF(E${row}="no limit","this rule leaves it out; another may not.","look it up, and add a line for it further down.")))`,
    ),
  ];
}

export const VOC_BY_RULE: Block[] = [
  section(RULE, "VOC by weight, rule by rule"),
  heading(
    RULE,
    "A",
    "Place",
    "In words, on these numbers",
    "Value, low (%)",
    "Value, high (%)",
    "Limit (%)",
    "Room left (%)",
    "Rules that hold (count)",
    "Fragrance not counted (%)",
    "Most oil in its room (%)",
  ),
  heading(RULE, "J", "Kind, and how it was seen", null, null, null, null, null),
  ...RULES.flatMap(ruleRow),
  texts(
    `A${RULE + 4}`,
    "note",
    "A state's stricter limit holds beside the federal one, and of several kinds or dates the lowest: each line here has a limit of its own to keep.",
  ),
];

/** The load at which the blend is safe, whatever the parts of its oils within their ranges. */
const SAFE =
  `IF(${refused},"none",IF(ABS(SUM(${worked("P")})-1)<0.0001,MIST.SAFELOAD(${worked("P")},${worked("M")}),` +
  `MIN(1,MAX(MINIFS(${worked("M")},${worked("P")},">0"),1/SUM(${worked("Y")})))))`;

const isUnknown = `COUNTIF(C${LOAD}:C${LOAD + 3},"")>0`;

export const LOADS: Block[] = [
  section(LOAD, "The lowest of the limits on the load"),
  heading(LOAD, "A", "Limit", "In words", "Load (%)"),
  texts(
    `A${LOAD}`,
    "label",
    "skin, by certificates",
    "supplier's maximum",
    "seen to dissolve in a trial",
    "what VOC leaves room for",
    "Lowest, and which",
  ),
  {
    ...texts(
      `B${LOAD}`,
      "result",
      `=IF(OR(${found.used}=0,${found.certificates}=""),"",IF(LEFT(${found.certificates},4)="Void","${NONE}: limits are void","${NONE}: see the limits above"))`,
      `=IF(OR(${found.used}=0,C${LOAD + 1}<>""),"","${NONE}: ask the supplier")`,
      `=IF(OR(${found.used}=0,C${LOAD + 2}<>""),"","${NONE}: try it")`,
      `=IF(${found.used}=0,"",IF(C${LOAD + 3}="","${NONE}: see VOC above",IF(${anyRule(UNLISTED)},"by the rules that are listed","")))`,
      `=IF(${found.used}=0,"",IF(${isUnknown},"${NONE}: one is not known",""))`,
    ),
    marks: MARKED,
  },
  cells(`C${LOAD}`, "result", [unless(found.certificates, SAFE)], PERCENT),
  { at: `C${LOAD + 1}`, look: "input", format: PERCENT, rows: [[0.06], [0.05]] },
  cells(
    `C${LOAD + 3}`,
    "result",
    [
      `=IF(OR(${found.used}=0,${found.voc}<>"",B${VOC_ROW}="${UNLISTED}",B${VOC_ROW}="${NONE}"),"",IF(COUNT(${looked("I")})=0,"not limited",` +
        `IF(MIN(${looked("I")})=0,"none",MIN(${looked("I")}))))`,
    ],
    PERCENT,
  ),
  {
    at: `C${LOAD + 4}`,
    look: "result",
    format: PERCENT,
    formula: `=IF(OR(${found.used}=0,${isUnknown}),"",MIST.TOPLOAD(A${LOAD}:A${LOAD + 3},C${LOAD}:C${LOAD + 3}))`,
    spills: [1, 2],
  },
  texts(
    `A${LOAD + 5}`,
    "note",
    "By certificates: for these oils in these parts of the fragrance, at the worst that their ranges allow. By VOC: oil beside the most VOC of all else, in place of water.",
    'A limit that is not known must be asked for: "not limited" and "none" are words for it, a blank is not.',
  ),
];
