/** The scorecard: criteria and their weights, candidates, and who wins how firmly. */
import type { Column, Part } from "../../sheets/parts.ts";
import { DEMO_CANDIDATES } from "../demo/trials.ts";
import { ofMaterial } from "../../sheets/drawn.ts";
import { HERE, hoursOf, linesOf } from "./hours.ts";

const CRITERIA: [criterion: string, way: string, weight: number][] = [
  ["Cost", "down", 0.2],
  ["Lasts on cloth", "up", 0.3],
  ["Spray", "up", 0.15],
  ["Dry-down", "up", 0.15],
  ["Smell", "up", 0.2],
];
const CANDIDATES = 6;

const table = "{card.cost:first}:{card.smell:last}";
const weighed = `${table},{criteria.weight},{criteria.way}`;
/** All that a score needs is there, and nothing on a line that has no name. */
const isReady =
  `AND({candidates}>1,{complete}={candidates},COUNT(${table})=5*{candidates},` +
  "COUNT({criteria.weight})=5,COUNTA({criteria.way})=5,SUM({criteria.weight})>0)";

const STANDING = `MIST.STANDING(${weighed})`;
/** Where there is none its error is one cell alone, and has no further lines. */
const standing = (column: number) =>
  `=IF(${isReady},IF(ISERROR(INDEX(${STANDING},1,1)),INDEX(${STANDING},1,1),INDEX(${STANDING},ROW()-ROW({card.candidate:head}),${column})),"")`;

/** Why there is no winner. A blank is unknown, and counts neither as nothing nor as free. */
const missing =
  'IF(ISERROR({card.score:first}),"No winner: hold the pointer over the score to read why.",' +
  'IF(OR({candidates}<2,COUNT({card.spray:first}:{card.smell:last})<>3*{candidates}),"Fill in the scorecard to see who wins, and how firmly.",' +
  'IF(COUNT({card.cost})<{candidates},"A candidate has no cost: what is not known is not free.",' +
  'IF(COUNT({card.cloth})<{candidates},"A candidate has no hours on cloth: read beside it why.",' +
  'IF(COUNTA({criteria.way})<5,"Say of each criterion whether more is better, or less.",' +
  'IF(COUNT({criteria.weight})<5,"A weight is blank: type 0 % where a criterion does not count.",' +
  'IF(SUM({criteria.weight})=0,"Fill in the weights.","A line of the scorecard is not complete.")))))))';

const winner = "INDEX({card.candidate},MATCH(MAX({card.score}),{card.score},0))";
const tip = (column: number) => `INDEX({tips.tip},1,${column})`;
const rival = `INDEX({card.candidate},${tip(3)})`;
const firmness =
  `IF(ISNUMBER(${tip(1)}),${rival}&" would draw level if the weight of "&INDEX({criteria.criterion},${tip(2)})&` +
  `IF(${tip(1)}>0," rose by "," fell by ")&TEXT(ABS(${tip(1)})*100,"0")&" points.","No change of a single weight would alter that.")`;
const sentence =
  `=IF(OR({candidates}=0,COUNT({card.score})<{candidates}),${missing},` +
  `IF(${tip(2)}="tie","Tied for the first place: "&${winner}&" and "&${rival}&".",${winner}&" wins. "&${firmness}))`;

const cloth = linesOf("{candidate}", "cloth", HERE);
const remark =
  '=IF({candidate}="","",TEXTJOIN(" ",TRUE,IF(ISNUMBER({cost}),"","Its cost is not known: price it in Materials, or type it."),' +
  `IF(${cloth.all}=0,"The log has no line of this base on cloth.",` +
  `IF(${cloth.counted}<${cloth.all},"A line of this base on cloth has no hours: fill it in, or take it out.",` +
  `TRIM(IF(${cloth.all}>1,${cloth.all}&" lines on cloth: their mean counts. ","")&` +
  `IF(${cloth.over}>0,"Outlasts the hours: counts as an hour longer than the longest.",""))))))`;

/** Beside the settings: what counts, and how firm the result is. */
export const criteria: Part[] = [
  {
    list: "criteria",
    beside: "settings",
    skip: 1,
    lines: CRITERIA.length,
    columns: [
      {
        name: "criterion",
        heading: "Criterion",
        look: "label",
        demo: CRITERIA.map(([criterion]) => criterion),
      },
      {
        name: "way",
        heading: "More is better, or less?",
        words: ["up", "down"],
        demo: CRITERIA.map(([, way]) => way),
      },
      {
        name: "weight",
        heading: "Weight (%)",
        format: "0%",
        limits: [0, 1],
        demo: CRITERIA.map(([, , weight]) => weight),
      },
    ],
  },
  {
    list: "tips",
    beside: "criteria",
    skip: 1,
    lines: 1,
    columns: [
      {
        name: "tip",
        heading: ["Change of weight (0 to 1)", "Criterion (number)", "Candidate (number)"],
        format: "0.00",
        spills: [1, 3],
        formula: `=IF(COUNT({card.score})=0,"",MIST.TIPPOINT(${weighed}))`,
      },
    ],
  },
  {
    under: "tips",
    gap: 1,
    apart: 3,
    fields: [
      {
        name: "candidates",
        label: "Candidates (count)",
        formula: '=SUMPRODUCT(--({card.candidate}<>""))',
        format: "0",
      },
      {
        name: "complete",
        label: "Candidates with all five (count)",
        formula:
          '=SUMPRODUCT(({card.candidate}<>"")*ISNUMBER({card.cost})*ISNUMBER({card.cloth})*ISNUMBER({card.spray})*ISNUMBER({card.drydown})*ISNUMBER({card.smell}))',
        format: "0",
      },
    ],
  },
];

const scored = (name: string, heading: string, column: 2 | 3 | 4): Column => ({
  name,
  heading,
  limits: [1, 5],
  demo: DEMO_CANDIDATES.map((line) => line[column]),
});

export const scorecard: Part[] = [
  { gap: 1, text: "section", rows: ["Scorecard"] },
  {
    text: "note",
    rows: [
      "Each criterion runs from 0, worst, to 1, best; down: less is better. Hours come from the log, by base, on cloth.",
    ],
  },
  // Beside the column that stays in sight, which would cut it off.
  { text: "note", name: "winner", skip: 1, rows: [sentence] },
  {
    list: "card",
    lines: CANDIDATES,
    end: `No score: only the ${CANDIDATES} above have one.`,
    columns: [
      {
        name: "candidate",
        heading: "Candidate",
        words: "{Materials!materials.bases}",
        demo: DEMO_CANDIDATES.map(([name]) => name),
      },
      {
        name: "cost",
        heading: "Cost ($ per fl oz)",
        format: "0.000",
        demo: DEMO_CANDIDATES.map(([, cost]) => cost),
        draw: `=${ofMaterial("perfloz", "{candidate}")}`,
      },
      {
        name: "cloth",
        heading: "Lasts on cloth (h)",
        format: "0.0",
        formula: `=${hoursOf("{candidate}", "cloth", HERE)}`,
      },
      scored("spray", "Spray (1 to 5)", 2),
      scored("drydown", "Dry-down (1 to 5)", 3),
      scored("smell", "Smell (1 to 5)", 4),
      { name: "score", heading: "Score (0 to 1)", format: "0.00", formula: standing(1) },
      { name: "place", heading: "Place", formula: standing(2) },
      { heading: "Typed over", look: "note", over: true },
      { name: "said", heading: "Said of this base", look: "note", formula: remark },
    ],
  },
];
