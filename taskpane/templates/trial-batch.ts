import { basisOf, loadsOf, ofLoad, ofMaterial, ofRest } from "../sheets/drawn.ts";
import type { Template } from "../sheets/template.ts";

const HEADS = ["Pour 1", "Pour 2", "Pour 3"];

/** What weights are in: one choice for the pours and the scale. */
const UNIT = 'IF({unit}="","g",{unit})';

/** What a scale shows of a weight: the nearest of its steps. */
const shown = (weights: string) => `IF(ISNUMBER(${weights}),ROUND(${weights}/{step},0)*{step},"")`;

/** Oil, and then pre-mix, to weigh: enough for this scale, half the batch at most, on its step. */
const PART = "(ROUND(MIN({pours.least:same}*{pours.oil:same}/{batch},{batch}/2)/{step},0)*{step})";

/** The load where oil and pre-mix are read half a step too low, or too high. */
const mixed = (sign: string) => `{pours.oil:same}/{batch}*((${PART}${sign}{step}/2)/${PART})^2`;

/** A pour's cell where its batch is too small for the scale, else blank. */
const tooSmall = (formula: string) => `=IF(LEFT({pours.enough:same},2)<>"no","",${formula})`;

/** The same where there is room for a pre-mix that is weaker than the oil. */
const premix = (formula: string) => tooSmall(`IF(${PART}<=2*{pours.oil:same},"",${formula})`);

