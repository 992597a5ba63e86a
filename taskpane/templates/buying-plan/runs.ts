/** The runs to buy for, and what each of them takes. */
import { TYPED_OVER, recipeAndSize } from "../../sheets/columns.ts";
import { densityOf, fillOf } from "../../sheets/drawn.ts";
import type { Part } from "../../sheets/parts.ts";

/** The sheets that runs are drawn from. */
const NEEDS = ["Materials", "Recipes", "Sizes"];

const RUNS = 8;

/** Pieces of a size, in the order in which they are taken. */
const PIECES = ["bottle", "sprayer", "label", "box"];

const DEMO: [recipe: string, size: string, bottles: number][] = [
  ["Rain room", "4 fl oz", 24],
  ["Rain room", "8 fl oz", 12],
  ["Orchard body", "2 fl oz", 60],
  ["Rain candle", "Jar", 24],
];

const INGREDIENTS = "COUNTIF({Recipes!recipes.recipe},{recipe})";
/** Of the recipe's lines, those whose share is a number. */
const SHARES = 'COUNTIFS({Recipes!recipes.recipe},{recipe},{Recipes!recipes.share},">=-100")';

/** The line of the list, from 1, and what is drawn there: a size of Size run that is to be filled. */
const K = "(ROW()-ROW({runs.recipe:head}))";
const COUNTS = "{Size run!sizes.count}";
const ofSizeRun = (of: string) =>
  `=IF(${K}>COLUMNS(${COUNTS}),"",IF(SUM(INDEX(${COUNTS},1,MIN(${K},COLUMNS(${COUNTS}))))>0,${of},""))`;
const ofItsSize = (row: string) =>
  ofSizeRun(`INDEX({Size run!sizes.${row}},1,MIN(${K},COLUMNS(${COUNTS})))`);
const DRAWN: Record<string, string> = {
  recipe: ofSizeRun('{Size run!recipe}&""'),
  size: ofItsSize("size"),
};

export const RUN_PARTS: Part[] = [
  {
    needs: NEEDS,
    text: "note",
    rows: [
      "Pick the runs, or see those of Size run; blue is drawn, and may be typed over.",
      "A material on a spare line is bought, too, up to its least to keep. For another supplier: in use on Materials.",
    ],
  },
  {
    needs: NEEDS,
    gap: 1,
    fields: [
      {
        name: "infilling",
        label: "Lost of the liquid in filling (%)",
        format: "0.0%",
        limits: [0, 1],
        demo: 0.03,
        draw: '=IF({Price list!lost}="","",{Price list!lost})',
        note: '=IF({infilling}="","blank: none","")',
      },
    ],
  },
  {
    needs: NEEDS,
    gap: 1,
    list: "runs",
    lines: RUNS,
    end: `Not bought: only the ${RUNS} runs above are.`,
    columns: [
      ...recipeAndSize(DEMO).map((column) => ({ ...column, draw: DRAWN[column.name ?? ""] })),
      {
        name: "bottles",
        heading: "Bottles to fill (count)",
        limits: [0, 1_000_000],
        demo: DEMO.map(([, , bottles]) => bottles),
        draw: ofItsSize("count"),
      },
      {
        name: "density",
        heading: "Density (g/mL)",
        format: "0.000",
        draw: `=IF({recipe}="","",${densityOf("{recipe}")})`,
      },
      {
        name: "fill",
        heading: "Fill of one (g)",
        format: "#,##0.0",
        worded: true,
        draw: `=${fillOf("{size}", "{density}")}`,
      },
      {
        name: "liquid",
        heading: "Liquid to make (g)",
        format: "#,##0.0",
        formula:
          '=IF(AND(ISNUMBER({bottles}),ISNUMBER({fill}),SUM({infilling})<1),{bottles}*{fill}/(1-SUM({infilling})),"")',
      },
      {
        name: "said",
        heading: "Said of this run",
        look: "note",
        formula: `=IF({recipe}="",IF({size}&{bottles}="","","which recipe?"),TEXTJOIN("; ",TRUE,IF(${INGREDIENTS}=0,"not in Recipes",IF(${SHARES}<${INGREDIENTS},"an ingredient has no share","")),IF({size}="","which size?",IF(ISNUMBER({fill}),"",IF({fill}="density?","density of an ingredient is not known",{fill}))),IF(ISNUMBER({bottles}),"","how many bottles?")))`,
      },
      { heading: [null, null, null] },
      TYPED_OVER,
    ],
  },
];

