/** What is needed of each material, the packs of it, and how many of each to buy. */
import { TYPED_OVER } from "../../sheets/columns.ts";
import { onHandOf } from "../../sheets/drawn.ts";
import { HELD, HELD_IN, packRead, saidOfPack } from "../../sheets/read-packs.ts";
import { PACK_UNITS, PIECE } from "../../sheets/pack-units.ts";
import type { Column, Part } from "../../sheets/parts.ts";

/** Packs of one material from one supplier that are looked at. */
const PACKS = 5;
const LINES = 28;

type Demo = [
  material: string,
  needed: number | null,
  onhand: number | null,
  supplier: string,
  size: number,
  unit: string,
  density: number | null,
  price: number,
];

const DEMO: Demo[] = [
  ["Alder Clear", 7778.6, null, "Alder Row", 1, "qt", 0.85, 15.5],
  ["Alder Clear", null, null, "Alder Row", 1, "gal", 0.85, 46],
  ["Alder Clear", null, null, "Alder Row", 5, "gal", 0.85, 199],
  ["Rain on Slate", 327.5, 40, "Bluepost Chandlery", 4, "oz", null, 8.9],
  ["Rain on Slate", null, null, "Bluepost Chandlery", 8, "oz", null, 15.6],
  ["Rain on Slate", null, null, "Bluepost Chandlery", 1, "lb", null, 27.4],
  ["Attic Cedar", 81.9, null, "Drovers Wharf", 50, "mL", 0.94, 6.8],
  ["Attic Cedar", null, null, "Drovers Wharf", 100, "mL", 0.94, 11.9],
  ["Attic Cedar", null, null, "Drovers Wharf", 250, "mL", 0.94, 26],
];
const demo = (column: number) => DEMO.map((line) => line[column] ?? null);
const isFirst = ([, needed]: Demo) => needed !== null;
const onFirst = <T>(value: T) => DEMO.map((line) => (isFirst(line) ? value : null));

const LINE = "(ROW()-ROW({lines.material:head}))";
/** The line of what runs take whose packs have reached this line. */
const TAKE = `1+COUNTIF({takes.ends},"<"&${LINE})`;

/** What is drawn on the first line of a material. */
const first = (formula: string) => `=IF({nth}=1,${formula},"")`;
/** What is worked out on the line of a material on which its need stands. */
const main = (formula: string) => `=IF({ismain}=1,${formula},"")`;
/** A column of the line of Materials that the named column finds: a pack, or the one in use. */
const found = (line: string, column: string) => {
  const cell = `INDEX({Materials!materials.${column}},{${line}})`;
  return `IF(ISNUMBER({${line}}),IF(${cell}="","",${cell}),"")`;
};
const ofPack = (column: string) => `=${found("pack", column)}`;
const ofMaterial = (column: string) => first(found("inuse", column));
/** What the line says on which the need of this line's material stands. */
const ofMain = (column: string) => `INDEX({lines.${column}},{mainline})`;
const ofOrder = (column: string) => `INDEX({orders.${column}},{order})`;

const GRAMS = `MIST.TURN(${HELD},${HELD_IN},"g",{density})`;

/** The sizes and prices of the packs to choose from, side by side. */
const offers = (name: string, heading: string, of: string): Column[] =>
  Array.from({ length: PACKS }, (_, i) => {
    const found = `MATCH({material}&"|${i + 1}",{lines.key},0)`;
    return {
      name: `${name}${i + 1}`,
      hidden: true,
      heading: `${heading} ${i + 1}`,
      formula: `=IF({material}="","",IFERROR(INDEX({lines.${of}},${found}),""))`,
    };
  });
const span = (name: string) => `{${name}1}:{${name}${PACKS}}`;
const plan = (need: string, freight: string, freefrom: string) =>
  `MIST.PACKPLAN(${need},${span("holds")},${span("price")},${freight},${freefrom})`;
const goodsOf = (freight: string, freefrom: string) =>
  `SUMPRODUCT(${plan("{tobuy}", freight, freefrom)},${span("price")})`;

