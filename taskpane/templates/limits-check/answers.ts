/** What Limits check answers: each limit beside its value, VOC rule by rule, the lowest on the load. */
import { READ } from "../../../src/data/rules.ts";
import type { Part } from "../../sheets/parts.ts";
import {
  BOTH,
  MARKED,
  NARROW,
  NEAR,
  NONE,
  NOT_APPROVED,
  OVER,
  UNLIMITED,
  UNLISTED,
  WITHIN,
  isAny,
  judged,
  names,
  percent,
  sumIf,
  told,
  unless,
  verdict,
  wide,
} from "./words.ts";

const PERCENT = "0.0%";

/** The four rules that are looked at: of the place and of its country, for each of two kinds. */
const RULES = [
  { line: "here", place: "{soldin}", kind: "{kind}" },
  { line: "heresecond", place: "{soldin}", kind: "{second}" },
  { line: "country", place: "{federal}", kind: "{kind}" },
  { line: "countrysecond", place: "{federal}", kind: "{second}" },
];
const ofEach = (write: (rule: (typeof RULES)[number]) => string) => RULES.map(write);

const anyRule = (words: string) => `COUNTIF({looked.words},"${words}")>0`;
const ofRule = (column: string) => `INDEX({looked.${column}},{strictest})`;
const STRICTEST_KIND = "IF(OR({strictest}=1,{strictest}=3),{kind},{second})";
const alike = (place: string, kind: string) => `{rules.place},${place},{rules.product},${kind}`;
const isUnread = (place: string, kind: string) =>
  `COUNTIFS(${alike(place, kind)},{rules.thatday},">0",{rules.seen},"<>${READ}")>0`;

/** Of the oils, the one that uses most of the certificates. */
const greediest = (column: string) =>
  `INDEX(${column},MATCH(MAX({skinwork.budgethigh}),{skinwork.budgethigh},0))`;
const REFUSED = `COUNTIF({skinwork.budgethigh},"${NOT_APPROVED}")>0`;
const budget = (column: string) =>
  unless(
    "{missingskin}",
    `IF(COUNTIF({skinwork.${column}},"${NOT_APPROVED}")>0,"${NOT_APPROVED}",SUM({skinwork.${column}}))`,
  );
const ALL_THREE = "{limits.words:alcohol}:{limits.words:hazard}";

/** A limit: what it is, what the numbers say in words, the numbers, and why. */
interface Limit {
  what: string;
  words: string;
  low?: string;
  high?: string;
  limit?: string;
  room?: string;
  why: string;
}