/** Test pours of one oil at three loads in one base: what to weigh, and what the scale makes of it. */
export const template: Template = {
  title: "Trial batch",
  use: "Test pours of one oil at three loads: weights, drops, and the span that your scale allows.",
  words: "sample, test, small batch, try a strength, drops, tester, experiment",
  step: 6,
  widths: [296, 130, 104, 104, 92],
  parts: [
    { text: "title", rows: ["Trial batch"] },
    {
      text: "note",
      rows: [
        "Type over the cream cells. A small pour on a coarse scale is a guess: read the span before you trust the load.",
        "Drops are for a first sniff; weigh what you will compare. Label each pour with a code, not its load.",
      ],
    },
    {
      text: "caution",
      rows: [
        "Alcohol bases burn: no flame or spark near, air moving. Gloves on; oils are strong undiluted.",
        "Spray a hidden spot of cloth and wood first. Not on skin, pets or where children reach.",
      ],
    },
    {
      gap: 1,
      needs: ["Materials", "Recipes"],
      fields: [
        {
          name: "recipe",
          label: "Recipe",
          words: "{Recipes!recipes.picks}",
          demo: "Orchard body",
          note: `=IF({recipe}="","pick one, or type what follows",IF(${loadsOf("{recipe}")}>1,"its first oil is drawn; type another over it","blue is drawn; type over it"))`,
        },
      ],
    },
    {
      gap: 1,
      fields: [
        {
          name: "base",
          label: "Base",
          demo: "Alder Clear",
          draw: `=IF({recipe}="","",${ofRest("material", "{recipe}")})`,
        },
        {
          name: "oil",
          label: "Oil",
          demo: "Salt Orchard",
          draw: `=IF({recipe}="","",${ofLoad("material", "{recipe}", 1)})`,
        },
        {
          name: "of",
          label: "Loads are a percentage of",
          words: ["finished", "base"],
          demo: "finished",
          draw: `=IF({recipe}="","",${basisOf("{recipe}")})`,
          note: '=IF(OR({batch}="",{of}<>""),"","blank: of the finished batch")',
        },
        { name: "batch", label: "Batch of each pour (g or oz)", demo: 20 },
        { name: "step", label: "Smallest step of the scale (g or oz)", demo: 0.1 },
        {
          name: "error",
          label: "Largest error allowed in the oil (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: 0.05,
          note: '=IF(OR({step}="",{error}<>""),"","blank: 5 % is taken")',
        },
        {
          name: "density",
          label: "Density of the oil (g/mL)",
          format: "0.000",
          demo: 0.94,
          draw: `=IF({oil}="","",${ofMaterial("density", "{oil}")})`,
        },
        { name: "counted", label: "Drops counted (count)", demo: 50 },
        { name: "weighed", label: "They weigh (g)", demo: 1.62 },
        {
          name: "rate",
          label: "Drops in a millilitre",
          format: "0.0",
          formula: '=IF({counted}="","",MIST.DROPRATE({counted},{weighed},"g",{density}))',
        },
        {
          name: "unit",
          label: "Weights and the scale's step are in",
          words: ["g", "oz"],
          demo: "g",
          note: '=IF({unit}="","blank: g is taken","for all weights but that of the drops")',
        },
      ],
    },
    {
      table: "pours",
      across: HEADS.length,
      heads: ["What to pour", ...HEADS],
      rows: [
        {
          name: "load",
          label: "Load (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: [0.03, 0.05, 0.08],
        },
        {
          name: "oil",
          label: "Oil to weigh (g or oz)",
          format: "0.00",
          formula: '=IF(OR({load}="",{batch}=""),"",MIST.OILFOR({batch},{load},{of}))',
        },
        {
          name: "base",
          label: "Base to weigh (g or oz)",
          format: "0.00",
          formula: '=IF(OR({load}="",{batch}=""),"",MIST.BASEFOR({batch},{load},{of}))',
        },
        {
          name: "drops",
          label: "Oil in drops (count)",
          format: "0",
          formula: `=IF(COUNT({pours.oil:same},{rate})<2,"",MIST.DROPSFOR({pours.oil:same},${UNIT},{rate},{density}))`,
        },
        {
          // Two answers across a row of pours stand one under the other.
          name: "span",
          label: [
            "Lowest load that those readings can mean (%)",
            "Highest load that they can mean (%)",
          ],
          format: "0.0%",
          spills: 2,
          formula: `=IF(OR(SUM({pours.oil})=0,SUM({step})=0),"",MIST.LOADSPAN(${shown("{pours.oil}")},${shown("{pours.base}")},{step},{of}))`,
        },
        {
          name: "least",
          label: "Smallest sensible batch for this scale (g or oz)",
          format: "0.0",
          formula:
            '=IF(SUM({pours.oil:same})=0,"",MIST.LEASTBATCH({pours.oil:same}/{batch},{step},{error}))',
        },
        {
          name: "enough",
          label: "Is this batch large enough?",
          look: "answer",
          formula: '=IF(ISNUMBER({least}),IF({batch}>={least},"yes","no: pour more"),{least})',
        },
      ],
    },
    {
      gap: 1,
      table: "poured",
      across: HEADS.length,
      heads: ["What was poured", ...HEADS],
      rows: [
        {
          name: "oil",
          label: "Oil as read (g or oz)",
          format: "0.00",
          demo: [0.6, 1.1, 1.6],
        },
        {
          name: "base",
          label: "Base as read (g or oz)",
          format: "0.00",
          demo: [19.4, 19, 18.4],
        },
        {
          name: "load",
          label: "Load really poured (%)",
          format: "0.0%",
          formula:
            '=IF(AND({poured.oil:same}="",{poured.base:same}=""),"",MIST.LOADOF({poured.oil:same},{poured.base:same},{of}))',
        },
        {
          name: "mend",
          label: [
            "To set it right, oil to add (g or oz)",
            "To set it right, base to add (g or oz)",
          ],
          format: "0.00",
          spills: 2,
          formula:
            '=IF(OR(SUM({poured.oil},{poured.base})=0,SUM({pours.load})=0),"",MIST.SETRIGHT({poured.oil},{poured.base},IF({poured.oil}="",IF({poured.base}="","",{pours.load}),{pours.load}),{of}))',
        },
      ],
    },
    {
      gap: 1,
      paper: "new page",
      table: "coarse",
      across: HEADS.length,
      heads: ["Where this scale is too coarse, one of these", ...HEADS],
      rows: [
        {
          name: "really",
          label: "What the load can really be (%)",
          look: "caution",
          formula: tooSmall(
            'IF(INDEX({pours.span:same},1)="","",TEXT(INDEX({pours.span:same},1),"0.0%")&" to "&TEXT(INDEX({pours.span:same},2),"0.0%"))',
          ),
        },
        {
          name: "finer",
          label: "A scale with this step, or a finer one (g or oz)",
          format: "0.0000",
          formula: tooSmall("{step}*{batch}/{pours.least:same}"),
        },
        {
          name: "larger",
          label: "Or a batch of at least (g or oz)",
          format: "0.0",
          formula: tooSmall("{pours.least:same}"),
        },
        {
          name: "drops",
          label: "Or drops in place of weighing (count)",
          format: "0",
          formula: tooSmall("{pours.drops:same}"),
        },
        {
          name: "mixoil",
          label: "Or a pre-mix: oil to weigh (g or oz)",
          format: "0.00",
          formula: premix(PART),
        },
        {
          name: "mixbase",
          label: "base to weigh to it (g or oz)",
          format: "0.00",
          formula: premix(`${PART}^2/{pours.oil:same}-${PART}`),
        },
        {
          name: "mixpart",
          label: "of that pre-mix, into the pour (g or oz)",
          format: "0.00",
          formula: premix(PART),
        },
        {
          name: "fill",
          label: "and base to fill the pour (g or oz)",
          format: "0.00",
          formula: premix(`{batch}-${PART}`),
        },
        {
          name: "mixspan",
          label: "What the load can be with it (%)",
          formula: premix(`TEXT(${mixed("-")},"0.0%")&" to "&TEXT(${mixed("+")},"0.0%")`),
        },
      ],
    },
    {
      text: "note",
      rows: [
        "A pre-mix is weighed twice, once made and once used: its errors add up, and are in that load.",
      ],
    },
  ],
  page: {
    caution:
      "Flammable: no flame or spark near, air moving, gloves. The safety data sheet comes first.",
  },
};
