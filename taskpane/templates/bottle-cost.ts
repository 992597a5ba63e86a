import { isTooMuchLost, PERCENT, TYPED_OVER } from "../sheets/columns.ts";
import { densityOf, ofMaterial, ofSize } from "../sheets/drawn.ts";
import { PACK_UNITS } from "../sheets/pack-units.ts";
import { HELD, HELD_IN, packRead, saidOfPack } from "../sheets/read-packs.ts";
import {
  FILLED,
  held,
  MATERIAL,
  RECIPE_NOTE,
  SHARE_OF_FINISHED,
  SHARE_SAID,
  SIZED,
  SIZES,
  SIZE_HEADS,
  blankIn,
  eachSize,
  headed,
  lineOfRecipe,
} from "../sheets/sizes-across.ts";
import type { Part, Row } from "../sheets/parts.ts";
import type { Template } from "../sheets/template.ts";

const MONEY = "#,##0.00";
/** A piece that is not needed costs nothing. */
const PIECE = '#,##0.00;-#,##0.00;"none"';

/** The sizes that Price list has of the recipe; where it has none of them, the first of Sizes. */
const OF_PRICE_LIST = "COUNTIF({Price list!prices.recipe},{recipe})";
const SIZE = `=IF({recipe}="","",IF(${OF_PRICE_LIST}=0,INDEX({Sizes!sizes.size},{sizes.size:nth})&"",IFERROR(INDEX({Price list!prices.size},MATCH({recipe}&"|"&{sizes.size:nth},{Price list!prices.nth},0))&"","")))`;
const ALL_SIZES = `IF(${OF_PRICE_LIST}=0,SUMPRODUCT(--({Sizes!sizes.size}<>"")),${OF_PRICE_LIST})`;

/** What Price list has typed for the recipe in this size. */
const ownOf = (column: string) => {
  const line = `{Price list!prices.recipe},{recipe},{Price list!prices.size},{sizes.size:across}`;
  return `=IF(COUNTIFS(${line},{Price list!prices.${column}},">0")=0,"",MINIFS({Price list!prices.${column}},${line}))`;
};

/** A sum or a time that is typed for one bottle, 0 where there is none. */
const ofOne = (
  name: string,
  label: string,
  demo: number[],
  column: string,
  format = PIECE,
): Row => ({
  name,
  label,
  format,
  demo,
  draw: `=${ofSize(column, "{sizes.size:across}")}`,
  note: `=IF(${blankIn(`costs.${name}`)}=0,"","blank is not known: type 0 if there is none")`,
});

const PARTS = ["liquid", "bottle", "sprayer", "label", "box", "work"].map((name) => `{${name}}`);
const COST = "{costs.cost:across}";

/** A way to sell, with what the demo types for each size. */
interface Channel {
  /** The name of its table. */
  name: string;
  words: string;
  /** What the names of its fields begin with. */
  prefix: string;
  /** The column of Price list with the maker's own prices. */
  column: string;
  own: (number | null)[];
  sold: number[];
  /** Its margin, and its fees on the price and on each sale: what the demo types, and what draws them. */
  demo: number[];
  draws: string[];
  /** What there is to say where nothing is missing. */
  otherwise: string;
}

const ofPriceList = (name: string) => `=IF({Price list!${name}}="","",{Price list!${name}})`;

const RETAIL: Channel = {
  name: "retail",
  words: "retail",
  prefix: "",
  column: "own",
  own: [null, 14],
  sold: [60, 90, 20],
  demo: [0.5, 0.065, 0.3],
  draws: ["margin", "fee", "fixed"].map(ofPriceList),
  otherwise: '""',
};
const TRADE: Channel = {
  name: "trade",
  words: "wholesale",
  prefix: "trade",
  column: "ownTrade",
  own: [],
  sold: [20, 40, 0],
  demo: [0.25, 0, 0],
  draws: [ofPriceList("trade")],
  otherwise:
    'IF(SUM({tradefee},{tradefixed})>0,"Price list asks for less: it knows no fees of wholesale","")',
};

