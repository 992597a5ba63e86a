import { cellName } from "../../functions/formula/addresses";
import { ofMaterial } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** Rows of the log, and of the hours that the chart is drawn from. */
const FIRST = 14;
const LAST = 19;
const HOURS = 9;
const CHART_DATA = 26;
const CARD = 44;

const line = (column: string) => `${column}$${FIRST}:${column}$${LAST}`;
const grid = `$I$${FIRST}:$Q$${LAST}`;
const chosen = (column: string) => `INDEX(${line(`$${column}`)},MAX(1,$B$22))`;
const told = (cell: string) => `IF(ISNUMBER(${cell}),TEXT(${cell},"0.0"),${cell})`;
const marks = `INDEX(${grid},MAX(1,$B$22),0)`;
const begins = (cell: string, word: string) => `LEFT(${cell},${word.length})="${word}"`;

/** One line of the log, in a sentence for whoever reads only that. */
const fading =
  `IF(ISNUMBER(${chosen("R")}),"half of it is gone every "&TEXT(${chosen("R")},"0.0")&" h",` +
  `IF(${begins(chosen("R"), "over")},"it does not fade within the hours","more than half of it is gone by the second hour scored"))`;
const lasting =
  `IF(ISERROR(${chosen("U")}),"it is too weak from the start",` +
  `IF(ISNUMBER(${chosen("U")}),"it is too weak after "&TEXT(${chosen("U")},"0.0")&" h",` +
  `IF(${begins(chosen("U"), "over")},"it is not too weak at the last of them","it is too weak in "&${chosen("U")}&" h")))`;
const fadeSentence =
  `=IF(COUNT(${marks})<3,"The chosen line has fewer than three scores.",` +
  `IF(ISERROR(${chosen("R")}),"The chosen line has no half-life: hold the pointer over it to read why.",` +
  `${chosen("A")}&", "&${chosen("B")}&" with "&${chosen("C")}&" on "&${chosen("D")}&": "&${fading}&" (95 %: "&${told(chosen("S"))}&" to "&${told(chosen("T"))}&"), and "&` +
  `IF(SUM($B$8)<=0,"type the score that is too weak, to see how long it lasts",${lasting})&"."))`;

/** The lines of a candidate on cloth, by its base and by where they were sprayed. */
const onCloth = (row: number, rule = "") => `${line("$B")},$A${row},${line("$D")},"cloth"${rule}`;
const linesOf = (row: number) => `COUNTIFS(${onCloth(row)})`;
const counted = (row: number) => `COUNTIFS(${onCloth(row, `,${line("$X")},">=0"`)})`;
const outlasting = (row: number) => `COUNTIFS(${onCloth(row, `,${line("$X")},"over*"`)})`;
/** Longer than every number there is. */
const LONGEST = `(MAX($I$13:$Q$13,${line("$X")})+1)`;
const candidates = (write: (row: number) => string) => [0, 1, 2].map((i) => [write(CARD + 5 + i)]);
const hoursOf = (row: number) =>
  `=IF($A${row}="","",IF(${linesOf(row)}=0,"no line",IF(${counted(row)}+${outlasting(row)}<${linesOf(row)},"no hours",` +
  `(SUMIFS(${line("$X")},${onCloth(row)})+${outlasting(row)}*${LONGEST})/${linesOf(row)})))`;
const remark = (row: number) =>
  `=IF($A${row}="","",IF(${linesOf(row)}=0,"The log has no line of this base on cloth.",` +
  `IF(${counted(row)}+${outlasting(row)}<${linesOf(row)},"A line of this base on cloth has no hours: fill it in, or take it out.",` +
  `TRIM(IF(${linesOf(row)}>1,${linesOf(row)}&" lines on cloth: their mean counts. ","")&IF(${outlasting(row)}>0,"Outlasts the hours: counts as an hour longer than the longest.","")))))`;