const LIMITED: Record<string, Limit> = {
  skin: {
    what: "Skin: certificate budget used",
    words: judged(
      "{missingskin}",
      verdict("{low}", "{high}", "{limit}"),
      `IF(LEFT({missingskin},4)="Void","${NONE}: limits are void","${NONE}")`,
    ),
    low: budget("budgetlow"),
    high: budget("budgethigh"),
    limit: unless("{missingskin}", "1"),
    room: '=IF(ISNUMBER({high}),{limit}-{high},"")',
    why: told(
      "{missingskin}",
      `IF(${REFUSED},INDEX({work.name},MATCH("${NOT_APPROVED}",{skinwork.budgethigh},0))&" is not approved for this category.",` +
        `${greediest("{work.name}")}&" uses most of it, "&${percent("MAX({skinwork.budgethigh})")}&", by a limit of "&${percent(greediest("{skinwork.limit}"), 4)}&".")&` +
        `IF({othercategory}="",""," Of "&{category}&" and "&{othercategory}&" the lower limit was taken.")`,
    ),
  },
  voc: {
    what: "VOC by weight: strictest rule",
    // A count passes over errors: a rule that could not be looked at must not pass for one that is kept.
    words: judged(
      "{missingvoc}",
      `IF(SUMPRODUCT(ISERROR({looked.words})*1)>0,"${NONE}",IF(${anyRule("Over*")},"${OVER}",IF(${anyRule("Doubt*")},"${BOTH}",` +
        `IF(${anyRule("Within*")},IF(${anyRule(UNLISTED)},"Within the rules listed","${WITHIN}"),` +
        `IF(${anyRule(UNLISTED)},"${UNLISTED}","${UNLIMITED}")))))`,
    ),
    low: unless("{missingvoc}", ofRule("low")),
    high: unless("{missingvoc}", ofRule("high")),
    limit: unless("{missingvoc}", ofRule("limit")),
    room: unless("{missingvoc}", ofRule("room")),
    why: told(
      "{missingvoc}",
      `TRIM(IF(COUNT({looked.room})=0,"",IF({federal}="","Strictest: ","Strictest of "&{soldin}&" and "&{federal}&": ")&${ofRule("place")}&", "&${STRICTEST_KIND}&".")&` +
        `IF(${anyRule(UNLISTED)}," Not listed: "&TEXTJOIN("; ",TRUE,${ofEach(
          ({ line, kind }) =>
            `IF({looked.words:${line}}="${UNLISTED}",{looked.place:${line}}&", "&${kind},"")`,
        ).join(",")})&". Look it up.","")&` +
        `IF(${isUnread(ofRule("place"), STRICTEST_KIND)}," Not read whole: read it.",""))`,
    ),
  },
  alcohol: {
    what: "Alcohol by volume (estimate)",
    words: judged(
      "{missingvolume}",
      `IF({high}<=0.235,"Within: 24 % at most",IF({low}>0.24,"Over 24 % (!)",` +
        `IF({high}>0.24,"${BOTH}","Doubt: too near to tell (?)")))`,
    ),
    low: unless("{missingvolume}", "{volumes.alcohol:first}"),
    high: unless("{missingvolume}", "{volumes.maybealcohol:last}"),
    limit: unless("{missingvolume}", "0.24"),
    room: unless("{missingvolume}", "{limit}-{high}"),
    why: told(
      "{missingvolume}",
      '"From 23.5 to 24 % measure it: the estimate reads up to 0.50 points low."',
    ),
  },
  water: {
    what: "Water (at least)",
    words: judged(
      "{missingvolume}",
      `IF({low}>=0.5-${NEAR},"Within: 50 % or more",IF({high}<0.5,"Under 50 % (!)","${BOTH}"))`,
    ),
    low: unless("{missingvolume}", `MIN(${sumIf("water", "narrowlow")},{volumes.water:first})`),
    high: unless(
      "{missingvolume}",
      `MIN(${sumIf("maybewater", "narrowhigh")},{volumes.maybewater:last})`,
    ),
    limit: unless("{missingvolume}", "0.5"),
    room: unless("{missingvolume}", "{low}-{limit}"),
    why: told(
      "{missingvolume}",
      `"The lesser of two: by weight "&${percent(sumIf("water", "narrowlow"))}&" or more, by volume "&${percent("{volumes.water:first}")}&" or more."`,
    ),
  },
  hazard: {
    what: "Any other hazardous material",
    words: judged(
      "{missingall}",
      `IF(${isAny("{skinwork.hazardous}")},"Outside: there is one (!)",IF({unknownhazards}<>"","${NONE}","Within: there is none"))`,
    ),
    why:
      `=IF({used}=0,"",IF({missingall}<>"",{missingall},` +
      `IF(${isAny("{skinwork.hazardous}")},"By its data sheet: "&${names("{skinwork.hazardous}")}&". The exception is lost.",{unknownhazards})))`,
  },
  carried: {
    what: "Aqueous alcohol in transport",
    words: judged(
      "{missingall}",
      `IF(${sumIf("maybealcohol", "high")}=0,"No alcohol is listed",` +
        `IF(OR(LEFT({limits.words:alcohol},4)="Over",LEFT({limits.words:water},5)="Under",LEFT({limits.words:hazard},7)="Outside"),"Outside the exception (!)",` +
        `IF(COUNTIF(${ALL_THREE},"${NONE}*")>0,"${NONE}",` +
        `IF(COUNTIF(${ALL_THREE},"Doubt*")>0,"Doubt: not decided (?)","Within the exception"))))`,
    ),
    why: told(
      "{missingall}",
      '"49 CFR 173.150(e) asks for all three above. A trained shipper decides."',
    ),
  },
};

/** A column of the limits, line by line. */
const ofLimits = (key: keyof Limit) => Object.values(LIMITED).map((each) => each[key] ?? null);