/** What is asked of all sizes alike; what is kept of each. */
function prices({
  name,
  words,
  prefix,
  column,
  own,
  sold,
  demo,
  draws,
  otherwise,
}: Channel): Part[] {
  const [margin, fee, fixed] = ["margin", "fee", "fixed"].map((each) => `{${prefix}${each}}`);
  const field = (at: number) => ({ demo: demo[at], ...(draws[at] && { draw: draws[at] }) });
  const isKnown = `ISNUMBER(${COST})`;
  return [
    {
      gap: 1,
      ...(name === RETAIL.name && { paper: "new page" }),
      fields: [
        {
          name: `${prefix}margin`,
          label: `Margin wanted, ${words} (%)`,
          ...PERCENT,
          ...field(0),
          note: `=IF(COUNT(${margin},${fee},${fixed})<3,"an asking price takes a margin and both fees: 0 if none",${otherwise})`,
        },
        {
          name: `${prefix}fee`,
          label: `Fees on the ${words} price (%)`,
          ...PERCENT,
          ...field(1),
        },
        {
          name: `${prefix}fixed`,
          label: `Fee on each ${words} sale ($)`,
          format: MONEY,
          ...field(2),
        },
      ],
    },
    {
      table: name,
      across: SIZES,
      heads: headed(`One bottle, ${words}`),
      over: true,
      rows: [
        {
          name: "ask",
          label: `Asking price, ${words} ($)`,
          format: MONEY,
          formula: `=IF(OR(NOT(${isKnown}),${margin}="",${fee}="",${fixed}=""),"",MIST.ASKPRICE(${COST},${margin},${fee},${fixed}))`,
        },
        {
          name: "own",
          label: `Your own ${words} price, if another ($)`,
          format: MONEY,
          demo: own,
          draw: ownOf(column),
        },
        {
          name: "price",
          label: `Price that counts, ${words} ($)`,
          format: MONEY,
          formula: '=IF({own}="",{ask},{own})',
        },
        {
          name: "fees",
          label: `Fees, ${words} ($)`,
          format: MONEY,
          formula: `=IF(NOT(ISNUMBER({price})),{price},IF(OR(${fee}="",${fixed}=""),"",{price}*${fee}+${fixed}))`,
        },
        {
          name: "kept",
          label: `Kept, ${words} ($)`,
          format: MONEY,
          formula: `=IF(AND(ISNUMBER({fees}),${isKnown}),{price}-{fees}-${COST},"")`,
        },
        {
          name: "said",
          label: `Below cost, ${words}?`,
          look: "answer",
          marks: [{ begins: "below cost", mark: "over" }],
          formula: '=IF({kept}="","",IF({kept}<-0.000001,"below cost","no"))',
        },
        {
          name: "rate",
          label: `Margin kept, on the ${words} price (%)`,
          format: "0.0%",
          formula: `=IF(OR({kept}="",SUM({price})=0),"",MIST.KEEPRATE({price},${COST},${fee},${fixed}))`,
        },
        {
          name: "markup",
          label: `The ${words} price as markup on cost (%)`,
          format: "0.0%",
          formula: `=IF(OR(NOT(ISNUMBER({price})),SUM(${COST})=0),"",({price}-${COST})/${COST})`,
        },
        {
          name: "even",
          label: `To break even, ${words} alone (count)`,
          format: "0",
          formula: `=IF(OR({kept}="",{season}=""),"",IF({kept}<=0,"never",MIST.EVENPOINT({season},{price},${COST}+${fixed},${fee})))`,
        },
        {
          name: "sold",
          label: `You expect to sell, ${words} (count)`,
          demo: sold,
          note: `=IF(SUMPRODUCT(({sizes.size}="")*({sizes.holds}="")*({${name}.sold}<>""))=0,"","not counted where there is no size")`,
        },
      ],
    },
  ];
}

/** Said over two lines, as the column that stays in sight cuts a longer one off. */
const unsold = (words: string): string =>
  `=IF(OR(ISNUMBER({profit}),COUNT({costs.cost})=0,COUNT({season},{retail.sold},{trade.sold})=0),"","${words}")`;

