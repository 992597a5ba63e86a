import { basisOf, densityOf, flozOf, loadsOf, ofLoad, ofRest } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** Lines for oils. */
const OILS = 3;
const oils = (formula: (k: number) => string) =>
  Array.from({ length: OILS }, (_, i) => [formula(i + 1)]);

/** One recipe over four bottle sizes: what to weigh, whether the scale can, what to buy. Demo invented. */
export const template: Template = {
  title: "Size run",
  use: "One recipe poured into several bottle sizes: what to weigh of each ingredient, and what to buy.",
  words: "scale a recipe, resize, several sizes, sample sizes, make many bottles, double, multiply",
  step: 8,
  widths: [232, 92, 112, 84, 84, 84, 84, 92, 92],
  blocks: [
    { at: "A1", look: "title", rows: [["Size run"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "Type over the cream cells. Type a load as 5 %, not 5; leave a size or an oil blank if you have fewer.",
        ],
        ["5 % of the base is not 5 % of the finished batch: say below which one your loads are."],
        ["The density is that of the finished spray: weigh a known volume, or use MIST.DENSITYOF."],
      ],
    },
    {
      at: "A5",
      look: "caution",
      rows: [
        [
          "Alcohol bases burn: no flame or spark near, air moving. The safety data sheet and local rules come first.",
        ],
      ],
    },
    {
      at: "A7",
      look: "label",
      rows: [
        ["Loads are a percentage of"],
        ["Density of the finished spray"],
        ["Overfill of the stated volume"],
        ["Smallest step of the scale"],
        ["Largest error allowed in an oil"],
      ],
    },
    { at: "E7", look: "label", needs: ["Recipes"], rows: [["Recipe"]] },
    {
      at: "F7",
      look: "input",
      needs: ["Recipes"],
      words: "{Recipes!recipes.picks}",
      rows: [["Rain room"]],
    },
    {
      at: "E8",
      look: "note",
      needs: ["Recipes"],
      rows: [
        [
          `=IF(F7="","pick a recipe: what is blue is drawn",IF(${loadsOf("F7")}>${OILS},"More than ${OILS} oils: not all of this recipe is here.",IF(${loadsOf("F7")}=0,"not in Recipes","what is blue is drawn; type over it")))`,
        ],
        [`=IF(F7="","",IF(B7=(${basisOf("F7")}),"","Loads of: typed over"))`],
        [
          `=IF(F7="","",IF(B8=(${densityOf("F7")}),"",IF(B8="","density not known","Density: typed over")))`,
        ],
      ],
    },
    {
      at: "B7",
      look: "input",
      words: ["finished", "base"],
      rows: [["finished"]],
      draw: [[`=IF($F$7="","",${basisOf("$F$7")})`]],
    },
    {
      at: "B8",
      look: "input",
      format: "0.000",
      rows: [[0.87]],
      draw: [[`=IF($F$7="","",${densityOf("$F$7")})`]],
    },
    { at: "B9", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.02]] },
    { at: "B10", look: "input", rows: [[0.1]] },
    { at: "B11", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.05]] },
    {
      at: "C7",
      look: "note",
      rows: [
        [
          '=IF(B7="","say which: finished or base",IF(B7="base","the base alone","the finished batch"))',
        ],
        ["g/mL"],
        ['=IF(OR(B8="",B9<>""),"","none: filled to the mark")'],
        ["g"],
        ['=IF(OR(B10="",B11<>""),"","blank: 5 % is taken")'],
      ],
    },
    {
      at: "A13",
      look: "label",
      rows: [["Bottle size (US fl oz)"], ["Bottles to fill (count)"], ["Fill of one bottle (g)"]],
    },
    {
      at: "D12",
      look: "input",
      needs: ["Sizes"],
      words: "{Sizes!sizes.size}",
      rows: [["2 fl oz", "4 fl oz", "8 fl oz", "16 fl oz"]],
    },
    { at: "A12", look: "label", needs: ["Sizes"], rows: [["Size, of Sizes"]] },
    {
      at: "D13",
      look: "input",
      rows: [[2, 4, 8, 16]],
      draw: [
        ["D", "E", "F", "G"].map(
          (column) => `=IF(${column}$12="","",${flozOf(`${column}$12`, "$B$8")})`,
        ),
      ],
    },
    { at: "D14", look: "input", rows: [[12, 24, 12, 6]] },
    {
      at: "D15",
      look: "result",
      format: "#,##0.0",
      formula: '=IF(D13="","",MIST.FILLWEIGHT(D13,"floz",$B$8,$B$9))',
      across: 4,
    },
    {
      at: "D16",
      look: "note",
      formula: '=IF((D13="")=(D14=""),"",IF(D14="","how many?","which size?"))',
      across: 4,
    },
    { at: "A17", look: "section", rows: [["For the whole run"]] },
    {
      at: "A18",
      look: "heading",
      rows: [["Ingredient", "Load (%)", "Of the finished batch (%)"]],
    },
    {
      at: "D18",
      look: "heading",
      formula: '=IF(D13="","",D13&" fl oz (g)")',
      across: 4,
    },
    { at: "H18", look: "heading", rows: [["To buy (g)", "To buy (oz)"]] },
    {
      at: "A19",
      look: "input",
      rows: [["Alder Clear (base)"], ["Rain on Slate"], ["Attic Cedar"], [null]],
      draw: [
        [`=IF($F$7="","",${ofRest("material", "$F$7")})`],
        ...oils((k) => `=IF($F$7="","",${ofLoad("material", "$F$7", k)})`),
      ],
    },
    { at: "B19", look: "answer", rows: [["the rest"]] },
    {
      at: "B20",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [[0.04], [0.01], [null]],
      draw: oils((k) => `=IF($F$7="","",${ofLoad("load", "$F$7", k)})`),
    },
    { at: "C19", look: "result", format: "0.00%;-0.00%;", rows: [["=1-SUM(C20:C22)"]] },
    {
      at: "C20",
      look: "result",
      format: "0.00%;-0.00%;",
      formula: '=IF(SUM(B20)=0,0,B20/SUM(B$20:B$22)*MIST.REBASIS(SUM(B$20:B$22),$B$7,"finished"))',
      down: 3,
    },
    {
      at: "D19",
      look: "result",
      format: "#,##0.0;-#,##0.0;",
      formula: "=MIST.SIZERUN(C19:C22,D15:G15,D14:G14)",
      spills: [4, 4],
    },
    { at: "H19", look: "result", format: "#,##0.0;-#,##0.0;", formula: "=SUM(D19:G19)", down: 4 },
    {
      at: "I19",
      look: "result",
      format: "#,##0.00;-#,##0.00;",
      formula: '=MIST.TURN(H19:H22,"g","oz")',
      spills: [4, 1],
    },
    {
      at: "A23",
      look: "label",
      rows: [["All ingredients (g)"], ["Can this scale weigh the least oil?"]],
    },
    { at: "D23", look: "result", format: "#,##0.0;-#,##0.0;", formula: "=SUM(D19:D22)", across: 5 },
    {
      at: "D24",
      look: "answer",
      formula:
        '=IF(OR(D23=0,SUM($C$20:$C$22)=0),"",IF(D23>=MIST.LEASTBATCH(MINIFS($C$20:$C$22,$C$20:$C$22,">0"),$B$10,$B$11),"yes","no: too little"))',
      across: 4,
    },
    {
      at: "A25",
      look: "note",
      rows: [
        [
          '=IF(SUMPRODUCT((A20:A22<>"")*(B20:B22=""))=0,"","An oil without a load is left out: type its load, or 0.")',
        ],
      ],
    },
    { at: "A26", look: "section", rows: [["For one bottle"]] },
    { at: "A27", look: "heading", rows: [["Ingredient", null, null]] },
    { at: "D27", look: "heading", formula: "=D18", across: 4 },
    { at: "A28", look: "label", formula: '=IF(A19="","",A19)', down: 4 },
    {
      at: "D28",
      look: "result",
      format: "#,##0.00;-#,##0.00;",
      formula: '=IF(D$15="","",MIST.SIZERUN($C$19:$C$22,D$15))',
      across: 4,
      spills: [4, 1],
    },
  ],
};