/** What is said of a material, on the line of its need. */
const SAID_OF_MATERIAL = [
  'IF({tobuy}="not known",IF(OR({needed}="",SUM({needed})<0),"needed: how much?",IF(ISNUMBER({needed}),IF(COUNTIF({lines.main},{material})>1,"its need stands on two lines",IF({counted}="","in g or in pieces?","lost: all of it?")),"need not known: look at the runs and at Recipes")),"")',
  'IF({tobuy}=0,"enough on hand","")',
  'IF(SUM({onhand})<0,"on hand is below zero: count it anew, none is taken off","")',
  `IF(SUM({tobuy})>0,IF({from}="","from which supplier?",IF({offered}=0,"no pack to choose from: not counted",IF({order}="","its supplier has no line under Order from: not counted",IF({plain}="","too many digits to be planned: not counted","")))),"")`,
  `IF(SUM({offered})>${PACKS},"only the first ${PACKS} packs are looked at","")`,
];

const ON_MATERIALS = "COUNTIF({Materials!materials.name},{material})";
const HERE = "COUNTIF({lines.material},{material})";

/** The same where Materials is in the workbook. */
const SAID_OF_MATERIALS = [
  `IF(${ON_MATERIALS}=0,"not on Materials",IF({inuse}="","none of it is in use on Materials",IF(${ON_MATERIALS}>${HERE},"Materials has "&${ON_MATERIALS}&" packs of it, here are "&${HERE},"")))`,
  'IF(AND({onhand}="",SUM({tobuy})>0),"not counted on hand: none is taken off","")',
];

/** Why a pack is left out. */
const SAID_OF_PACK = [
  'IF({standing}="sample only","a sample only",IF({price}="",IF({size}="","","no price: left out"),IF(SUM({price})>0,"","a price of 0: order it by hand")))',
  `IF({size}="",IF({price}="","","pack size?"),IF(${HELD_IN}="",${saidOfPack("pack")},IF({holds}="density?","density? left out",IF(ISNUMBER({holds}),IF(({unit}="piece")=(${ofMain("counted")}="piece"),"","needed in "&IF(${ofMain("counted")}="piece","pieces","g")&", sold by "&{unit}&": left out"),"look at size and density"))))`,
  'IF(OR({from}="",{supplier}={from}),"",IF({supplier}="",IF({price}="","","which supplier? left out"),"of another supplier: left out"))',
];

const said = (...ofMaterials: string[]) =>
  `=IF({material}="",IF({price}&{needed}="","","which material?"),TEXTJOIN("; ",TRUE,IF({ismain}=1,TEXTJOIN("; ",TRUE,${[...SAID_OF_MATERIAL, ...ofMaterials].join(",")}),""),${SAID_OF_PACK.join(",")}))`;