/** Bottles and what is kept of each: unknown where one of the two is. */
const SEASON = [RETAIL, TRADE].map(({ name }) => ({
  isOpen: `SUMPRODUCT((({sizes.size}<>"")+({sizes.holds}<>"")>0)*(ISNUMBER({${name}.kept})<>ISNUMBER({${name}.sold})))`,
  sum: `SUMPRODUCT(ISNUMBER({${name}.kept})*ISNUMBER({${name}.sold}),{${name}.kept},{${name}.sold})`,
}));
const OPEN = SEASON.map(({ isOpen }) => isOpen).join("+");

const GRAMS = `MIST.TURN(${HELD},${HELD_IN},"g",{packdensity})`;
const PER_GRAM = `=IF({landed}="",IF({material}="","","price?"),IF(NOT(ISNUMBER({landed})),"price?",IF(OR(${HELD}="",${HELD_IN}=""),"pack?",IF(${isTooMuchLost("{packlost}")},"lost?",IF(AND({packdensity}="",ISERROR(${GRAMS})),"density?",{landed}/${GRAMS}/(1-SUM({packlost})))))))`;

/** What is said of an ingredient. */
const said = (more: string) =>
  `=IF(AND({material}="",{load}=""),"",TEXTJOIN("; ",TRUE,${SHARE_SAID},IF({landed}="","no price",IF(ISNUMBER({landed}),"","its landed price: "&{landed})),IF({pergram}="pack?",IF({packsize}="","size and unit of the pack?",${saidOfPack("pack", "{packsize}", "{packunit}")}),""),IF({pergram}="lost?","lost is from 0 % to below 100 %",""),IF({pergram}="density?","a pack by volume takes the density of the ingredient",""),IF(AND(ISNUMBER({landed}),{packlost}=""),"nothing lost of the pack is counted","")${more}))`;

