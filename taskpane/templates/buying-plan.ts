import { PACK_UNITS } from "../sheets/pack-units";
import { cellName } from "../../functions/formula/addresses";
import { ofLoad, ofMaterial, ofPack, ofRest } from "../sheets/drawn";
import type { Template } from "../sheets/template";
import type { Block } from "../sheets/block";

/** An order of the demo: who from, its freight, and up to four packs of one ingredient. */
interface DemoOrder {
  supplier: string;
  freight: number;
  freeover: number | null;
  packs: (string | number | null)[][];
}

const ORDERS: DemoOrder[] = [
  {
    supplier: "Alder Row",
    freight: 14.5,
    freeover: 75,
    packs: [
      [1, "qt", 0.85, 15.5],
      [1, "gal", 0.85, 46],
      [5, "gal", 0.85, 199],
      [null, null, null, null],
    ],
  },
  {
    supplier: "Bluepost Chandlery",
    freight: 9.75,
    freeover: 60,
    packs: [
      [4, "oz", null, 8.9],
      [8, "oz", null, 15.6],
      [1, "lb", null, 27.4],
      [null, null, null, null],
    ],
  },
  {
    supplier: "Drovers Wharf",
    freight: 8,
    freeover: null,
    packs: [
      [50, "mL", 0.94, 6.8],
      [100, "mL", 0.94, 11.9],
      [250, "mL", 0.94, 26],
      [null, null, null, null],
    ],
  },
];

/** Row of the first order, and rows from one to the next. */
const FIRST = 13;
const PITCH = 10;

/** True where an order has something to buy and a freight that is not known. */
function unpaid(i: number): string {
  const row = FIRST + i * PITCH + 2;
  return `AND(SUM(C${row})>0,D${row}="")`;
}

/** One order: its freight, its packs, and what comes of it. Rows are those of the sheet, from 1. */
function orderBlocks({ supplier, freight, freeover, packs }: DemoOrder, i: number): Block[] {
  const top = FIRST + i * PITCH;
  const need = 8 + i;
  const at = (column: string, row: number) => `${column}${top + row}`;
  const span = (column: string) => `${at(column, 4)}:${at(column, 7)}`;
  // Drawn: the material's own supplier, and its packs from there; another supplier's are left blank.
  const material = `$A$${need}`;
  const ofThis = (column: string) => `=IF(${material}="","",${ofMaterial(column, material)})`;
  const ofPacks = (column: string) =>
    packs.map((_, k) => [
      `=IF(${material}="","",IF(${ofPack("supplier", material, k + 1)}=$A$${top + 2},${ofPack(column, material, k + 1)},""))`,
    ]);
  // As LANDED compares sums of money, so that a rounding error decides nothing.
  const reached = `ROUND(${at("J", 4)},6)>=ROUND(SUM(${at("E", 2)}),6)`;
  return [
    { at: at("A", 0), look: "section", rows: [[`Order ${i + 1}`]] },
    {
      at: at("A", 1),
      look: "heading",
      rows: [
        [
          "Supplier",
          "Ingredient",
          "Needed (g)",
          "Freight of the order ($)",
          "Freight free from ($)",
        ],
      ],
    },
    { at: at("A", 2), look: "input", rows: [[supplier]], draw: [[ofThis("supplier")]] },
    { at: at("B", 2), look: "result", rows: [[`=IF(A${need}="","",A${need})`]] },
    { at: at("C", 2), look: "result", format: "#,##0.0", rows: [[`=E${need}`]] },
    {
      at: at("D", 2),
      look: "input",
      format: "#,##0.00",
      rows: [[freight, freeover]],
      draw: [[ofThis("freight"), ofThis("freefrom")]],
    },
    {
      at: at("F", 2),
      look: "note",
      rows: [[`=IF(${unpaid(i)},"Freight is blank: type 0 if it is free.","")`]],
    },
    {
      at: at("A", 3),
      look: "heading",
      rows: [
        [
          "Pack size",
          "Pack unit",
          "Density (g/mL)",
          "Price ($)",
          "Holds (g)",
          "Buy (count)",
          "Goods ($)",
        ],
      ],
    },
    {
      at: at("A", 4),
      look: "input",
      rows: packs.map(([size]) => [size]),
      draw: ofPacks("size"),
    },
    {
      at: at("B", 4),
      look: "input",
      words: PACK_UNITS,
      rows: packs.map(([, unit]) => [unit]),
      draw: ofPacks("unit"),
    },
    {
      at: at("C", 4),
      look: "input",
      format: "0.000",
      rows: packs.map(([, , density]) => [density]),
      draw: ofPacks("density"),
    },
    {
      at: at("D", 4),
      look: "input",
      format: "#,##0.00",
      rows: packs.map(([, , , price]) => [price]),
      draw: ofPacks("price"),
    },
    {
      at: at("E", 4),
      look: "result",
      format: "#,##0.0",
      formula: `=IF(${at("A", 4)}="","",MIST.TURN(${at("A", 4)},${at("B", 4)},"g",${at("C", 4)}))`,
      down: 4,
    },
    {
      at: at("F", 4),
      look: "result",
      format: "0;-0;",
      formula: `=IF(OR(SUM(${at("C", 2)})=0,${at("D", 2)}=""),"",MIST.PACKPLAN(${at("C", 2)},${span("E")},${span("D")},${at("D", 2)},${at("E", 2)}))`,
      spills: [4, 1],
    },
    {
      at: at("G", 4),
      look: "result",
      format: "#,##0.00;-#,##0.00;",
      formula: `=IF(SUM(${at("F", 4)})=0,0,${at("F", 4)}*${at("D", 4)})`,
      down: 4,
    },
    {
      at: at("I", 3),
      look: "heading",
      rows: [["This order", "$"]],
    },
    {
      at: at("I", 4),
      look: "label",
      rows: [["Goods"], ["Freight paid"], ["Short of free freight"], ["Left over (g)"]],
    },
    {
      at: at("J", 4),
      look: "result",
      format: "#,##0.00",
      rows: [
        [`=SUM(${span("G")})`],
        [`=IF(OR(${at("J", 4)}=0,AND(SUM(${at("E", 2)})>0,${reached})),0,0+${at("D", 2)})`],
        [`=IF(OR(${at("J", 4)}=0,SUM(${at("E", 2)})=0,${reached}),"",${at("E", 2)}-${at("J", 4)})`],
        [`=IF(${at("J", 4)}=0,"",SUMPRODUCT(${span("E")},${span("F")})-${at("C", 2)})`],
      ],
    },
  ];
}