export const LINES_PART: Part = {
  gap: 1,
  list: "lines",
  lines: LINES,
  reach: 300,
  columns: [
    {
      name: "material",
      heading: "Material",
      words: "{Materials!materials.picks}",
      demo: demo(0),
      draw: `=IF(${LINE}>SUM({takes.packs}),"",INDEX({takes.material},${TAKE}))`,
    },
    { name: "supplier", heading: "Supplier", demo: demo(3), draw: ofPack("supplier") },
    { name: "size", heading: "Pack size", worded: true, demo: demo(4), draw: ofPack("size") },
    {
      name: "unit",
      heading: "Pack unit",
      words: [...PACK_UNITS, PIECE],
      demo: demo(5),
      draw: ofPack("unit"),
    },
    {
      name: "buy",
      heading: "Buy (count)",
      format: "0;-0;",
      formula: `=IF(AND(SUM({offer})>0,SUM({offer})<=${PACKS},ISNUMBER(${ofMain("total")})),INDEX(${plan(ofMain("tobuy"), `IF(${ofMain("bears")}=1,${ofMain("freight")},0)`, `IF(${ofMain("bears")}=1,${ofMain("short")},0)`)},1,{offer}),"")`,
    },
    {
      name: "goods",
      heading: "Goods ($)",
      format: "#,##0.00;-#,##0.00;",
      formula: '=IF({buy}="","",{buy}*{price})',
    },
    {
      name: "needed",
      heading: "Needed (g or pieces)",
      format: "#,##0.0",
      demo: demo(1),
      // Not known where a run's part is not, or where it is taken in g and in pieces.
      draw: first(
        'IF(COUNTIFS({takes.material},{material},{takes.counted},{counted},{takes.amount},">=0")<COUNTIF({takes.material},{material}),"not known",SUMIFS({takes.amount},{takes.material},{material}))',
      ),
    },
    {
      name: "onhand",
      heading: "On hand (g or pieces)",
      format: "#,##0.0",
      demo: demo(2),
      draw: first(onHandOf("{material}")),
    },
    {
      name: "least",
      heading: "To keep (g or pieces)",
      format: "#,##0.0",
      demo: onFirst(null),
      draw: ofMaterial("least"),
    },
    {
      name: "tobuy",
      heading: "To buy (g or pieces)",
      format: "#,##0.0",
      formula: main(
        'IF(AND(ISNUMBER({needed}),SUM({needed})>=0,COUNTIF({lines.main},{material})=1,OR({counted}="g",{counted}="piece"),SUM({lost})<1),ROUND(MAX(0,{needed}/(1-SUM({lost}))+SUM({least})-MAX(0,SUM({onhand}))),6),"not known")',
      ),
    },
    {
      name: "counted",
      heading: "In",
      words: ["g", "piece"],
      demo: onFirst("g"),
      draw: first(
        'IF(ISNUMBER({take}),INDEX({takes.counted},{take}),IF(ISNUMBER({inuse}),IF(INDEX({Materials!materials.unit},{inuse})="piece","piece","g"),""))',
      ),
    },
    {
      name: "lost",
      heading: "Lost (%)",
      format: "0.0%",
      limits: [0, 1],
      demo: onFirst(0.03),
      draw: ofMaterial("lost"),
    },
    {
      name: "left",
      heading: "Left over (g or pieces)",
      format: "#,##0.0",
      formula: main(
        'IF(ISNUMBER({total}),SUMIFS({lines.bought},{lines.material},{material})-{tobuy},"")',
      ),
    },
    {
      name: "density",
      heading: "Density (g/mL)",
      format: "0.000",
      demo: demo(6),
      draw: ofPack("density"),
    },
    {
      name: "price",
      heading: "Pack price ($)",
      format: "#,##0.00",
      demo: demo(7),
      draw: ofPack("price"),
    },
    {
      name: "holds",
      heading: "Holds (g or pieces)",
      format: "#,##0.0",
      formula: `=IF(OR(${HELD}="",${HELD_IN}=""),"",IF(${HELD_IN}="piece",${HELD},IF(AND(ISERROR(${GRAMS}),{density}=""),"density?",${GRAMS})))`,
    },
    TYPED_OVER,
    {
      name: "said",
      heading: "Said of this line",
      look: "note",
      formula: said(...SAID_OF_MATERIALS),
      alone: said(),
    },
    {
      name: "pack",
      hidden: true,
      heading: "Line of Materials",
      formula:
        '=IF({material}="","",IFERROR(MATCH({material}&"|"&{nth},{Materials!materials.nth},0),""))',
    },
    {
      name: "inuse",
      hidden: true,
      heading: "Line in use on Materials",
      formula: '=IF({material}="","",IFERROR(MATCH({material},{Materials!materials.key},0),""))',
    },
    {
      name: "take",
      hidden: true,
      heading: "First taken by a run",
      formula: '=IF({nth}=1,IFERROR(MATCH({material},{takes.material},0),""),"")',
    },
    { name: "standing", hidden: true, heading: "Standing", formula: ofPack("standing") },
    {
      name: "nth",
      hidden: true,
      heading: "Line of its material",
      formula: '=IF({material}="","",COUNTIF({lines.material:upto},{material}))',
    },
    {
      name: "main",
      hidden: true,
      heading: "Has the need of",
      formula: '=IF({needed}="","",{material})',
    },
    {
      name: "mainline",
      hidden: true,
      heading: "Line with its need",
      formula:
        '=IF({material}="","",IFERROR(MATCH({material},{lines.main},0),MATCH({material},{lines.material},0)))',
    },
    {
      name: "ismain",
      hidden: true,
      heading: "Is that line",
      formula: `=IF({mainline}=${LINE},1,0)`,
    },
    {
      name: "from",
      hidden: true,
      heading: "Bought from",
      formula: `=${found("inuse", "supplier")}`,
      alone: `=IF({material}="","",IF(${ofMain("supplier")}="","",${ofMain("supplier")}))`,
    },
    {
      name: "ok",
      hidden: true,
      heading: "Can be chosen",
      formula: `=IF({material}="","",IF(AND({from}<>"",{supplier}={from},ISNUMBER({holds}),ISNUMBER({price}),({unit}="piece")=(${ofMain("counted")}="piece"),{standing}<>"sample only"),IF(AND({holds}>0,{price}>0),1,""),""))`,
    },
    {
      name: "offer",
      hidden: true,
      heading: "Pack to choose from",
      formula: '=IF({ok}=1,COUNTIFS({lines.material:upto},{material},{lines.ok:upto},1),"")',
    },
    {
      name: "key",
      hidden: true,
      heading: "Found by (pack)",
      formula: '=IF({offer}="","",{material}&"|"&{offer})',
    },
    {
      name: "offered",
      hidden: true,
      heading: "Packs to choose from",
      formula: '=IF({material}="","",COUNTIFS({lines.material},{material},{lines.ok},1))',
    },
    {
      name: "leftout",
      hidden: true,
      heading: "Left out",
      formula: `=IF(AND({supplier}={from},{from}<>"",{standing}<>"sample only",{size}&{price}<>"",OR({ok}<>1,SUM({offer})>${PACKS})),1,"")`,
    },
    ...offers("holds", "Pack holds", "holds"),
    ...offers("price", "Pack price", "price"),
    {
      name: "order",
      hidden: true,
      heading: "Line of Orders",
      formula: '=IF({from}="","",IFERROR(MATCH({from},{orders.supplier},0),""))',
    },
    {
      name: "plain",
      hidden: true,
      heading: "Least for its goods ($)",
      formula: main(`IF(AND(SUM({tobuy})>0,{offered}>0),IFERROR(${goodsOf("0", "0")},""),"")`),
    },
    {
      name: "others",
      hidden: true,
      heading: "Others of the order ($)",
      formula:
        '=IF(OR({plain}="",{order}=""),"",SUMIFS({lines.plain},{lines.from},{from})-{plain})',
    },
    {
      name: "freight",
      hidden: true,
      heading: "Freight to weigh against ($)",
      formula: `=IF({others}="","",IF(ISNUMBER(${ofOrder("freight")}),IF(AND(${ofOrder("freefrom")}<>"",SUM(${ofOrder("freefrom")})>0,ROUND({others},6)>=ROUND(SUM(${ofOrder("freefrom")}),6)),0,${ofOrder("freight")}),""))`,
    },
    {
      name: "short",
      hidden: true,
      heading: "Its goods travel free from ($)",
      formula: `=IF({others}="","",IF(SUM(${ofOrder("freefrom")})>0,MAX(0,ROUND(SUM(${ofOrder("freefrom")})-{others},6)),0))`,
    },
    {
      name: "own",
      hidden: true,
      heading: "Its goods, freight weighed ($)",
      formula: `=IF({freight}="","",IFERROR(${goodsOf("{freight}", "{short}")},""))`,
    },
    {
      name: "total",
      hidden: true,
      heading: "The order then ($)",
      formula:
        '=IF({own}="","",{others}+{own}+IF(AND({short}>0,ROUND({own},6)>={short}),0,{freight}))',
    },
    {
      name: "lowest",
      hidden: true,
      heading: "Makes the cheapest order",
      formula: '=IF({total}="","",IF({total}=MINIFS({lines.total},{lines.from},{from}),1,""))',
    },
    {
      // One material of an order is bought with an eye on the freight, the others as cheaply as they can be.
      name: "bears",
      hidden: true,
      heading: "Is bought with an eye on freight",
      formula:
        '=IF({lowest}=1,IF(COUNTIFS({lines.from:upto},{from},{lines.lowest:upto},1)=1,1,""),"")',
    },
    {
      name: "bought",
      hidden: true,
      heading: "Bought of it (g or pieces)",
      formula: '=IF({buy}="","",{buy}*{holds})',
    },
    {
      name: "missing",
      hidden: true,
      heading: "Not counted",
      formula:
        '=IF({ismain}=1,IF({tobuy}="not known",{material},IF(AND({tobuy}>0,{total}=""),{material},"")),"")',
    },
    {
      name: "wants",
      hidden: true,
      heading: "Supplier of what is to buy",
      formula: main('IF(SUM({tobuy})>0,{from},"")'),
    },
    {
      name: "wantsnth",
      hidden: true,
      heading: "Material of its supplier",
      formula: '=IF({wants}="","",COUNTIF({lines.wants:upto},{wants}))',
    },
    {
      name: "turn",
      hidden: true,
      heading: "Supplier, in order",
      formula: '=IF({wantsnth}=1,COUNTIF({lines.wantsnth:upto},1),"")',
    },
    ...packRead(),
  ],
};
