import { DEMO_KINDS, DEMO_RECIPES } from "./demo/recipes.ts";
import { saidOfName } from "../sheets/columns.ts";
import type { Column } from "../sheets/parts.ts";
import type { Template } from "../sheets/template.ts";

const demo = <K extends keyof (typeof DEMO_RECIPES)[number]>(key: K) =>
  DEMO_RECIPES.map((line) => line[key] ?? null);

/** What the line's material has in a column of Materials, or nothing. */
const drawn = (column: string) =>
  `IF(ISNUMBER({line}),IF(INDEX({Materials!materials.${column}},{line})="","",INDEX({Materials!materials.${column}},{line})),"")`;

/** What is typed on one line of the recipe, whichever it is. */
const ofRecipe = (column: string, key: string, none: string) =>
  `=IF({recipe}="","",IF(COUNTIF({recipes.${key}},{recipe})=0,${none},INDEX({recipes.${column}},MATCH({recipe},{recipes.${key}},0))))`;

/** What the certificate of the line's oil says for its kind, and what the base of its recipe takes at most. */
const LIMIT = "INDEX({Materials!materials.limits},{line},{kindline})";
const BASE_TAKES = "INDEX({recipes.takes},MATCH({recipe},{recipes.rest},0))";

/** What the maker types for the kind of the recipe. A MIN passes over a blank cell. */
const ofKind = (column: string) => `INDEX({kinds.${column}},{kindline})`;

const hidden = (name: string, heading: string, formula: string): Column => {
  return { name, hidden: true, heading, formula };
};

const percent = (value: string) => `TEXT(${value},"0.0#%")`;

/** On the line of the base: whether all oils together are within the span, and within what it takes. */
const SPAN_SAID = `IF(SUM({oils})<=0,"",TEXTJOIN("; ",TRUE,IF(AND(ISNUMBER({takes}),{oils}>SUM({takes})+0.0000001),"over what this base takes: "&${percent("{oils}")}&" of oils, at most "&${percent("{takes}")},""),IF(AND(ISNUMBER({mostof}),{oils}>SUM({mostof})+0.0000001),"over your span: "&${percent("{oils}")}&" of oils, at most "&${percent("{mostof}")},IF(AND(ISNUMBER({leastof}),{oils}<SUM({leastof})-0.0000001),"under your span: "&${percent("{oils}")}&" of oils, from "&${percent("{leastof}")},""))))`;