export const LIMITS: Part[] = [
  { gap: 1, paper: "new page", text: "section", rows: ["Each limit beside its value"] },
  {
    list: "limits",
    lines: Object.keys(LIMITED),
    columns: [
      { heading: "What is limited", look: "label", demo: ofLimits("what") },
      {
        name: "words",
        heading: "In words, on these numbers",
        look: "result",
        marks: MARKED,
        demo: ofLimits("words"),
      },
      {
        name: "low",
        heading: "Value, low (%)",
        look: "result",
        format: PERCENT,
        demo: ofLimits("low"),
      },
      {
        name: "high",
        heading: "Value, high (%)",
        look: "result",
        format: PERCENT,
        demo: ofLimits("high"),
      },
      {
        name: "limit",
        heading: "Limit (%)",
        look: "result",
        format: PERCENT,
        demo: ofLimits("limit"),
      },
      {
        name: "room",
        heading: "Room left (%)",
        look: "result",
        format: PERCENT,
        demo: ofLimits("room"),
      },
    ],
  },
  // Under the limits, where there is room for a sentence.
  {
    list: "reasons",
    lines: Object.keys(LIMITED),
    columns: [
      { name: "what", heading: "Why, and who decides", look: "label", demo: ofLimits("what") },
      { name: "why", heading: wide(null, 5), look: "note", demo: ofLimits("why") },
    ],
  },
  {
    text: "note",
    rows: [
      "Skin: the sum of share / limit over the oils, 100 % at most.",
      "VOC: a state's stricter limit holds beside the federal one; see rule by rule, below.",
      "Transport: at most 24 % alcohol by volume, at least 50 % water and no other hazardous material.",
      "The rule says 50 percent of water, not whether by weight or by volume, so the lesser of the two is compared.",
      "What is not disclosed may be alcohol, or water, or neither: the highs count it, the lows do not.",
      "The words come first. Dark is over or outside, amber is in doubt, pale is within.",
      "Slanted grey says that something is missing or not listed.",
    ],
  },
];

/** The most oil that a rule leaves room for, beside the most VOC of all else. */
const OTHERS = "{volumes.others:last}";
const PART_VOC = 'MAXIFS({work.vochigh},{work.fragrance},"yes")';
const ROOM = `MIN(1,{uncounted}+({limit}-${OTHERS})/${PART_VOC})`;
const MOST_OIL = `=IF(AND(ISNUMBER({high}),ISNUMBER({limit})),IF(${OTHERS}>{limit},0,IF(${PART_VOC}=0,1,${ROOM})),"")`;

export const VOC_BY_RULE: Part[] = [
  { gap: 1, text: "section", rows: ["VOC by weight, rule by rule"] },
  {
    list: "looked",
    lines: RULES.map(({ line }) => line),
    columns: [
      {
        name: "place",
        heading: "Place",
        look: "result",
        demo: ofEach(({ place, kind }) => `=IF(OR(${place}="",${kind}=""),"",${place})`),
      },
      {
        name: "words",
        heading: "In words, on these numbers",
        marks: MARKED,
        formula:
          `=IF(OR({place}="",{used}=0),"",IF({missingvoc}<>"","${NONE}",IF({limit}="no limit","${UNLIMITED}",` +
          `IF({limit}="","${UNLISTED}",${verdict("{low}", "{high}", "{limit}")}))))`,
      },
      {
        name: "low",
        heading: "Value, low (%)",
        format: PERCENT,
        formula: `=IF(OR({place}="",{missingvoc}<>""),"",MIST.VOCSHARE(${NARROW},{work.voclow:vochigh},{work.fragrance},{uncounted}))`,
      },
      // The answer beside fills it.
      { name: "high", heading: "Value, high (%)", look: "result", format: PERCENT, demo: [] },
      {
        name: "limit",
        heading: "Limit (%)",
        look: "result",
        format: PERCENT,
        demo: ofEach(
          ({ place, kind }) =>
            `=IF({place}="","",IF({held}>0,MINIFS({rules.thatday},${alike(place, kind)}),IF(COUNTIFS(${alike(place, kind)},{rules.limit},"none")>0,"no limit","")))`,
        ),
      },
      {
        name: "room",
        heading: "Room left (%)",
        format: PERCENT,
        formula: '=IF(AND(ISNUMBER({high}),ISNUMBER({limit})),{limit}-{high},"")',
      },
      {
        name: "held",
        heading: "Rules that hold (count)",
        look: "result",
        demo: ofEach(
          ({ place, kind }) =>
            `=IF({place}="","",COUNTIFS(${alike(place, kind)},{rules.thatday},">0"))`,
        ),
      },
      {
        name: "uncounted",
        heading: "Fragrance not counted (%)",
        look: "result",
        format: "0.00%",
        demo: ofEach(
          ({ place, kind }) =>
            `=IF({place}="","",IF({held}>0,MINIFS({rules.uncounted},${alike(place, kind)}),0))`,
        ),
      },
      {
        name: "mostoil",
        heading: "Most oil in its room (%)",
        format: "0.00%",
        formula: MOST_OIL,
      },
      {
        heading: wide("Kind, and how it was seen", 4),
        look: "note",
        demo: ofEach(
          ({ place, kind }) =>
            `=IF({place}="","",${kind}&": "&IF({held}>0,IF(${isUnread(place, kind)},"not read whole, see the rules further down.","read in the rule."),` +
            `IF({limit}="no limit","this rule leaves it out; another may not.","look it up, and add a line for it further down.")))`,
        ),
      },
    ],
  },
  {
    text: "note",
    rows: [
      "A state's stricter limit holds beside the federal one, and of several kinds or dates the lowest.",
      "Each line here has a limit of its own to keep.",
    ],
  },
];