const money = (row: number) =>
  ORDERS.map((_, i) => cellName(FIRST - 1 + i * PITCH + row, 9)).join("+");

/** Sheets that the needs of a recipe are drawn from. */
const SET = ["Materials", "Recipes"];
const needOf = (share: string) => `=IF(OR($H$8="",$H$9=""),"",IF(${share}="","",$H$9*${share}))`;

/** From what a size run needs to packs bought, order by order, freight counted. Demo data invented. */
export const template: Template = {
  title: "Buying plan",
  use: "From what a run needs to the packs to buy from each supplier, and where freight turns free.",
  words: "what to buy, shopping list, order, supplies, reorder, free shipping, packs, run short",
  step: 9,
  widths: [142, 132, 92, 96, 92, 74, 84, 92, 142, 84],
  blocks: [
    { at: "A1", look: "title", rows: [["Buying plan"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        ["Type over the cream cells. The needs of the run stand in Size run, under To buy (g)."],
        [
          "Each order is the cheapest there is for its packs and freight, exactly: sometimes a larger order that travels free.",
        ],
        [
          "An order is one supplier and one ingredient. If two come in one parcel, give the freight to one of them.",
        ],
        [
          "Flammable liquids have carrier rules of their own: ask the supplier what may be shipped, and how.",
        ],
        [
          "A blank freight is not known: type 0 where it is free. A blank under Extra for spills, On hand or Freight free from is none.",
        ],
      ],
    },
    {
      at: "A7",
      look: "heading",
      rows: [["Ingredient", "Run needs (g)", "Extra for spills (%)", "On hand (g)", "To buy (g)"]],
    },
    {
      at: "G8",
      look: "label",
      needs: SET,
      rows: [["Recipe"], ["Batch (g)"]],
    },
    {
      at: "H8",
      look: "input",
      needs: SET,
      words: "{Recipes!recipes.picks}",
      rows: [["Rain room"]],
    },
    { at: "H9", look: "input", needs: SET, format: "#,##0", rows: [[8188]] },
    {
      at: "G10",
      look: "note",
      needs: SET,
      rows: [["Blue is drawn; type over it."]],
    },
    {
      at: "A8",
      look: "input",
      rows: [["Alder Clear"], ["Rain on Slate"], ["Attic Cedar"]],
      draw: [
        [`=IF($H$8="","",${ofRest("material", "$H$8")})`],
        [`=IF($H$8="","",${ofLoad("material", "$H$8", 1)})`],
        [`=IF($H$8="","",${ofLoad("material", "$H$8", 2)})`],
      ],
    },
    {
      at: "B8",
      look: "input",
      format: "#,##0.0",
      rows: [[7778.6], [327.5], [81.9]],
      draw: [
        [needOf(ofRest("share", "$H$8"))],
        [needOf(ofLoad("share", "$H$8", 1))],
        [needOf(ofLoad("share", "$H$8", 2))],
      ],
    },
    { at: "C8", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.03], [0.03], [0.03]] },
    {
      at: "D8",
      look: "input",
      format: "#,##0.0",
      rows: [[null], [40], [null]],
      draw: [8, 9, 10].map((row) => [`=IF($A$${row}="","",${ofMaterial("onhand", `$A$${row}`)})`]),
    },
    {
      at: "E8",
      look: "result",
      format: "#,##0.0;-#,##0.0;",
      formula: '=IF(B8="",IF(A8="","","run needs?"),MAX(0,B8*(1+C8)-D8))',
      down: 3,
    },
    {
      at: "I7",
      look: "heading",
      rows: [["All orders", "$"]],
    },
    { at: "I8", look: "label", rows: [["Goods"], ["Freight paid"], ["Landed"]] },
    {
      at: "J8",
      look: "result",
      format: "#,##0.00",
      rows: [[`=${money(4)}`], [`=${money(5)}`], ["=J8+J9"]],
    },
    {
      at: "I11",
      look: "note",
      rows: [
        [
          `=IF(OR(SUMPRODUCT((A8:A10<>"")*(B8:B10=""))>0,${ORDERS.map((_, i) => unpaid(i)).join(",")}),"Not every order is counted.","")`,
        ],
      ],
    },
    ...ORDERS.flatMap(orderBlocks),
  ],
};
