/** The log: a line for each sample and place, scored hour by hour. */
import type { Part } from "../../sheets/parts.ts";
import { DEMO_TRIALS } from "../demo/trials.ts";

export const HOURS = [0, 1, 2, 4, 6, 8, 12, 24, 48];
const TURNS = ["1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th"];
/** Columns before the scores. */
const WORDS = 13;

const demo = <K extends keyof (typeof DEMO_TRIALS)[number]>(key: K) =>
  DEMO_TRIALS.map((line) => line[key] ?? null);

/** Typed as 7/10, a score is a day, and its number one of thousands. */
const areTooHigh = "MAX({scores})>10";
const hasScores = `AND(COUNT({scores})>2,NOT(${areTooHigh}))`;

const hour = (i: number) => `INDEX({hours},1,${i})`;
const doNotRise = HOURS.slice(1)
  .map((_, i) => `AND(ISNUMBER(${hour(i + 2)}),${hour(i + 1)}>${hour(i + 2)})`)
  .join(",");
/** Over the hours: what they are, or what is wrong with them. */
const hoursNote =
  '=IF(COUNTA({hours})>COUNT({hours}),"Hours are numbers: type 1.5 for 1:30, 24 for a whole day",' +
  'IF(COUNTIFS({hours},">0",{hours},"<0.1")>0,"An hour is below 0.1: 1:30 is a time of day, type 1.5",' +
  `IF(OR(${doNotRise}),"The hours do not rise from the first to the last",` +
  '"Hours after spraying, of each score: type over them where yours differ")))';
const fit = {
  half: "MIST.FADEHALF({hours},{scores},{least})",
  lasts: 'MIST.LASTSFOR({hours},{scores},{weak},{least},"scores")',
};
const fitted = (name: string, heading: string, of: keyof typeof fit, column: number) => ({
  name,
  heading,
  format: "0.0",
  formula:
    column === 1
      ? `=IF(${hasScores},INDEX(${fit[of]},1,1),"")`
      : `=IF(AND(${hasScores},NOT(ISERROR({${of}}))),INDEX(${fit[of]},1,${column}),"")`,
});

export const log: Part[] = [
  {
    gap: 1,
    paper: "new page",
    skip: WORDS - 5,
    text: "note",
    name: "hoursnote",
    rows: [hoursNote],
  },
  {
    block: "hours",
    beside: "hoursnote",
    skip: 4,
    look: "input",
    format: '0.0" h"',
    rows: [HOURS],
  },
  {
    list: "log",
    lines: DEMO_TRIALS.length + 6,
    reach: 200,
    columns: [
      { name: "code", heading: "Code", demo: demo("code") },
      {
        name: "base",
        heading: "Base",
        words: "{Materials!materials.bases}",
        demo: demo("base"),
      },
      {
        name: "oil",
        heading: "Oil",
        words: "{Materials!materials.picks}",
        demo: DEMO_TRIALS.map(() => "Rain on Slate"),
      },
      { name: "where", heading: "Where", words: ["cloth", "room"], demo: demo("where") },
      {
        name: "pattern",
        heading: "Spray pattern",
        words: ["fine mist", "wet", "stream", "blocked"],
        demo: demo("pattern"),
      },
      {
        name: "film",
        heading: "Film",
        words: ["none", "slight", "sticky", "oily"],
        demo: demo("film"),
      },
      {
        name: "drydown",
        heading: "Dry-down",
        words: ["fast", "medium", "slow"],
        demo: demo("drydown"),
      },
      {
        name: "colour",
        heading: "Colour",
        words: ["clear", "slight tint", "tint", "cloudy"],
        demo: demo("colour"),
      },
      {
        name: "alcohol",
        heading: "Smell of alcohol",
        words: ["none", "gone in a minute", "stays"],
        demo: demo("alcohol"),
      },
      {
        name: "gelling",
        heading: "Gelling in the open",
        words: ["none", "a skin", "gels"],
        demo: demo("gelling"),
      },
      {
        name: "stiff",
        heading: "Stiff cloth",
        words: ["soft", "a little stiff", "stiff"],
        demo: demo("stiff"),
      },
      {
        name: "floor",
        heading: "Film on floor",
        words: ["none", "slippery", "sticky"],
        demo: demo("floor"),
      },
      {
        name: "morning",
        heading: "Next morning",
        words: ["there", "faint", "gone", "smells off"],
        demo: demo("morning"),
      },
      {
        name: "scores",
        heading: TURNS.map((turn) => `${turn} (0 to 10)`),
        demo: DEMO_TRIALS.map(({ scores }) => scores),
      },
      fitted("half", "Half-life (h)", "half", 1),
      fitted("halflow", "Half-life, low (h)", "half", 2),
      fitted("halfhigh", "Half-life, high (h)", "half", 3),
      fitted("lasts", "Lasts (h)", "lasts", 1),
      fitted("lastslow", "Lasts, low (h)", "lasts", 2),
      fitted("lastshigh", "Lasts, high (h)", "lasts", 3),
      {
        // The hours, none where it is too weak from the start, or the words; beyond the last hour they are a guess.
        name: "counts",
        heading: "Counts (h)",
        format: "0.0",
        formula:
          `=IF(OR(NOT(${hasScores}),SUM({weak})<=0),"",IF(MAX({scores})=0,0,IF(ISERROR({half}),"",IF(ISERROR({lasts}),0,` +
          'IF(ISNUMBER({lasts}),IF({lasts}>MAX({hours}),"over "&MAX({hours}),{lasts}),IF(LEFT({lasts},4)="over",{lasts},0))))))',
      },
      {
        name: "said",
        heading: "Said of this line",
        look: "note",
        formula: `=IF(COUNTA({code},{base},{scores})=0,"",TEXTJOIN("; ",TRUE,IF({base}="","which base?",""),IF({where}="","cloth or room?",""),IF(COUNT({scores})<3,"fewer than three scores",IF(${areTooHigh},"a score above 10: 7/10 is a day, type 7",IF({counts}="","no hours",IF(MAX({scores})=0,"nothing smelled: 0 h",""))))))`,
      },
    ],
  },
];