/** What one bottle of each size costs, what to ask, what is kept, when it pays. Demo data invented. */
export const template: Template = {
  title: "Bottle cost",
  use: "What one bottle of each size costs, line by line; its prices, retail and wholesale; what is kept, break-even and the split.",
  words:
    "cost per bottle, cost of making, candle cost, labour, my time, hourly wage, pay myself, loss when pouring, waste, packaging, fees, profit, break even, partner, share the profit, split the money",
  step: 10,
  widths: [254, 130, 84, 84, 84, 84, 84, 84, 84, 84, 84, 84, 84, 76, 76, 96, 240],
  parts: [
    { text: "title", rows: ["Bottle cost"] },
    {
      text: "note",
      rows: [
        "Pick a recipe: what is blue is drawn and may be typed over. Or type the cream cells.",
        "A pack's price is landed, freight counted. Blank is not free: type 0 where a thing costs nothing.",
        "Margin is on the price: half of a price of 20 is a margin of 50 %. Markup is on the cost.",
        "Lost is liquid that is bought and never sold. Overfill is sold: it is in the fill.",
      ],
    },
    {
      gap: 1,
      name: "settings",
      fields: [
        {
          name: "recipe",
          label: "Recipe",
          words: "{Recipes!recipes.picks}",
          demo: "Rain room",
          note: RECIPE_NOTE,
        },
        {
          name: "density",
          label: "Density of the finished spray (g/mL)",
          format: "0.000",
          demo: 0.87,
          draw: `=IF({recipe}="","",${densityOf("{recipe}")})`,
          note: '=IF({density}="","not known","")',
        },
        {
          name: "lost",
          label: "Lost of the liquid in filling (%)",
          format: "0.0%",
          limits: [0, 0.99],
          demo: 0.03,
          draw: ofPriceList("lost"),
          note: `=IF({lost}="","blank: none lost",IF(${isTooMuchLost("{lost}")},"from 0 % to below 100 %",""))`,
        },
        {
          name: "hour",
          label: "An hour of work ($)",
          format: MONEY,
          demo: 18,
          draw: ofPriceList("hour"),
          note: '=IF({hour}="","blank is not known: type 0 if it costs nothing","")',
        },
        {
          name: "filled",
          label: "Sizes filled",
          format: "0",
          formula: '=SUMPRODUCT(--((({sizes.size}<>"")+({sizes.holds}<>""))>0))',
          note: '=IF({filled}=0,"no size is filled yet",IF({filled}={counted},"every one has its cost","see where it says not known"))',
        },
        {
          name: "counted",
          label: "Sizes with a cost",
          format: "0",
          formula: "=COUNT({costs.cost})",
        },
      ],
    },
    {
      gap: 1,
      table: "sizes",
      across: SIZES,
      heads: SIZE_HEADS,
      over: true,
      rows: [
        {
          name: "size",
          label: "Size",
          words: "{Sizes!sizes.size}",
          wraps: true,
          demo: ["2 fl oz", "4 fl oz", "8 fl oz"],
          draw: SIZE,
          note: `=IF(OR({recipe}="",${ALL_SIZES}<=${SIZES}),"",${ALL_SIZES}&" sizes, ${SIZES} fit: type over one for another")`,
        },
        ...held(3),
      ],
    },
    {
      gap: 1,
      table: "costs",
      across: SIZES,
      heads: headed("What one bottle costs"),
      over: true,
      rows: [
        {
          name: "liquid",
          label: "Liquid, with what is lost ($)",
          format: MONEY,
          marks: [{ begins: "not known", mark: "lacking" }],
          formula: `=IF(${SIZED},IF(AND(ISNUMBER({sizes.fill:across}),${FILLED}>0,COUNT({liquids.cost:across})=${FILLED},NOT(${isTooMuchLost("{lost}")})),SUM({liquids.cost:across})/(1-SUM({lost})),"not known"),"")`,
          note: `=IF(COUNTIF({costs.liquid},"not known")=0,"",IF(${FILLED}=0,"no ingredient is filled in","look at the fill, at what is lost, and under Said of this line below"))`,
        },
        {
          name: "lostof",
          label: "of which lost in filling ($)",
          format: MONEY,
          formula: '=IF(ISNUMBER({liquid}),{liquid}*SUM({lost}),"")',
        },
        ofOne("bottle", "Bottle ($)", [0.65, 0.85, 1.25], "bottlecost"),
        ofOne("sprayer", "Sprayer or cap ($)", [0.38, 0.38, 0.38], "sprayercost"),
        ofOne("label", "Labels ($)", [0.12, 0.12, 0.12], "labelcost"),
        ofOne("box", "Box and filling ($)", [0, 0.3, 0.3], "boxcost"),
        ofOne(
          "minutes",
          "Work on one bottle (minutes)",
          [3, 3, 4],
          "minutes",
          '#,##0.0;-#,##0.0;"none"',
        ),
        {
          name: "work",
          label: "Work ($)",
          format: PIECE,
          marks: [{ begins: "not known", mark: "lacking" }],
          formula: `=IF(${SIZED},IF(COUNT({minutes},{hour})=2,{minutes}/60*{hour},"not known"),"")`,
        },
        {
          name: "cost",
          label: "Cost of one bottle ($)",
          format: MONEY,
          marks: [{ begins: "not known", mark: "lacking" }],
          formula: `=IF(${SIZED},IF(COUNT(${PARTS.join(",")})=${PARTS.length},SUM(${PARTS.join(",")}),"not known"),"")`,
          note: '=IF(COUNTIF({costs.cost},"not known")=0,"","a line above has words, or nothing, in place of a sum")',
        },
      ],
    },
    ...prices(RETAIL),
    ...prices(TRADE),
    {
      gap: 1,
      paper: "new page",
      name: "split",
      fields: [
        { name: "season", label: "Fixed costs of the season ($)", format: MONEY, demo: 180 },
        {
          name: "profit",
          label: "Profit of the season ($)",
          format: MONEY,
          formula: `=IF(OR({season}="",COUNT({retail.sold},{trade.sold})=0,${OPEN}>0),"",${SEASON.map(({ sum }) => sum).join("+")}-{season})`,
        },
        { name: "part", label: "First partner's part (%)", ...PERCENT, demo: 0.6 },
        {
          name: "first",
          label: "First partner ($)",
          format: MONEY,
          formula: '=IF(OR(NOT(ISNUMBER({profit})),{part}=""),"",{profit}*{part})',
        },
        {
          name: "second",
          label: "Second partner ($)",
          format: MONEY,
          formula: '=IF(ISNUMBER({first}),{profit}-{first},"")',
        },
      ],
    },
    {
      text: "note",
      name: "open",
      under: "split",
      rows: [
        unsold("Not known: type the fixed costs"),
        unsold("and the bottles of each price, 0 if none."),
      ],
    },
    { room: "picture", beside: "split", skip: 1, rows: 10, columns: 7 },
    {
      gap: 1,
      table: "fills",
      across: SIZES,
      heads: headed("Each ingredient in one bottle ($)"),
      rows: [
        {
          name: "fill",
          label: "Fill of one bottle (g)",
          format: "#,##0.0",
          formula: '=IF({sizes.fill:across}="","",{sizes.fill:across})',
        },
      ],
    },
    {
      list: "liquids",
      lines: 10,
      reach: 60,
      columns: [
        MATERIAL,
        {
          name: "cost",
          heading: eachSize((k) => `Size ${k}`),
          format: "0.000",
          formula:
            '=IF(OR({share}="",NOT(ISNUMBER({sizes.fill:across}))),"",IF(NOT(ISNUMBER({share})),"share?",IF({share}=0,0,IF(ISNUMBER({pergram}),{sizes.fill:across}*{share}*{pergram},"price?"))))',
        },
        {
          name: "load",
          heading: "Share (%)",
          format: "0.00%",
          limits: [0, 1],
          demo: [null, 0.04, 0.01],
          draw: `=IF(${lineOfRecipe("load")}="","",${lineOfRecipe("share")})`,
        },
        { name: "share", heading: "Of it all (%)", format: "0.00%", formula: SHARE_OF_FINISHED },
        {
          name: "landed",
          heading: "Landed ($)",
          format: MONEY,
          demo: [60.5, 27.4, 31.2],
          draw: `=${ofMaterial("landed", "{material}")}`,
        },
        {
          name: "packsize",
          heading: "Pack size",
          worded: true,
          demo: [1, 1, 16],
          draw: `=${ofMaterial("size", "{material}")}`,
        },
        {
          name: "packunit",
          heading: "Pack unit",
          words: PACK_UNITS,
          demo: ["gal", "lb", "oz"],
          draw: `=${ofMaterial("unit", "{material}")}`,
        },
        {
          name: "packdensity",
          heading: "Density (g/mL)",
          format: "0.000",
          demo: [0.85],
          draw: `=${ofMaterial("density", "{material}")}`,
        },
        {
          name: "packlost",
          heading: "Lost (%)",
          ...PERCENT,
          demo: [0, 0, 0],
          draw: `=${ofMaterial("lost", "{material}")}`,
        },
        {
          name: "pergram",
          heading: "$ per g",
          format: "0.0000",
          formula: PER_GRAM,
        },
        TYPED_OVER,
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          formula: said(
            ',IF(OR({material}="",COUNTIF({Materials!materials.key},{material})>0),"","not in Materials, or not in use")',
          ),
          alone: said(""),
        },
        ...packRead("{packsize}", "{packunit}"),
      ],
    },
  ],
  charts: [
    {
      title: "What one bottle costs, and its retail price",
      kind: "columns",
      unit: "$ a bottle",
      labels: "{sizes.size}",
      series: [
        { name: "cost", values: "{costs.cost}" },
        { name: "retail price", values: "{retail.price}" },
      ],
      over: "{picture}",
    },
  ],
  page: {
    landscape: true,
    heads: "liquids",
    columns: 1,
    caution:
      "Your own figures: look up taxes and fees, and what must stand on a label, where you sell.",
  },
};