/** The load at which the blend is safe, whatever the parts of its oils within their ranges. */
const SAFE =
  `IF(${REFUSED},"none",IF(ABS(SUM({skinwork.most})-1)<0.0001,MIST.SAFELOAD({skinwork.most},{skinwork.limit}),` +
  'MIN(1,MAX(MINIFS({skinwork.limit},{skinwork.most},">0"),1/SUM({skinwork.times})))))';

const IS_UNKNOWN = 'COUNTIF({loads.load},"")>0';

export const LOADS: Part[] = [
  { gap: 1, paper: "new page", text: "section", rows: ["The lowest of the limits on the load"] },
  {
    list: "loads",
    lines: ["skin", "voc", "supplier", "trial"],
    columns: [
      {
        name: "limit",
        heading: "Limit",
        look: "label",
        demo: [
          "skin, by certificates",
          "what VOC leaves room for",
          "supplier's maximum",
          "seen to dissolve in a trial",
        ],
      },
      {
        name: "words",
        heading: "In words",
        look: "result",
        marks: MARKED,
        demo: [
          `=IF(OR({used}=0,{missingskin}=""),"",IF(LEFT({missingskin},4)="Void","${NONE}: limits are void","${NONE}: see the limits above"))`,
          `=IF({used}=0,"",IF({load}="","${NONE}: see VOC above",IF(${anyRule(UNLISTED)},"by the rules that are listed","")))`,
          `=IF(OR({used}=0,{load}<>""),"","${NONE}: ask the supplier")`,
          `=IF(OR({used}=0,{load}<>""),"","${NONE}: try it")`,
        ],
      },
      {
        name: "load",
        heading: "Load (%)",
        look: "result",
        own: 2,
        format: PERCENT,
        demo: [
          unless("{missingskin}", SAFE),
          `=IF(OR({used}=0,{missingvoc}<>"",{limits.words:voc}="${UNLISTED}",{limits.words:voc}="${NONE}"),"",IF(COUNT({looked.mostoil})=0,"not limited",` +
            'IF(MIN({looked.mostoil})=0,"none",MIN({looked.mostoil}))))',
          0.06,
          0.05,
        ],
      },
    ],
  },
  {
    list: "lowest",
    headed: false,
    lines: 1,
    columns: [
      { look: "label", demo: ["Lowest, and which"] },
      {
        name: "words",
        marks: MARKED,
        formula: `=IF({used}=0,"",IF(${IS_UNKNOWN},"${NONE}: one is not known",""))`,
      },
      {
        name: "load",
        format: PERCENT,
        spills: [1, 2],
        formula: `=IF(OR({used}=0,${IS_UNKNOWN}),"",MIST.TOPLOAD({loads.limit},{loads.load}))`,
      },
    ],
  },
  {
    text: "note",
    rows: [
      "By certificates: for these oils in these parts of the fragrance, at the worst that their ranges allow.",
      "By VOC: oil beside the most VOC of all else, in place of water.",
      'A limit that is not known must be asked for: "not limited" and "none" are words for it, a blank is not.',
    ],
  },
];
