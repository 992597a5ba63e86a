import { isTooMuchLost, recipeAndSize } from "../sheets/columns.ts";
import { densityOf, gramsOf } from "../sheets/drawn.ts";
import type { Template } from "../sheets/template.ts";

/** Recipes, sizes, and prices of the maker's own. */
const DEMO: [recipe: string, size: string, own: number | null][] = [
  ["Rain room", "2 fl oz", null],
  ["Rain room", "4 fl oz", 14],
  ["Rain room", "8 fl oz", null],
  ["Rain linen", "4 fl oz", null],
  ["Orchard body", "2 fl oz", 3.5],
  ["Orchard body", "4 fl oz", null],
  ["Rain candle", "Jar", 18],
];

const ofSize = (column: string) => `INDEX({Sizes!sizes.${column}},{sline})`;
const all = "COUNT({liquid},{packaging},{work})=3";

const asked = (margin: string, fee: string, fixed: string) =>
  `=IF(OR({cost}="",{${margin}}="",{${fee}}="",{${fixed}}=""),"",MIST.ASKPRICE({cost},{${margin}},{${fee}},{${fixed}}))`;

/** Every recipe in every size: cost, prices, what is kept, and what a price change does. */
export const template: Template = {
  title: "Price list",
  use: "Every recipe in every size: what it costs, what to ask retail and wholesale, what is kept, what a price change does.",
  words:
    "what to charge, price, retail, wholesale, profit, margin, markup, raise prices, supplier raised prices, market stall, fees, charge enough, price too low, too cheap",
  step: 11,
  widths: [
    236, 92, 92, 74, 74, 130, 74, 84, 96, 84, 84, 74, 84, 84, 84, 84, 84, 84, 84, 60, 60, 84, 60,
    96, 60, 60, 420,
  ],
  parts: [
    { text: "title", rows: ["Price list"] },
    {
      text: "note",
      rows: [
        "Pick a recipe and a size on each line: costs are drawn. Your own price counts before ours.",
        "Margin is on the price. A cost not known stays blank and is said: never taken for nothing.",
        "Wholesale is asked without fees: where there are any, Bottle cost takes them and asks more.",
      ],
    },
    {
      gap: 1,
      name: "money",
      fields: [
        { name: "hour", label: "An hour of work ($)", demo: 18, format: "0.00" },
        {
          name: "lost",
          label: "Lost of the liquid in filling (%)",
          demo: 0.03,
          format: "0.0%",
          limits: [0, 1],
        },
        {
          name: "margin",
          label: "Margin wanted, retail (%)",
          demo: 0.5,
          format: "0%",
          limits: [0, 1],
        },
        {
          name: "trade",
          label: "Margin wanted, wholesale (%)",
          demo: 0.25,
          format: "0%",
          limits: [0, 1],
        },
        {
          name: "fee",
          label: "Fees on the retail price (%)",
          demo: 0.065,
          format: "0.0%",
          limits: [0, 1],
        },
        { name: "fixed", label: "Fee on each retail sale ($)", demo: 0.3, format: "0.00" },
      ],
    },
    {
      beside: "money",
      skip: 1,
      name: "watched",
      fields: [
        { name: "shown", label: "Line to draw (1 to the last)", demo: 2, format: "0" },
        {
          name: "what",
          label: "If the landed cost of",
          words: "{Materials!materials.picks}",
          demo: "Rain on Slate",
        },
        { name: "change", label: "changes by (%)", demo: 0.2, format: "0%" },
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({prices.recipe:all}<>""))-1',
          format: "0",
          note: '=IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one is priced","see Said of this line"))',
        },
        {
          name: "counted",
          label: "Lines with a cost",
          formula: "=COUNT({prices.cost})",
          format: "0",
          note: '=IF({filled}={counted},"","or outside of the list")',
        },
        {
          name: "below",
          label: "Lines below cost",
          formula: '=COUNTIF({prices.said},"below cost*")',
          format: "0",
        },
      ],
      apart: 2,
    },
    {
      beside: "watched",
      skip: 1,
      list: "split",
      lines: 5,
      columns: [
        {
          name: "part",
          heading: "Where the money goes",
          look: "label",
          demo: ["Liquid", "Packaging", "Work", "Fees", "Kept"],
        },
        {
          name: "sum",
          heading: "Retail ($)",
          look: "result",
          format: "0.00",
          demo: ["liquid", "packaging", "work", "fees", "kept"].map(
            (key) => `=IF(OR({shown}="",SUM({shown})<1),"",INDEX({prices.${key}},{shown}))`,
          ),
        },
      ],
    },
    { room: "picture", beside: "split", skip: 2, rows: 7, columns: 5 },
    {
      gap: 1,
      list: "prices",
      lines: DEMO.length + 5,
      reach: 500,
      columns: [
        ...recipeAndSize(DEMO),
        {
          name: "grams",
          heading: "Fill of one (g)",
          format: "0.0",
          formula: `=IF(OR({recipe}="",NOT(ISNUMBER({sline}))),"",${gramsOf(ofSize("packheld"), ofSize("packin"), "{density}", ofSize("overfill"))})`,
        },
        {
          name: "liquid",
          heading: "Liquid ($)",
          format: "0.00",
          formula: `=IF(COUNT({grams},{rline})<2,"",IF(${isTooMuchLost("{lost}")},"lost?",IF({unknown}+COUNTIFS({Recipes!recipes.first},{rline},{Recipes!recipes.costpart},"no price")>0,"no price",{grams}*SUMIFS({Recipes!recipes.costpart},{Recipes!recipes.first},{rline})/(1-SUM({lost})))))`,
        },
        {
          name: "packaging",
          heading: "Packaging ($)",
          format: "0.00",
          formula: `=IF(ISNUMBER({sline}),${ofSize("pieces")},"")`,
        },
        {
          name: "work",
          heading: "Work ($)",
          format: "0.00",
          formula: `=IF(ISNUMBER({sline}),IF(OR(${ofSize("minutes")}="",{hour}=""),"minutes?",${ofSize("minutes")}/60*{hour}),"")`,
        },
        {
          name: "cost",
          heading: "Cost ($)",
          format: "0.00",
          formula: `=IF(${all},{liquid}+{packaging}+{work},"")`,
        },
        {
          name: "ask",
          heading: "Asking price, retail ($)",
          format: "0.00",
          formula: asked("margin", "fee", "fixed"),
        },
        {
          name: "own",
          heading: "Your own, retail ($)",
          format: "0.00",
          demo: DEMO.map(([, , own]) => own),
        },
        {
          name: "price",
          heading: "Retail that counts ($)",
          format: "0.00",
          formula: '=IF({own}="",{ask},{own})',
        },
        {
          name: "kept",
          heading: "Kept, retail ($)",
          format: "0.00",
          formula: '=IF(COUNT({price},{fees},{cost})=3,{price}-{fees}-{cost},"")',
        },
        {
          name: "keeprate",
          heading: "Margin kept (%)",
          format: "0%",
          formula: '=IF({kept}="","",IF({price}=0,"",{kept}/{price}))',
        },
        {
          name: "askTrade",
          heading: "Asking price, wholesale ($)",
          format: "0.00",
          formula: '=IF(OR({cost}="",{trade}=""),"",MIST.ASKPRICE({cost},{trade}))',
        },
        {
          name: "ownTrade",
          heading: "Your own, wholesale ($)",
          format: "0.00",
          demo: DEMO.map(() => null),
        },
        {
          name: "priceTrade",
          heading: "Wholesale that counts ($)",
          format: "0.00",
          formula: '=IF({ownTrade}="",{askTrade},{ownTrade})',
        },
        {
          name: "keptTrade",
          heading: "Kept, wholesale ($)",
          format: "0.00",
          formula: '=IF(COUNT({priceTrade},{cost})=2,{priceTrade}-{cost},"")',
        },
        {
          name: "then",
          heading: "Cost after the change ($)",
          format: "0.00",
          formula: '=IF({more}="","",{cost}+{more})',
        },
        {
          name: "more",
          heading: "The change adds ($)",
          format: "0.00",
          formula:
            '=IF(COUNT({change},{cost},{piecesof})=3,{change}*({grams}*SUMIFS({Recipes!recipes.costpart},{Recipes!recipes.first},{rline},{Recipes!recipes.material},{what})/(1-SUM({lost}))+{piecesof}),"")',
        },
        {
          name: "fees",
          heading: "Fees, retail ($)",
          format: "0.00",
          formula: '=IF(COUNT({price},{fee},{fixed})=3,{price}*{fee}+{fixed},"")',
        },
        {
          name: "sline",
          hidden: true,
          heading: "Line of Sizes",
          format: "0",
          formula:
            '=IF({size}="","",IF(ISERROR(MATCH({size},{Sizes!sizes.size},0)),"not in Sizes",MATCH({size},{Sizes!sizes.size},0)))',
        },
        {
          name: "piecesof",
          hidden: true,
          heading: "Pieces of that material ($)",
          format: "0.000",
          formula: `=IF(OR({what}="",NOT(ISNUMBER({sline}))),"",(${ofSize("bottle")}={what})*${ofSize("bottlecost")}+(${ofSize("sprayer")}={what})*${ofSize("sprayercost")}+(${ofSize("label")}={what})*${ofSize("labelcost")}+(${ofSize("box")}={what})*${ofSize("boxcost")})`,
        },
        {
          name: "unknown",
          hidden: true,
          heading: "Lines without a share",
          format: "0",
          // All lines less those with a number: LibreOffice takes "*?" for numbers, too.
          formula:
            '=IF(ISNUMBER({rline}),COUNTIF({Recipes!recipes.first},{rline})-COUNTIFS({Recipes!recipes.first},{rline},{Recipes!recipes.share},">=-100"),0)',
        },
        {
          name: "rline",
          hidden: true,
          heading: "Line of Recipes",
          format: "0",
          formula:
            '=IF({recipe}="","",IF(ISERROR(MATCH({recipe},{Recipes!recipes.recipe},0)),"not in Recipes",MATCH({recipe},{Recipes!recipes.recipe},0)))',
        },
        {
          name: "density",
          heading: "Density (g/mL)",
          format: "0.000",
          formula: `=IF({recipe}="","",${densityOf("{recipe}", '"density?"')})`,
        },
        {
          name: "nth",
          hidden: true,
          heading: "Found by (each size of a recipe)",
          formula: '=IF({recipe}="","",{recipe}&"|"&COUNTIF({prices.recipe:upto},{recipe}))',
        },
        {
          // Apart from what is said of prices, so that a price is soon followed through all lines.
          name: "faults",
          hidden: true,
          heading: "Said, but for prices",
          formula: `=IF({recipe}="",IF({size}="","","which recipe?"),TEXTJOIN("; ",TRUE,IF({size}="","which size?",IF(ISNUMBER({sline}),"",{sline})),IF(ISNUMBER({rline}),"",{rline}),IF({grams}="density?","density of an ingredient is not known",""),IF({grams}="overfill?","overfill of this size? see Sizes",""),IF({work}="minutes?","minutes, or an hour of work?",""),IF(${isTooMuchLost("{lost}")},"lost in filling is from 0 % to below 100 %","")))`,
        },
        // The last, so that it may run on.
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          marks: [{ begins: "below cost", mark: "over" }],
          formula:
            '=TEXTJOIN("; ",TRUE,IF({kept}<0,"below cost at retail",""),IF({keptTrade}<0,"below cost at wholesale",""),{faults},IF({liquid}="no price","an ingredient has no price, or no share",""),IF({packaging}="no price","a piece has no price",""),IF(AND(ISNUMBER({own}),ISNUMBER({ask})),"your own price; asked: "&TEXT({ask},"0.00"),""))',
        },
      ],
    },
  ],
  charts: [
    {
      title: "Where the retail price goes",
      kind: "columns",
      unit: "$ a bottle",
      labels: "{split.part}",
      series: [{ name: "of one bottle", values: "{split.sum}" }],
      over: "{picture}",
    },
  ],
  page: {
    landscape: true,
    heads: "prices",
    columns: 1,
    caution:
      "Your own figures: look up taxes and fees, and what must stand on a label, where you sell.",
    sections: { begin: ["prices.askTrade"], repeat: 2 },
  },
};