/** Why there is no winner. A blank is unknown, and counts neither as nothing nor as free. */
const missing =
  `IF(ISERROR(G${CARD + 5}),"No winner: hold the pointer over the score to read why.",` +
  `IF(COUNT(D${CARD + 5}:F${CARD + 7})<9,"Fill in the scorecard to see who wins, and how firmly.",` +
  `IF(COUNT(B${CARD + 5}:B${CARD + 7})<3,"The cost of "&IF(COUNT(B${CARD + 5})=0,A${CARD + 5},IF(COUNT(B${CARD + 6})=0,A${CARD + 6},A${CARD + 7}))&" is blank: what is not known is not free.",` +
  `IF(COUNT(C${CARD + 5}:C${CARD + 7})<3,"A candidate has no hours on cloth: read beside it why.",` +
  `IF(COUNTA(B${CARD + 3}:F${CARD + 3})<5,"Say of each criterion whether more is better, or less.",` +
  `IF(COUNT(B${CARD + 4}:F${CARD + 4})<5,"A weight is blank: type 0 % where a criterion does not count.","Fill in the weights."))))))`;

/** Hourly scores on cloth and in the air, their fading, and a scorecard. Demo data invented. */
export const template: Template = {
  title: "Spray trial log",
  use: "Blind hourly scores on cloth and in the room, how they fade, and which base wins how firmly.",
  step: 7,
  widths: [
    212, 112, 112, 74, 92, 92, 92, 92, 46, 46, 46, 46, 46, 46, 46, 46, 46, 78, 86, 86, 78, 86, 86,
    78,
  ],
  blocks: [
    { at: "A1", look: "title", rows: [["Spray trial log"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "Same load, same sprays from the same distance, same cloth, same room, doors and fans alike. Blind codes: who smells does not know which is which.",
        ],
        [
          "Fresh air and a few minutes of rest between samples; no more than six at a time. Score 0 to 10: 0 is nothing, 10 as strong as it can be.",
        ],
        [
          "A missed hour stays blank or gets a dash. A zero is a score like any other: nothing was smelled.",
        ],
      ],
    },
    {
      at: "A5",
      look: "caution",
      rows: [
        [
          "Spray a hidden spot of the cloth and of any wood first. Air moving, no flame or spark, not on skin; keep pets and children away until dry.",
        ],
      ],
    },
    {
      at: "A7",
      look: "label",
      rows: [
        ["Least score above zero"],
        ["Too weak at a score of"],
        ["Sprays on each sample (count)"],
        ["Load of all samples (%)"],
      ],
    },
    { at: "B7", look: "input", rows: [[1], [2], [3]] },
    { at: "B10", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.05]] },
    { at: "C7", look: "note", rows: [["(0 to 10)"], ["(0 to 10)"]] },
    {
      at: "I12",
      look: "note",
      rows: [["Score (0 to 10) so many hours after spraying"]],
    },
    {
      at: "A13",
      look: "heading",
      rows: [["Code", "Base", "Oil", "Where", "Spray pattern", "Film", "Dry-down", "Colour"]],
    },
    { at: "I13", look: "input", format: '0" h"', rows: [[0, 1, 2, 4, 6, 8, 12, 24, 48]] },
    {
      at: "R13",
      look: "heading",
      rows: [
        ["Half-life (h)", "low (h)", "high (h)", "Lasts (h)", "low (h)", "high (h)", "Counts (h)"],
      ],
    },
    {
      at: "A14",
      look: "input",
      rows: [
        ["K7", "Alder Clear", "Rain on Slate"],
        ["K7", "Alder Clear", "Rain on Slate"],
        ["M2", "Bluepost Soft", "Rain on Slate"],
        ["M2", "Bluepost Soft", "Rain on Slate"],
        ["T9", "Drovers Dry", "Rain on Slate"],
        ["T9", "Drovers Dry", "Rain on Slate"],
      ],
    },
    {
      at: "D14",
      look: "input",
      words: ["cloth", "room"],
      rows: [["cloth"], ["room"], ["cloth"], ["room"], ["cloth"], ["room"]],
    },
    {
      at: "E14",
      look: "input",
      words: ["fine mist", "wet", "stream", "blocked"],
      rows: [["fine mist"], ["fine mist"], ["wet"], ["wet"], ["fine mist"], ["fine mist"]],
    },
    {
      at: "F14",
      look: "input",
      words: ["none", "slight", "sticky", "oily"],
      rows: [["none"], [null], ["slight"], [null], ["none"], [null]],
    },
    {
      at: "G14",
      look: "input",
      words: ["fast", "medium", "slow"],
      rows: [["medium"], [null], ["slow"], [null], ["fast"], [null]],
    },
    {
      at: "H14",
      look: "input",
      words: ["clear", "slight tint", "tint", "cloudy"],
      rows: [["clear"], [null], ["slight tint"], [null], ["clear"], [null]],
    },
    {
      at: "I14",
      look: "input",
      rows: [
        [8, 8, 7, 6, 5, 4, 3, 1, 0],
        [8, 6, 4, 2, 1, 0, 0, null, null],
        [7, 7, 7, 6, 6, 5, 4, 3, 1],
        [7, 5, 4, 3, 2, 1, 0, null, null],
        [9, 7, 6, 4, null, 2, 1, 0, 0],
        [9, 6, 3, 1, 1, 0, 0, null, null],
      ],
    },
    {
      at: "R14",
      look: "result",
      format: "0.0",
      formula: '=IF(COUNT($I14:$Q14)<3,"",MIST.FADEHALF($I$13:$Q$13,$I14:$Q14,$B$7))',
      down: 6,
      spills: [1, 3],
    },
    {
      at: "U14",
      look: "result",
      format: "0.0",
      formula: '=IF(COUNT($I14:$Q14)<3,"",MIST.LASTSFOR($I$13:$Q$13,$I14:$Q14,$B$8,$B$7,"scores"))',
      down: 6,
      spills: [1, 3],
    },
    {
      // What the scorecard counts: the hours, nothing where it is too weak from the start, or the words.
      at: "X14",
      look: "result",
      format: "0.0",
      formula:
        '=IF(ISNUMBER($U14),$U14,IF(OR(COUNT($I14:$Q14)<3,ISERROR($R14),SUM($B$8)<=0),"",IF(ISERROR($U14),0,IF(LEFT($U14,4)="over",$U14,0))))',
      down: 6,
    },
    { at: "A21", look: "section", rows: [["How it fades"]] },
    { at: "A22", look: "label", rows: [["Line of the log to draw (1 to 6)"]] },
    { at: "B22", look: "input", limits: [1, 6], rows: [[3]] },
    { at: "D42", look: "note", rows: [[fadeSentence]] },
    { at: "A23", look: "label", rows: [["Its fitted score at the start"]] },
    {
      // By way of a floor that every falling curve comes to; what does not fade keeps its mean.
      at: "B23",
      look: "result",
      format: "0.0",
      rows: [
        [
          `=IF(OR(COUNT(${marks})<3,ISERROR(${chosen("R")})),"",IF(ISNUMBER(${chosen("R")}),0.001*2^(INDEX(MIST.LASTSFOR($I$13:$Q$13,${marks},0.001,$B$7,"scores"),1,1)/${chosen("R")}),IF(${begins(chosen("R"), "over")},AVERAGE(${marks}),INDEX(${marks},1,1))))`,
        ],
      ],
    },
    { at: "C23", look: "note", rows: [["(0 to 10)"]] },
    { at: "A25", look: "heading", rows: [["Hours", "Score", "Fitted curve"]] },
    {
      at: `A${CHART_DATA}`,
      look: "result",
      format: "0",
      rows: Array.from({ length: HOURS }, (_, i) => {
        const hour = cellName(12, 8 + i).replace(/\d+/, "$13");
        return [`=IF(${hour}="","",${hour})`];
      }),
    },
    {
      at: `B${CHART_DATA}`,
      look: "result",
      format: "0.0",
      rows: Array.from({ length: HOURS }, (_, i) => {
        const mark = `INDEX(${grid},MAX(1,$B$22),${i + 1})`;
        return [
          `=IF(ISNUMBER(${mark}),${mark},IF(COUNT(INDEX(${grid},MAX(1,$B$22),0))<3,"",NA()))`,
        ];
      }),
    },
    {
      at: `C${CHART_DATA}`,
      look: "result",
      format: "0.0",
      formula: `=IF($B$23="","",IF(ISNUMBER(${chosen("R")}),$B$23*2^(-A${CHART_DATA}/${chosen("R")}),IF(${begins(chosen("R"), "over")},$B$23,IF(ROW()=ROW(C$${CHART_DATA}),$B$23,0))))`,
      down: HOURS,
    },
    { at: `A${CARD}`, look: "section", rows: [["Scorecard"]] },
    {
      at: `A${CARD + 1}`,
      look: "note",
      rows: [
        [
          "Each criterion is laid between 0 for the worst and 1 for the best; down means that less is better. Weights are taken in proportion. Hours are looked up in the log, by base, on cloth.",
        ],
      ],
    },
    {
      at: `A${CARD + 2}`,
      look: "heading",
      rows: [
        [
          "Candidate",
          "Cost ($ per fl oz)",
          "Lasts on cloth (h)",
          "Spray (1 to 5)",
          "Dry-down (1 to 5)",
          "Smell (1 to 5)",
          "Score (0 to 1)",
          "Place",
        ],
      ],
    },
    { at: `A${CARD + 3}`, look: "label", rows: [["More is better, or less?"], ["Weight (%)"]] },
    {
      at: `B${CARD + 3}`,
      look: "input",
      words: ["up", "down"],
      rows: [["down", "up", "up", "up", "up"]],
    },
    {
      at: `B${CARD + 4}`,
      look: "input",
      format: "0%",
      limits: [0, 1],
      rows: [[0.2, 0.3, 0.15, 0.15, 0.2]],
    },
    {
      at: `A${CARD + 5}`,
      look: "input",
      rows: [["Alder Clear"], ["Bluepost Soft"], ["Drovers Dry"]],
    },
    {
      at: `B${CARD + 5}`,
      look: "input",
      format: "0.000",
      rows: [[0.482], [0.4], [0.368]],
      draw: candidates((row) => `=IF($A$${row}="","",${ofMaterial("perfloz", `$A$${row}`)})`),
    },
    {
      at: `C${CARD + 5}`,
      look: "result",
      format: "0.0",
      rows: candidates(hoursOf),
    },
    { at: `I${CARD + 5}`, look: "note", rows: candidates(remark) },
    {
      at: `D${CARD + 5}`,
      look: "input",
      limits: [1, 5],
      rows: [
        [5, 4, 4],
        [3, 2, 5],
        [5, 5, 3],
      ],
    },
    {
      at: `G${CARD + 5}`,
      look: "result",
      format: "0.00",
      formula: `=IF(OR(COUNT(B${CARD + 5}:F${CARD + 7})<15,COUNT(B${CARD + 4}:F${CARD + 4})<5,COUNTA(B${CARD + 3}:F${CARD + 3})<5,SUM(B${CARD + 4}:F${CARD + 4})=0),"",MIST.STANDING(B${CARD + 5}:F${CARD + 7},B${CARD + 4}:F${CARD + 4},B${CARD + 3}:F${CARD + 3}))`,
      spills: [3, 2],
    },
    {
      at: `A${CARD + 9}`,
      look: "note",
      rows: [
        [
          `=IF(COUNT(G${CARD + 5}:G${CARD + 7})<3,${missing},IF(B${CARD + 11}="tie","Tied for the first place: "&INDEX(A${CARD + 5}:A${CARD + 7},MATCH(MAX(G${CARD + 5}:G${CARD + 7}),G${CARD + 5}:G${CARD + 7},0))&" and "&INDEX(A${CARD + 5}:A${CARD + 7},C${CARD + 11})&".",INDEX(A${CARD + 5}:A${CARD + 7},MATCH(MAX(G${CARD + 5}:G${CARD + 7}),G${CARD + 5}:G${CARD + 7},0))&" wins. "&IF(ISNUMBER(A${CARD + 11}),INDEX(A${CARD + 5}:A${CARD + 7},C${CARD + 11})&" would draw level if the weight of "&INDEX(B${CARD + 2}:F${CARD + 2},1,B${CARD + 11})&IF(A${CARD + 11}>0," rose by "," fell by ")&TEXT(ABS(A${CARD + 11})*100,"0")&" points.","No change of a single weight would alter that.")))`,
        ],
      ],
    },
    {
      at: `A${CARD + 10}`,
      look: "heading",
      rows: [["Change of weight", "Criterion", "Candidate"]],
    },
    {
      at: `A${CARD + 11}`,
      look: "result",
      format: "0.00",
      formula: `=IF(COUNT(G${CARD + 5}:G${CARD + 7})<3,"",MIST.TIPPOINT(B${CARD + 5}:F${CARD + 7},B${CARD + 4}:F${CARD + 4},B${CARD + 3}:F${CARD + 3}))`,
      spills: [1, 3],
    },
  ],
  charts: [
    {
      title: "Fade of the chosen line",
      kind: "lines",
      unit: "score (0 to 10)",
      labels: `A${CHART_DATA}:A${CHART_DATA + HOURS - 1}`,
      series: [
        { name: "score", values: `B${CHART_DATA}:B${CHART_DATA + HOURS - 1}` },
        { name: "fitted curve", values: `C${CHART_DATA}:C${CHART_DATA + HOURS - 1}` },
      ],
      over: "D25:Q41",
    },
  ],
};
