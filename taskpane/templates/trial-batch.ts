import { basisOf, ofLoad, ofMaterial, ofRest } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** Sheets that a pour is drawn from. */
const SET = ["Materials", "Recipes"];

/** What weights are in: one choice for the pours and the scale. */
const UNIT = 'IF($B$17="","g",$B$17)';

/** Oil, and then pre-mix, to weigh: enough for this scale, half the batch at most, on its step. */
const PART = "(ROUND(MIN(B25*B20/$B$10,$B$10/2)/$B$11,0)*$B$11)";

/** The load where oil and pre-mix are read half a step too low, or too high. */
const mixed = (sign: string) => `B20/$B$10*((${PART}${sign}$B$11/2)/${PART})^2`;

/** A pour's cell where its batch is too small for the scale, else blank. */
const tooSmall = (formula: string) => `=IF(LEFT(B26,2)<>"no","",${formula})`;

/** The same where there is room for a pre-mix that is weaker than the oil. */
const premix = (formula: string) => tooSmall(`IF(${PART}<=2*B20,"",${formula})`);

/** Test pours of one oil at three loads in one base: what to weigh, and what the scale makes of it. */
export const template: Template = {
  title: "Trial batch",
  use: "Test pours of one oil at three loads: weights, drops, and the span that your scale allows.",
  words: "sample, test, small batch, try a strength, drops, tester, experiment",
  step: 6,
  widths: [296, 104, 104, 104, 92],
  blocks: [
    { at: "A1", look: "title", rows: [["Trial batch"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "Type over the cream cells. A small pour on a coarse scale is a guess: read the span before you trust the load.",
        ],
        [
          "Drops are for a first sniff; weigh what you will compare. Label each pour with a code, not its load.",
        ],
      ],
    },
    {
      at: "A4",
      look: "caution",
      rows: [
        [
          "Alcohol bases burn: no flame or spark near, air moving. Gloves on; oils are strong undiluted.",
        ],
        ["Spray a hidden spot of cloth and wood first. Not on skin, pets or where children reach."],
      ],
    },
    {
      at: "A7",
      look: "label",
      rows: [
        ["Base"],
        ["Oil"],
        ["Loads are a percentage of"],
        ["Batch of each pour (g or oz)"],
        ["Smallest step of the scale (g or oz)"],
        ["Largest error allowed in the oil (%)"],
        ["Density of the oil (g/mL)"],
        ["Drops counted (count)"],
        ["They weigh (g)"],
        ["Drops in a millilitre"],
        ["Weights and the scale's step are in"],
      ],
    },
    { at: "D7", look: "label", needs: SET, rows: [["Recipe"]] },
    {
      at: "E7",
      look: "input",
      needs: SET,
      words: "{Recipes!recipes.picks}",
      rows: [["Orchard body"]],
    },
    { at: "D8", look: "note", needs: SET, rows: [["Blue is drawn; type over it."]] },
    {
      at: "B7",
      look: "input",
      rows: [["Alder Clear"], ["Salt Orchard"]],
      draw: [
        [`=IF($E$7="","",${ofRest("material", "$E$7")})`],
        [`=IF($E$7="","",${ofLoad("material", "$E$7", 1)})`],
      ],
    },
    {
      at: "B9",
      look: "input",
      words: ["finished", "base"],
      rows: [["finished"]],
      draw: [[`=IF($E$7="","",${basisOf("$E$7")})`]],
    },
    { at: "B10", look: "input", rows: [[20], [0.1]] },
    { at: "B12", look: "input", format: "0.0%", limits: [0, 1], rows: [[0.05]] },
    {
      at: "C9",
      look: "note",
      rows: [['=IF(OR(B10="",B9<>""),"","blank: of the finished batch")']],
    },
    { at: "C12", look: "note", rows: [['=IF(OR(B11="",B12<>""),"","blank: 5 % is taken")']] },
    {
      at: "B13",
      look: "input",
      format: "0.000",
      rows: [[0.94]],
      draw: [[`=IF($B$8="","",${ofMaterial("density", "$B$8")})`]],
    },
    { at: "B14", look: "input", rows: [[50], [1.62]] },
    {
      at: "B16",
      look: "result",
      format: "0.0",
      rows: [['=IF(B14="","",MIST.DROPRATE(B14,B15,"g",B13))']],
    },
    { at: "B17", look: "input", words: ["g", "oz"], rows: [["g"]] },
    {
      at: "C17",
      look: "note",
      rows: [['=IF(B17="","blank: g is taken","for all weights but that of the drops")']],
    },
    { at: "A18", look: "heading", rows: [["What to pour", "Pour 1", "Pour 2", "Pour 3"]] },
    {
      at: "A19",
      look: "label",
      rows: [
        ["Load (%)"],
        ["Oil to weigh (g or oz)"],
        ["Base to weigh (g or oz)"],
        ["Oil in drops (count)"],
        ["Lowest load that those readings can mean (%)"],
        ["Highest load that they can mean (%)"],
        ["Smallest sensible batch for this scale (g or oz)"],
        ["Is this batch large enough?"],
      ],
    },
    {
      at: "B19",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [[0.03, 0.05, 0.08]],
    },
    {
      at: "B20",
      look: "result",
      format: "0.00",
      formula: '=IF(OR(B19="",$B$10=""),"",MIST.OILFOR($B$10,B19,$B$9))',
      across: 3,
    },
    {
      at: "B21",
      look: "result",
      format: "0.00",
      formula: '=IF(OR(B19="",$B$10=""),"",MIST.BASEFOR($B$10,B19,$B$9))',
      across: 3,
    },
    {
      at: "B22",
      look: "result",
      format: "0",
      formula: `=IF(OR(B20="",$B$16=""),"",MIST.DROPSFOR(B20,${UNIT},$B$16,$B$13))`,
      across: 3,
    },
    {
      at: "B23",
      look: "result",
      format: "0.0%",
      // Two answers across a row of pours stand one under the other.
      formula:
        '=IF(OR(SUM(B20:D20)=0,SUM($B$11)=0),"",MIST.LOADSPAN(IF(B20:D20="","",ROUND(B20:D20/$B$11,0)*$B$11),IF(B21:D21="","",ROUND(B21:D21/$B$11,0)*$B$11),$B$11,$B$9))',
      spills: [2, 3],
    },
    {
      at: "B25",
      look: "result",
      format: "0.0",
      formula: '=IF(SUM(B20)=0,"",MIST.LEASTBATCH(B20/$B$10,$B$11,$B$12))',
      across: 3,
    },
    {
      at: "B26",
      look: "answer",
      formula: '=IF(B25="","",IF($B$10>=B25,"yes","no: pour more"))',
      across: 3,
    },
    { at: "A28", look: "heading", rows: [["What was poured", "Pour 1", "Pour 2", "Pour 3"]] },
    {
      at: "A29",
      look: "label",
      rows: [
        ["Oil as read (g or oz)"],
        ["Base as read (g or oz)"],
        ["Load really poured (%)"],
        ["To set it right, oil to add (g or oz)"],
        ["To set it right, base to add (g or oz)"],
      ],
    },
    {
      at: "B29",
      look: "input",
      format: "0.00",
      rows: [
        [0.6, 1.1, 1.6],
        [19.4, 19, 18.4],
      ],
    },
    {
      at: "B31",
      look: "result",
      format: "0.0%",
      formula: '=IF(AND(B29="",B30=""),"",MIST.LOADOF(B29,B30,$B$9))',
      across: 3,
    },
    {
      at: "B32",
      look: "result",
      format: "0.00",
      formula:
        '=IF(OR(SUM(B29:D30)=0,SUM(B19:D19)=0),"",MIST.SETRIGHT(B29:D29,B30:D30,IF(B29:D29="",IF(B30:D30="","",B19:D19),B19:D19),$B$9))',
      spills: [2, 3],
    },
    {
      at: "A35",
      look: "heading",
      rows: [["Where this scale is too coarse, one of these", "Pour 1", "Pour 2", "Pour 3"]],
    },
    {
      at: "A36",
      look: "label",
      rows: [
        ["What the load can really be (%)"],
        ["A scale with this step, or a finer one (g or oz)"],
        ["Or a batch of at least (g or oz)"],
        ["Or drops in place of weighing (count)"],
        ["Or a pre-mix: oil to weigh (g or oz)"],
        ["base to weigh to it (g or oz)"],
        ["of that pre-mix, into the pour (g or oz)"],
        ["and base to fill the pour (g or oz)"],
        ["What the load can be with it (%)"],
      ],
    },
    {
      at: "B36",
      look: "caution",
      formula: tooSmall('IF(B23="","",TEXT(B23,"0.0%")&" to "&TEXT(B24,"0.0%"))'),
      across: 3,
    },
    {
      at: "B37",
      look: "result",
      format: "0.0000",
      formula: tooSmall("$B$11*$B$10/B25"),
      across: 3,
    },
    { at: "B38", look: "result", format: "0.0", formula: tooSmall("B25"), across: 3 },
    { at: "B39", look: "result", format: "0", formula: tooSmall("B22"), across: 3 },
    { at: "B40", look: "result", format: "0.00", formula: premix(PART), across: 3 },
    {
      at: "B41",
      look: "result",
      format: "0.00",
      formula: premix(`${PART}^2/B20-${PART}`),
      across: 3,
    },
    { at: "B42", look: "result", format: "0.00", formula: premix(PART), across: 3 },
    { at: "B43", look: "result", format: "0.00", formula: premix(`$B$10-${PART}`), across: 3 },
    {
      at: "B44",
      look: "result",
      formula: premix(`TEXT(${mixed("-")},"0.0%")&" to "&TEXT(${mixed("+")},"0.0%")`),
      across: 3,
    },
    {
      at: "A45",
      look: "note",
      rows: [
        [
          "A pre-mix is weighed twice, once made and once used: its errors add up, and are in that load.",
        ],
      ],
    },
  ],
};
