/** One order for each supplier: its goods, its freight once, and whether it is proven the cheapest. */
import { TYPED_OVER } from "../../sheets/columns.ts";
import { ofMaterial } from "../../sheets/drawn.ts";
import type { Part } from "../../sheets/parts.ts";

const ORDERS = 6;

const DEMO: [supplier: string, freight: number, freefrom: number | null][] = [
  ["Alder Row", 14.5, 75],
  ["Bluepost Chandlery", 9.75, 60],
  ["Drovers Wharf", 8, null],
];

const K = "(ROW()-ROW({orders.supplier:head}))";

/** Lines of Materials of this supplier that are no mere samples, and that say something of their freight. */
const LINES =
  '{Materials!materials.supplier},{supplier},{Materials!materials.standing},"<>sample only"';
const count = (column: string) => `COUNTIFS(${LINES},{Materials!materials.${column}},">=0")`;
const highest = (column: string) => `MAXIFS({Materials!materials.${column}},${LINES})`;
const lowest = (column: string) => `MINIFS({Materials!materials.${column}},${LINES})`;

/** The highest, and words beside it where the lines of Materials differ. */
const drawn = (column: string) =>
  `=IF({supplier}="","",IF(${count(column)}=0,"",${highest(column)}))`;
const differs = (column: string) =>
  `AND(${count(column)}>0,OR(${count(column)}<COUNTIFS(${LINES}),${lowest(column)}<${highest(column)}))`;

const UNLIKE = `IF(OR(${differs("freight")},${differs("freefrom")}),"freights differ: the highest is taken","")`;

const LEAST = "SUMIFS({lines.plain},{lines.from},{supplier})";
const MATERIALS = "COUNTIF({lines.wants},{supplier})";
const MISSING = 'COUNTIFS({lines.from},{supplier},{lines.missing},"?*")';
const LEFT_OUT = "COUNTIFS({lines.from},{supplier},{lines.leftout},1)";

const FREE_FROM = "ROUND(SUM({freefrom}),6)";
const REACHED = `AND(SUM({freefrom})>0,ROUND({goods},6)>=${FREE_FROM})`;

/**
 * No order costs less than the goods at their least, and none that travels free less than the sum from which it
 * does. One material is planned exactly, freight and all.
 */
const PROVEN = `OR(${MATERIALS}<=1,SUM({freefrom})<=0,ROUND({landed},6)<=MAX(${FREE_FROM},ROUND(${LEAST},6)),ROUND(${LEAST}+{freight},6)<=${FREE_FROM})`;

const said = (more: string) =>
  `=IF({supplier}="","",IF(NOT(ISNUMBER({goods})),"freight is blank: type 0 if it is free; the order is not counted",TEXTJOIN("; ",TRUE,IF(${MISSING}>0,"not all of it: "&${MISSING}&" not counted",""),IF(${MATERIALS}=0,"nothing to buy",IF(${MISSING}>0,"",IF(${PROVEN},"the cheapest of these packs, proven","not proven the cheapest: $ "&TEXT({landed}-SUM({freefrom}),"0.00")&" less at most"))),IF(${LEFT_OUT}>0,"packs that are left out: "&${LEFT_OUT},"")${more})))`;

/** What is to buy and not counted, by name. */
function notCounted(...columns: string[]): string {
  const isThere = columns.map((column) => `COUNTIF(${column},"?*")`).join("+");
  return `=IF(${isThere}=0,"","Not counted: "&TEXTJOIN(", ",TRUE,${columns.join(",")}))`;
}

/** Of the materials on the lines, those that are below their least to keep. */
const LOW_HERE =
  "SUMPRODUCT(ISNUMBER({lines.onhand})*ISNUMBER({lines.least})*({lines.onhand}<{lines.least}))";

const known = (formula: string) => `=IF(ISNUMBER({goods}),${formula},"")`;

export const ORDER_PARTS: Part[] = [
  {
    gap: 1,
    list: "orders",
    lines: ORDERS,
    columns: [
      {
        name: "supplier",
        heading: "Order from",
        demo: DEMO.map(([supplier]) => supplier),
        draw: `=IF(${K}>COUNT({lines.turn}),"",${ofMaterial("supplier", `INDEX({lines.material},MATCH(${K},{lines.turn},0))`)})`,
      },
      {
        name: "freight",
        heading: "Freight of the order ($)",
        format: "#,##0.00",
        demo: DEMO.map(([, freight]) => freight),
        draw: drawn("freight"),
      },
      {
        name: "freefrom",
        heading: "Freight free from ($)",
        format: "#,##0.00",
        demo: DEMO.map(([, , freefrom]) => freefrom),
        draw: drawn("freefrom"),
      },
      {
        name: "goods",
        heading: "Its goods ($)",
        format: "#,##0.00",
        formula:
          '=IF(OR({supplier}="",NOT(ISNUMBER({freight}))),"",IF({freight}<0,"",SUMIFS({lines.goods},{lines.from},{supplier})))',
      },
      {
        name: "paid",
        heading: "Freight paid ($)",
        format: "#,##0.00",
        formula: known(`IF(OR({goods}=0,${REACHED}),0,{freight})`),
      },
      {
        name: "landed",
        heading: "Landed ($)",
        format: "#,##0.00",
        formula: '=IF(COUNT({goods},{paid})=2,{goods}+{paid},"")',
      },
      {
        name: "short",
        heading: "Short of free freight ($)",
        format: "#,##0.00",
        formula: known(
          `IF(OR({goods}=0,SUM({freefrom})<=0,${REACHED}),"",SUM({freefrom})-{goods})`,
        ),
      },
      {
        name: "said",
        heading: "Said of this order",
        look: "note",
        marks: [
          { begins: "not proven", mark: "doubt" },
          { begins: "not all", mark: "doubt" },
          { begins: "freight is blank", mark: "doubt" },
        ],
        formula: said(`,${UNLIKE}`),
        alone: said(""),
      },
      { heading: [null, null, null, null, null, null, null] },
      TYPED_OVER,
    ],
  },
  { text: "label", name: "all", rows: ["All orders"] },
  {
    block: "totals",
    look: "result",
    format: "#,##0.00",
    beside: "all",
    skip: 2,
    rows: [["=SUM({orders.goods})", "=SUM({orders.paid})", "=SUM({orders.landed})"]],
  },
  {
    block: "notcounted",
    look: "caution",
    beside: "totals",
    rows: [[notCounted("{lines.missing}", "{takes.absent}")]],
    alone: notCounted("{lines.missing}"),
  },
  {
    needs: ["Materials", "Recipes", "Sizes"],
    block: "more",
    look: "note",
    skip: 1,
    rows: [
      [
        '=IF(SUM({takes.count})>COUNT({takes.count}),"More ingredients in all than this sheet looks at: make a second plan for some of the runs.",IF(COUNTIF({takes.absent},"?*")>0,"What the runs need is not all on the lines below: copy the last line down for more.",""))',
      ],
      [
        `=IF({Materials!low}>${LOW_HERE},"Materials has "&({Materials!low}-${LOW_HERE})&" more below the least to keep: type them on spare lines to buy them, too.","")`,
      ],
    ],
  },
];