const TAKES = 72;

/** The line of the list, from 1. */
const T = "(ROW()-ROW({takes.count:head}))";
const RUN = `INDEX({runs.recipe},${T})`;

const ofRun = (column: string) => `INDEX({runs.${column}},{run})`;

const SHARE = "INDEX({Recipes!recipes.share},{found})";

/** The piece whose turn it is, after the ingredients. */
const PIECE = PIECES.reduceRight(
  (rest, column, i) =>
    `IF({nth}-INDEX({takes.count},{run})=${i + 1 - PIECES.length},INDEX({Sizes!sizes.${column}},{found}),${rest})`,
  '""',
);

/** Every ingredient and piece of every run, one under the other: for look-ups alone, beside the lines. */
export const TAKES_PART: Part = {
  needs: NEEDS,
  beside: "lines",
  list: "takes",
  lines: TAKES,
  reach: 600,
  columns: [
    {
      name: "count",
      heading: "Lines of that run",
      formula: `=IF(${T}>ROWS({runs.recipe}),0,IF(${RUN}="",0,COUNTIF({Recipes!recipes.recipe},${RUN})+${PIECES.length}))`,
    },
    {
      name: "upto",
      heading: "Lines of runs so far",
      formula: "=SUM({takes.count:upto})",
    },
    {
      name: "run",
      heading: "Run",
      formula: `=IF(${T}>SUM({takes.count}),"",1+COUNTIF({takes.upto},"<"&${T}))`,
    },
    {
      name: "nth",
      heading: "Line within the run",
      formula: `=IF({run}="","",${T}-INDEX({takes.upto},{run})+INDEX({takes.count},{run}))`,
    },
    {
      name: "counted",
      heading: "Taken in",
      formula: `=IF({run}="","",IF({nth}<=INDEX({takes.count},{run})-${PIECES.length},"g","piece"))`,
    },
    {
      name: "found",
      heading: "Line of Recipes, or of Sizes",
      formula: `=IF({run}="","",IFERROR(IF({counted}="g",MATCH(${ofRun("recipe")}&"|"&{nth},{Recipes!recipes.nth},0),MATCH(${ofRun("size")},{Sizes!sizes.size},0)),""))`,
    },
    {
      name: "material",
      heading: "Takes",
      formula: `=IF(ISNUMBER({found}),IF({counted}="g",INDEX({Recipes!recipes.material},{found}),${PIECE})&"","")`,
    },
    {
      name: "amount",
      heading: "Takes of it (g or pieces)",
      formula: `=IF({material}="","",IF({counted}="g",IF(COUNT(${SHARE},${ofRun("liquid")})=2,${SHARE}*${ofRun("liquid")},"not known"),IF(COUNT(${ofRun("bottles")})=1,${ofRun("bottles")},"not known")))`,
    },
    {
      name: "packs",
      heading: "Packs of it, said once",
      formula:
        '=IF({material}="",0,IF(COUNTIF({takes.material:upto},{material})=1,MAX(1,COUNTIF({Materials!materials.name},{material})),0))',
    },
    {
      name: "ends",
      heading: "Packs so far",
      formula: '=IF({run}="","",SUM({takes.packs:upto}))',
    },
    {
      name: "absent",
      heading: "Is on no line",
      formula: '=IF({packs}=0,"",IF(COUNTIF({lines.material},{material})=0,{material},""))',
    },
  ].map((column) => ({ ...column, hidden: true as const })),
};
