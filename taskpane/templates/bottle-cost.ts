import { PACK_UNITS } from "../sheets/pack-units";
import { densityOf, flozOf, loadsOf, ofLoad, ofMaterial, ofRest, ofSize } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** True where a column of prices is left alone, or has all that a price needs. */
const settled = (column: string) => {
  const [margin, rate, fee, own] = [36, 37, 38, 40].map((row) => `${column}${row}`);
  return `OR(COUNT(${margin}:${fee},${own})=0,AND(COUNT(${rate}:${fee})=2,COUNT(${margin},${own})>0))`;
};

const PRICE_NOTE = `=IF(OR(NOT(ISNUMBER(B33)),AND(${settled("B")},${settled("C")})),"","A price needs a margin or your own sum, and both fees: 0 if none.")`;

/** Sheets that one bottle is drawn from, and lines for oils. */
const SET = ["Materials", "Recipes", "Sizes"];
const OILS = 4;
const oils = (formula: (k: number) => string) =>
  Array.from({ length: OILS }, (_, i) => [formula(i + 1)]);
const ofLines = (column: string) =>
  Array.from({ length: OILS + 1 }, (_, i) => [
    `=IF($A${15 + i}="","",${ofMaterial(column, `$A${15 + i}`)})`,
  ]);

/** What one bottle costs, what to ask for it, when it pays, and who gets what. Demo data invented. */
export const template: Template = {
  title: "Bottle cost",
  use: "Materials, packaging, labour and fees of one bottle; its price, break-even and the split.",
  words:
    "cost per bottle, cost of making, candle cost, labour, my time, packaging, fees, profit, break even",
  step: 10,
  widths: [236, 96, 96, 74, 66, 76, 86, 92],
  blocks: [
    { at: "A1", look: "title", rows: [["Bottle cost"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "Type over the cream cells. Pack prices are landed prices, freight counted: take them from Base comparison.",
        ],
        [
          "Margin is on the price: half of a price of 20 is a margin of 50 %. Markup on cost is shown beside it; the two are not the same.",
        ],
        ["Lost is liquid that is bought and never sold. Overfill is sold: it is in the fill."],
        ["Blank is not free, and not known: type 0 where a thing costs nothing."],
      ],
    },
    { at: "A6", look: "section", rows: [["The bottle"]] },
    {
      at: "A7",
      look: "label",
      rows: [
        ["Bottle size"],
        ["Density of the finished spray"],
        ["Overfill of the stated volume"],
        ["Lost of the liquid"],
        ["Fill of one bottle"],
      ],
    },
    { at: "E7", look: "label", needs: SET, rows: [["Recipe"], ["Size"]] },
    {
      at: "F7",
      look: "input",
      needs: SET,
      words: "{Recipes!recipes.picks}",
      rows: [["Rain room"]],
    },
    { at: "F8", look: "input", needs: SET, words: "{Sizes!sizes.size}", rows: [["4 fl oz"]] },
    {
      at: "E9",
      look: "note",
      needs: SET,
      rows: [
        [
          `=IF(F7="","pick a recipe and a size",IF(${loadsOf("F7")}>${OILS},"More than ${OILS} oils: not all of this recipe is here.",IF(B8="","The density of this recipe is not known.","what is blue is drawn; type over it")))`,
        ],
      ],
    },
    { at: "B7", look: "input", rows: [[4]], draw: [[`=IF($F$8="","",${flozOf("$F$8", "B8")})`]] },
    {
      at: "B8",
      look: "input",
      format: "0.000",
      rows: [[0.87]],
      draw: [[`=IF($F$7="","",${densityOf("$F$7")})`]],
    },
    {
      at: "B9",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [[0.02], [0.03]],
      draw: [
        [`=IF($F$8="","",${ofSize("overfill", "$F$8")})`],
        ['=IF({Price list!lost}="","",{Price list!lost})'],
      ],
    },
    {
      at: "B11",
      look: "result",
      format: "#,##0.0",
      rows: [['=IF(OR(B7="",B8=""),"",MIST.FILLWEIGHT(B7,"floz",B8,B9))']],
    },
    {
      at: "C7",
      look: "note",
      rows: [
        ["US fl oz"],
        ["g/mL"],
        ['=IF(OR(B7="",B9<>""),"","none: filled to the mark")'],
        ['=IF(OR(B7="",B10<>""),"","none lost")'],
        ['=IF(ISERROR(B11),"g: look at size and density","g")'],
      ],
    },
    { at: "A13", look: "section", rows: [["What goes in"]] },
    {
      at: "A14",
      look: "heading",
      rows: [
        [
          "Ingredient",
          "Share of the batch (%)",
          "Landed pack ($)",
          "Pack size",
          "Pack unit",
          "Density (g/mL)",
          "Cost ($ per g)",
          "In a bottle ($)",
        ],
      ],
    },
    {
      at: "A15",
      look: "input",
      rows: [["Alder Clear (base)"], ["Rain on Slate"], ["Attic Cedar"], [null], [null]],
      draw: [
        [`=IF($F$7="","",${ofRest("material", "$F$7")})`],
        ...oils((k) => `=IF($F$7="","",${ofLoad("material", "$F$7", k)})`),
      ],
    },
    { at: "B15", look: "result", format: "0.00%", rows: [["=1-SUM(B16:B19)"]] },
    {
      at: "B16",
      look: "input",
      format: "0.00%",
      limits: [0, 1],
      rows: [[0.04], [0.01], [null], [null]],
      draw: oils((k) => `=IF($F$7="","",${ofLoad("share", "$F$7", k)})`),
    },
    {
      at: "C15",
      look: "input",
      format: "#,##0.00",
      rows: [[60.5], [27.4], [31.2], [null], [null]],
      draw: ofLines("landed"),
    },
    {
      at: "D15",
      look: "input",
      rows: [[1], [1], [16], [null], [null]],
      draw: ofLines("size"),
    },
    {
      at: "E15",
      look: "input",
      words: PACK_UNITS,
      rows: [["gal"], ["lb"], ["oz"], [null], [null]],
      draw: ofLines("unit"),
    },
    {
      at: "F15",
      look: "input",
      format: "0.000",
      rows: [[0.85], [null], [null], [null], [null]],
      draw: ofLines("density"),
    },
    {
      at: "G15",
      look: "result",
      format: "0.0000",
      formula: '=IF(C15="","",C15/MIST.TURN(D15,E15,"g",F15))',
      down: 5,
    },
    {
      at: "H15",
      look: "result",
      format: "0.000",
      formula:
        '=IF($B$11="","",IF(B15="",IF(AND(A15="",C15=""),"","share?"),IF(C15="",IF(B15=0,"","price?"),$B$11*B15*G15/(1-$B$10))))',
      down: 5,
    },
    { at: "A21", look: "section", rows: [["Around it"]] },
    {
      at: "A22",
      look: "label",
      rows: [
        ["Bottle ($)"],
        ["Sprayer or cap ($)"],
        ["Labels ($)"],
        ["Box and filling ($)"],
        ["Work on one bottle (minutes)"],
        ["An hour of work ($)"],
      ],
    },
    {
      at: "B22",
      look: "input",
      format: "#,##0.00",
      rows: [[0.85], [0.38], [0.12], [0.3], [3], [18]],
      draw: [
        ...["bottlecost", "sprayercost", "labelcost", "boxcost", "minutes"].map((column) => [
          `=IF($F$8="","",${ofSize(column, "$F$8")})`,
        ]),
        ['=IF({Price list!hour}="","",{Price list!hour})'],
      ],
    },
    {
      at: "C22",
      look: "note",
      formula: '=IF(OR($B$7="",B22<>""),"","type 0 if there is none")',
      down: 6,
    },
    { at: "A29", look: "section", rows: [["What one bottle costs"]] },
    {
      at: "A30",
      look: "label",
      rows: [["Liquid ($)"], ["Packaging ($)"], ["Labour ($)"], ["Cost of one bottle ($)"]],
    },
    {
      at: "B30",
      look: "result",
      format: "#,##0.00",
      rows: [
        ['=IF(B11="","",MIST.BOTTLECOST(B11,B15:B19,G15:G19,0,B10))'],
        ['=IF(COUNT(B22:B25)<4,"",SUM(B22:B25))'],
        ['=IF(COUNT(B26:B27)<2,"",B26/60*B27)'],
        ['=IF(OR(B30="",B31="",B32=""),"",B30+B31+B32)'],
      ],
    },
    {
      at: "C30",
      look: "note",
      formula: '=IF(OR($B$7="",ISNUMBER(B30)),"","not known: see above")',
      down: 4,
    },
    { at: "A35", look: "heading", rows: [["What to ask for it", "Retail", "Wholesale"]] },
    {
      at: "A36",
      look: "label",
      rows: [
        ["Margin wanted, on the price (%)"],
        ["Fees on the price (%)"],
        ["Fee on each sale ($)"],
        ["Asking price ($)"],
        ["Your own price, if another ($)"],
        ["Price that counts ($)"],
        ["Fees of one bottle ($)"],
        ["Kept of one bottle ($)"],
        ["Margin kept, on the price (%)"],
        ["The price as markup on cost (%)"],
      ],
    },
    {
      at: "B36",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [
        [0.5, 0.25],
        [0.065, 0],
      ],
    },
    {
      at: "B38",
      look: "input",
      format: "#,##0.00",
      rows: [[0.3, 0]],
    },
    {
      at: "B39",
      look: "result",
      format: "#,##0.00",
      formula: '=IF(OR($B$33="",B36="",B37="",B38=""),"",MIST.ASKPRICE($B$33,B36,B37,B38))',
      across: 2,
    },
    { at: "B40", look: "input", format: "#,##0.00", rows: [[14, null]] },
    {
      at: "B41",
      look: "result",
      format: "#,##0.00",
      formula: '=IF(B40="",B39,B40)',
      across: 2,
    },
    {
      at: "B42",
      look: "result",
      format: "#,##0.00",
      formula: '=IF(OR(B41="",B37="",B38=""),"",B41*B37+B38)',
      across: 2,
    },
    {
      at: "B43",
      look: "result",
      format: "#,##0.00",
      formula: '=IF(OR(B42="",$B$33=""),"",B41-B42-$B$33)',
      across: 2,
    },
    {
      at: "B44",
      look: "result",
      format: "0.0%",
      formula: '=IF(B43="","",MIST.KEEPRATE(B41,$B$33,B37,B38))',
      across: 2,
    },
    {
      at: "B45",
      look: "result",
      format: "0.0%",
      formula: '=IF(OR(B41="",$B$33=""),"",(B41-$B$33)/$B$33)',
      across: 2,
    },
    { at: "A46", look: "note", rows: [[PRICE_NOTE]] },
    { at: "A47", look: "section", rows: [["When it pays, and who gets what"]] },
    {
      at: "A48",
      look: "label",
      rows: [
        ["Fixed costs of the season ($)"],
        ["Bottles to break even (count)"],
        ["Bottles you expect to sell (count)"],
        ["Profit of the season ($)"],
        ["First partner's part (%)"],
        ["First partner ($)"],
        ["Second partner ($)"],
      ],
    },
    { at: "B48", look: "input", format: "#,##0.00", rows: [[180]] },
    {
      at: "B49",
      look: "result",
      formula: '=IF(OR(B43="",$B$48=""),"",MIST.EVENPOINT($B$48,B41,$B$33+B38,B37))',
      across: 2,
    },
    { at: "B50", look: "input", rows: [[90, 40]] },
    {
      at: "B51",
      look: "result",
      format: "#,##0.00",
      rows: [
        [
          '=IF(OR((B43="")<>(B50=""),(C43="")<>(C50=""),COUNT(B50:C50)=0,B48=""),"",IF(B50="",0,B50*B43)+IF(C50="",0,C50*C43)-B48)',
        ],
      ],
    },
    {
      at: "C51",
      look: "note",
      rows: [
        [
          '=IF(OR(ISNUMBER(B51),NOT(ISNUMBER(B33)),COUNT(B48,B50:C50)=0),"","Not known: type the fixed costs and the bottles of each price, 0 if none.")',
        ],
      ],
    },
    { at: "B52", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.6]] },
    {
      at: "B53",
      look: "result",
      format: "#,##0.00",
      rows: [['=IF(OR(B51="",B52=""),"",B51*B52)'], ['=IF(B53="","",B51-B53)']],
    },
    { at: "E29", look: "section", rows: [["Retail price, part by part ($)"]] },
    {
      at: "E30",
      look: "label",
      rows: [["Liquid"], ["Packaging"], ["Labour"], ["Fees"], ["Kept"]],
    },
    {
      at: "G30",
      look: "result",
      format: "#,##0.00",
      rows: [["=B30"], ["=B31"], ["=B32"], ["=B42"], ["=B43"]],
    },
  ],
  charts: [
    {
      title: "What the retail price is made of",
      kind: "bars",
      unit: "$ of one bottle",
      labels: "E30:E34",
      series: [{ name: "$ of one bottle", values: "G30:G34" }],
      over: "D36:H49",
    },
  ],
};
