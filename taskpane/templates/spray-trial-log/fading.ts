/** How the chosen line of the log fades: its curve, its picture, and a sentence. */
import type { Part } from "../../sheets/parts.ts";
import { HOURS } from "./log.ts";

const chosen = (column: string) => `INDEX({log.${column}},MAX(1,SUM({shown})))`;
const marks = `INDEX({log.scores},MAX(1,SUM({shown})),0)`;
const told = (column: string) =>
  `IF(ISNUMBER(${chosen(column)}),TEXT(${chosen(column)},"0.0"),${chosen(column)})`;
const areTooHigh = `MAX(${marks})>10`;
const where = `IF(${chosen("where")}="room","in the room","on "&${chosen("where")})`;
const isOver = (column: string) => `LEFT(${chosen(column)},4)="over"`;

/** One line of the log, in a sentence for whoever reads only that. */
const fading =
  `IF(ISNUMBER(${chosen("half")}),"half of it is gone every "&TEXT(${chosen("half")},"0.0")&" h",` +
  `IF(${isOver("half")},"it does not fade within the hours","more than half of it is gone by the second hour scored"))`;
const lasting =
  `IF(ISERROR(${chosen("lasts")}),"it is too weak from the start",` +
  `IF(ISNUMBER(${chosen("lasts")}),IF(${isOver("counts")},"it is not too weak at the last hour (a guess by the curve: after ","it is too weak after ")&TEXT(${chosen("lasts")},"0.0")&IF(${isOver("counts")}," h)"," h"),` +
  `IF(${isOver("lasts")},"it is not too weak at the last of them","it is too weak in "&${chosen("lasts")}&" h")))`;
const sentence =
  `=IF(COUNT(${marks})<3,"The chosen line has fewer than three scores.",` +
  `IF(${areTooHigh},"The chosen line has a score above 10: read beside it why.",` +
  `IF(ISERROR(${chosen("half")}),"The chosen line has no half-life: hold the pointer over it to read why.",` +
  `${chosen("code")}&", "&${chosen("base")}&" with "&${chosen("oil")}&" "&${where}&": "&${fading}&` +
  `" (95 %: "&${told("halflow")}&" to "&${told("halfhigh")}&"), and "&` +
  `IF(SUM({weak})<=0,"type the score that is too weak, to see how long it lasts",${lasting})&".")))`;

/** By way of a floor that every falling curve comes to; what does not fade keeps its mean. */
const start =
  `=IF(OR(COUNT(${marks})<3,${areTooHigh},ISERROR(${chosen("half")})),"",IF(ISNUMBER(${chosen("half")}),` +
  `0.001*2^(INDEX(MIST.LASTSFOR({hours},${marks},0.001,{least},"scores"),1,1)/${chosen("half")}),` +
  `IF(${isOver("half")},AVERAGE(${marks}),INDEX(${marks},1,1))))`;

const ofHours = (write: (hour: number) => string) =>
  Array.from({ length: HOURS.length }, (_, i) => write(i + 1));
/** A score that is not there is #N/A, so that the chart leaves it out. */
const scoreAt = (hour: number) => {
  const mark = `INDEX({log.scores},MAX(1,SUM({shown})),${hour})`;
  return `=IF(ISNUMBER(${mark}),${mark},IF(COUNT(${marks})<3,"",NA()))`;
};

export const fadingParts: Part[] = [
  { gap: 1, text: "section", rows: ["How it fades"] },
  { text: "note", name: "faded", skip: 1, rows: [sentence] },
  {
    apart: 2,
    fields: [
      { name: "shown", label: "Line to draw (1 to the last)", limits: [1, 200], demo: 3 },
      {
        name: "start",
        label: "Its fitted score at the start",
        formula: start,
        format: "0.0",
        note: "(0 to 10)",
      },
    ],
  },
  {
    list: "curve",
    lines: HOURS.length,
    columns: [
      {
        name: "hour",
        heading: "Hours",
        look: "result",
        format: "0",
        demo: ofHours((i) => `=IF(INDEX({hours},1,${i})="","",INDEX({hours},1,${i}))`),
      },
      {
        name: "score",
        heading: "Score",
        look: "result",
        format: "0.0",
        demo: ofHours(scoreAt),
      },
      {
        name: "fit",
        heading: "Fitted curve",
        format: "0.0",
        formula: `=IF({start}="","",IF(ISNUMBER(${chosen("half")}),{start}*2^(-SUM({hour})/${chosen("half")}),IF(${isOver("half")},{start},IF(ROW()=ROW({curve.fit:first}),{start},0))))`,
      },
    ],
  },
  { room: "picture", beside: "curve", skip: 1, rows: HOURS.length + 1, columns: 9 },
];