/** Recipes, one line for each ingredient: sizes, costs, limits and bench sheets draw from them. */
export const template: Template = {
  title: "Recipes",
  use: "Recipes, one line an ingredient, any number of them: loads, kinds, the highest load of each kind.",
  words:
    "recipe, formula, room spray, linen spray, body spray, diffuser, candle, wax, wick, new product, new scent, percentages",
  step: 2,
  widths: [
    144, 92, 140, 90, 84, 92, 96, 92, 92, 92, 92, 92, 92, 188, 290, 84, 74, 60, 150, 110, 110, 110,
    110, 60, 60, 120,
  ],
  parts: [
    { text: "title", rows: ["Recipes"] },
    {
      text: "note",
      rows: [
        "One line for each ingredient. Leave the load of the base, or of the wax, blank: it is the rest. Type a load as 5 %, not 5.",
        "Type Kind, Load of and a measured density once a recipe. 5 % of the base, or wax, is not 5 % of the finished batch.",
        "The same scent in wax and in spray is two recipes of one oil. Type under the last line for more.",
      ],
    },
    {
      text: "caution",
      rows: [
        "A load that smells right may be over what skin or wax allows: the certificate and the data sheet decide.",
      ],
    },
    {
      gap: 1,
      list: "kinds",
      lines: DEMO_KINDS.length,
      columns: [
        { name: "kind", heading: "Kind", look: "label", demo: DEMO_KINDS.map(([kind]) => kind) },
        {
          name: "least",
          heading: "Your least load (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: DEMO_KINDS.map(([, least]) => least),
        },
        {
          name: "most",
          heading: "Your highest load (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: DEMO_KINDS.map(([, , most]) => most),
        },
        {
          name: "strong",
          heading: "Highest with a strong oil (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: DEMO_KINDS.map(([, , , strong]) => strong),
        },
        {
          heading: "Where these come from",
          look: "note",
          demo: DEMO_KINDS.map(() => "common practice, no source: type your own"),
        },
      ],
    },
    {
      beside: "kinds",
      skip: 2,
      apart: 2,
      fields: [
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({recipes.recipe:all}<>""))-1',
          format: "0",
          note: '=IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one has its share","with a share: "&{counted}&"; look under Said of this line, and above the first and below the last one that is counted"))',
        },
        {
          name: "counted",
          label: "Lines with a share",
          formula: "=COUNT({recipes.share})",
          format: "0",
        },
        { name: "howmany", label: "Recipes", formula: "=COUNT({recipes.turn})", format: "0" },
      ],
    },
    {
      gap: 1,
      list: "recipes",
      lines: DEMO_RECIPES.length + 5,
      reach: 2000,
      columns: [
        { name: "recipe", heading: "Recipe", demo: demo("recipe") },
        {
          name: "kind",
          heading: "Kind",
          words: DEMO_KINDS.map(([kind]) => kind),
          demo: demo("kind"),
        },
        {
          name: "material",
          heading: "Material",
          words: "{Materials!materials.picks}",
          demo: demo("material"),
        },
        { name: "load", heading: "Load (%)", format: "0.0%", limits: [0, 1], demo: demo("load") },
        { name: "of", heading: "Load of", words: ["finished", "base"], demo: demo("of") },
        {
          name: "measured",
          heading: "Density measured (g/mL)",
          format: "0.000",
          demo: DEMO_RECIPES.map(() => null),
        },
        { name: "what", heading: "What it is", formula: `=${drawn("what")}` },
        {
          name: "share",
          heading: "Of the finished batch (%)",
          format: "0.00%",
          formula:
            '=IF(OR({recipe}="",{material}=""),"",IF(AND({basis}<>"finished",{basis}<>"base"),{basis},IF(NOT(ISNUMBER({total})),{total},IF({basis}="base",IF({load}="",1,{load})/(1+{total}),IF({load}="",1-{total},{load})))))',
        },
        {
          name: "costpart",
          heading: "In one gram ($)",
          format: "0.00000",
          formula:
            '=IF(ISNUMBER({share}),IF({share}=0,0,IF(ISNUMBER({line}),IF(ISNUMBER(INDEX({Materials!materials.perg},{line})),{share}*INDEX({Materials!materials.perg},{line}),"no price"),"no price")),"")',
        },
        {
          name: "volumepart",
          heading: "In one gram (mL)",
          format: "0.000",
          formula:
            '=IF(NOT(ISNUMBER({share})),"",IF({share}=0,0,IF(ISNUMBER({line}),IF(SUM(INDEX({Materials!materials.density},{line}))>0,{share}/INDEX({Materials!materials.density},{line}),"no density"),"no density")))',
        },
        {
          name: "limit",
          heading: "Certificate limit (%)",
          format: "0.0%",
          formula: `=IF(OR({what}<>"fragrance oil",{kindline}=""),"",IF(${LIMIT}="","not known",IF(ISNUMBER(${LIMIT}),${LIMIT},IF(${LIMIT}="not limited","not limited",IF(${LIMIT}="not approved",0,"not known")))))`,
        },
        {
          name: "basemax",
          heading: "Base takes at most (%)",
          format: "0.0%",
          formula: `=IF(OR({load}="",{what}<>"fragrance oil"),"",IF(ISNUMBER(${BASE_TAKES}),${BASE_TAKES},"not known"))`,
        },
        {
          name: "highest",
          heading: "Highest load (%)",
          format: "0.0%",
          formula:
            '=IF(OR({load}="",{kindline}="",COUNT({limit},{basemax},{mostof})=0),"",MIN({limit},{basemax},{mostof}))',
        },
        {
          name: "setby",
          heading: "Set by",
          formula:
            '=IF({highest}="","",TEXTJOIN(", ",TRUE,IF({limit}={highest},"the certificate",""),IF({basemax}={highest},"the base",""),IF({mostof}={highest},IF(SUM({strongs})>0,"your span, a strong oil","your span"),""),IF({limit}="not known","certificate not known",""),IF({basemax}="not known","base not known","")))',
        },
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          marks: [{ begins: "over", mark: "over" }],
          formula: '=IF({costpart}="no price",TEXTJOIN("; ",TRUE,{faults},"no price"),{faults})',
        },
        {
          name: "rests",
          hidden: true,
          heading: "Lines that are the rest",
          format: "0",
          formula: '=IF({recipe}="","",COUNTIF({recipes.rest},{recipe}))',
        },
        {
          name: "line",
          hidden: true,
          heading: "Line of Materials",
          format: "0",
          formula:
            '=IF({material}="","",IF(ISERROR(MATCH({material},{Materials!materials.key},0)),"not in Materials, or not in use",MATCH({material},{Materials!materials.key},0)))',
        },
        {
          name: "total",
          hidden: true,
          heading: "All loads (%)",
          format: "0.0%",
          formula:
            '=IF({recipe}="","",IF(SUMPRODUCT(({recipes.first}={first})*ISTEXT({recipes.load})*({recipes.load}<>""))>0,"one of its loads is words: type a percent",IF(COUNTIFS({recipes.first},{first},{recipes.load},">1")+COUNTIFS({recipes.first},{first},{recipes.load},"<0")>0,"one of its loads is not from 0 % to 100 %",IF(AND({basis}="finished",SUMIFS({recipes.load},{recipes.first},{first})>1.0000001),"loads are over 100 %",SUMIFS({recipes.load},{recipes.first},{first})))))',
        },
        {
          name: "basis",
          hidden: true,
          heading: "Load of (drawn)",
          formula: ofRecipe("of", "ofkey", '"finished or base?"'),
        },
        {
          name: "nthin",
          hidden: true,
          heading: "Line of the recipe",
          format: "0",
          formula: '=IF({recipe}="","",COUNTIF({recipes.recipe:upto},{recipe}))',
        },
        {
          name: "nth",
          hidden: true,
          heading: "Found by (each line)",
          formula: '=IF({recipe}="","",{recipe}&"|"&{nthin})',
        },
        {
          name: "loadnth",
          hidden: true,
          heading: "Found by (each load)",
          formula:
            '=IF(OR({recipe}="",{load}=""),"",{recipe}&"|"&COUNTIFS({recipes.recipe:upto},{recipe},{recipes.load:upto},">=0"))',
        },
        {
          name: "kindof",
          hidden: true,
          heading: "Kind (drawn)",
          formula: ofRecipe("kind", "kindkey", '""'),
        },
        {
          name: "rest",
          hidden: true,
          heading: "Is the rest of",
          formula: '=IF(AND({recipe}<>"",{material}<>"",{load}=""),{recipe},"")',
        },
        {
          name: "kindkey",
          hidden: true,
          heading: "Says the kind of",
          formula: '=IF({kind}="","",{recipe})',
        },
        {
          name: "ofkey",
          hidden: true,
          heading: "Says Load of for",
          formula: '=IF({of}="","",{recipe})',
        },
        {
          name: "densitykey",
          hidden: true,
          heading: "Has the density of",
          formula: '=IF({measured}="","",{recipe})',
        },
        {
          name: "turn",
          hidden: true,
          heading: "Recipe, in order",
          format: "0",
          formula: '=IF({nthin}=1,COUNTIF({recipes.nthin:upto},1),"")',
        },
        {
          name: "picks",
          hidden: true,
          heading: "Names to pick from",
          formula:
            '=IF(ROW()-ROW({recipes.recipe:head})>COUNT({recipes.turn}),"",INDEX({recipes.recipe},MATCH(ROW()-ROW({recipes.recipe:head}),{recipes.turn},0)))',
        },
        {
          // Apart from what is said of prices, so that a price is soon followed through a thousand lines.
          name: "faults",
          hidden: true,
          heading: "Said, but for prices",
          formula: `=IF({recipe}="",IF(COUNTA({material},{load})=0,"","which recipe?"),TEXTJOIN("; ",TRUE,${saidOfName("{recipe}", "recipe's name")},IF(AND(ISNUMBER({highest}),ISNUMBER({share}),SUM({share})>SUM({highest})+0.0000001),IF({limit}={highest},"over the certificate limit",IF({basemax}={highest},"over what the base takes","over your highest load")),""),${SPAN_SAID},IF({material}="","which material?",IF(ISNUMBER({line}),"",{line})),IF({kindof}="","what kind is it?",""),IF(ISNUMBER({share}),"",{share}),IF(AND({volumepart}="no density",{kindof}<>"candle"),"no density",""),IF({limit}="not known","certificate limit not known",""),IF({rests}=1,"",IF({rests}=0,"no line is the rest: leave one load blank","two loads are blank")),IF({total}=0,"no load is typed: all of it is this one","")))`,
        },
        {
          // A number for each recipe: lines are told apart by numbers faster than by names.
          name: "first",
          hidden: true,
          heading: "First line of the recipe",
          format: "0",
          formula: '=IF({recipe}="","",IFERROR(MATCH({recipe},{recipes.recipe},0),""))',
        },
        hidden("kindline", "Line of its kind", '=IFERROR(MATCH({kindof},{kinds.kind},0),"")'),
        hidden("takes", "Takes at most (%)", `=${drawn("takes")}`),
        hidden("strong", "Is a strong oil", `=${drawn("strong")}`),
        hidden(
          "strongs",
          "Strong oils of the recipe",
          '=IF({recipe}="","",COUNTIFS({recipes.first},{first},{recipes.strong},"yes"))',
        ),
        hidden(
          "mostof",
          "Highest of its span (%)",
          `=IF({kindline}="","",IF(AND(SUM({strongs})>0,ISNUMBER(${ofKind("strong")})),MIN(${ofKind("strong")},${ofKind("most")}),IF(ISNUMBER(${ofKind("most")}),${ofKind("most")},"")))`,
        ),
        hidden(
          "leastof",
          "Least of its span (%)",
          `=IF({kindline}="","",IF(ISNUMBER(${ofKind("least")}),MIN(${ofKind("least")},{mostof}),""))`,
        ),
        hidden(
          "oils",
          "All its oils (%)",
          '=IF(OR({rest}="",NOT(ISNUMBER({share}))),"",SUMIFS({recipes.share},{recipes.first},{first},{recipes.what},"fragrance oil"))',
        ),
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "recipes",
    columns: 1,
    caution: "The certificate and the safety data sheet decide on the highest load.",
  },
};
