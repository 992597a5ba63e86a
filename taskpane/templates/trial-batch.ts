import { basisOf, ofLoad, ofMaterial, ofRest } from "../sheets/drawn";
import type { Template } from "../sheets/template";

/** Sheets that a pour is drawn from. */
const SET = ["Materials", "Recipes"];

/** Test pours of one oil at three loads in one base: what to weigh, and what the scale makes of it. */
export const template: Template = {
  title: "Trial batch",
  use: "Test pours of one oil at three loads: weights, drops, and the span that your scale allows.",
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
        ["Batch of each pour (g)"],
        ["Smallest step of the scale (g)"],
        ["Largest error allowed in the oil (%)"],
        ["Density of the oil (g/mL)"],
        ["Drops counted (count)"],
        ["They weigh (g)"],
        ["Drops in a millilitre"],
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
    { at: "A18", look: "heading", rows: [["What to pour", "Pour 1", "Pour 2", "Pour 3"]] },
    {
      at: "A19",
      look: "label",
      rows: [
        ["Load (%)"],
        ["Oil to weigh (g)"],
        ["Base to weigh (g)"],
        ["Oil in drops (count)"],
        ["Lowest load that those readings can mean (%)"],
        ["Highest load that they can mean (%)"],
        ["Smallest sensible batch for this scale (g)"],
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
      formula: '=IF(OR(B20="",$B$16=""),"",MIST.DROPSFOR(B20,"g",$B$16,$B$13))',
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
        ["Oil as read (g)"],
        ["Base as read (g)"],
        ["Load really poured (%)"],
        ["To set it right, oil to add (g)"],
        ["To set it right, base to add (g)"],
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
  ],
};
