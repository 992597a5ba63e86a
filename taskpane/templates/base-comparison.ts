import { PACK_UNITS } from "../sheets/pack-units.ts";
import { HELD, HELD_IN, packRead } from "../sheets/read-packs.ts";
import { THERE, hoursOf } from "./spray-trial-log/hours.ts";
import type { Template } from "../sheets/template.ts";

const LINES = 12;
/** Bases in the picture. */
const BASES = 6;

/** What the line of Materials says, which this line is drawn from. */
const drawn = (column: string) => {
  const cell = `INDEX({Materials!materials.${column}},{line})`;
  return `=IF(ISNUMBER({line}),IF(${cell}="","",${cell}),"")`;
};

/** What another sheet says of the base, in the line of a list that has its name. */
const ofBase = (list: string, key: string, column: string) => {
  const line = `MATCH({base},{${list}.${key}},0)`;
  return `=IF({base}="","",IF(ISERROR(${line}),"not there",INDEX({${list}.${column}},${line})))`;
};
const inIt = (column: string) => ofBase("What is in it!bases", "base", column);

/** The pack that counts as the cheapest. */
const lowest = 'MATCH(MINIFS({packs.floz},{packs.floz},">0"),{packs.floz},0)';
const lostBlank = 'SUMPRODUCT(({packs.price}<>"")*({packs.lost}=""))';
const ofMaterials = "COUNT({Materials!materials.basenth})";

/** The base that stands in the picture at a place. */
const turned = (place: number) => `INDEX({packs.base},MATCH(${place},{packs.turn},0))`;

/** Supplier packs in unlike sizes, brought to one landed cost per US fluid ounce. Demo data invented. */
export const template: Template = {
  title: "Base comparison",
  use: "Several suppliers' packs, sold by weight or volume, as one landed cost per fluid ounce, beside what is in them and how long they last.",
  words:
    "which base is cheaper, cheapest supplier, compare bases, price per ounce, shipping, freight, samples, best value, cost per ounce",
  step: 5,
  widths: [
    194, 136, 60, 52, 62, 66, 62, 150, 62, 54, 78, 84, 78, 68, 62, 62, 84, 106, 62, 74, 84, 84, 84,
    74, 74, 330, 300, 60, 60, 60,
  ],
  parts: [
    { text: "title", rows: ["Base comparison"] },
    {
      text: "note",
      rows: [
        "One line a pack on offer. Type over cream cells; blue are drawn. Spare lines may stay blank.",
        "A pound is not 16 fl oz: a pack by weight needs its density. Weigh it: MIST.DENSITYOF.",
        "Freight is of one order, shared by its packs. Blank is not known: type 0 where it is free.",
        "Not disclosed is not known, not harmless: get the safety data sheet before you pour.",
      ],
    },
    {
      gap: 1,
      name: "results",
      fields: [
        {
          name: "best",
          label: "Lowest landed cost",
          formula: `=IF({priced}=0,"",INDEX({packs.base},${lowest}))`,
          note: `=IF({priced}=0,"No line is filled yet.","from "&INDEX({packs.supplier},${lowest})&"; lines with a price: "&{priced})`,
        },
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({packs.base:all}<>""))-1',
          format: "0",
          note: '=IF({samples}=0,"","of which samples without a price: "&{samples})',
        },
        {
          name: "priced",
          label: "Lines with a cost",
          formula: "=COUNT({packs.floz})",
          format: "0",
          note: '=IF({filled}=0,"",IF({priced}+{samples}={filled},"Every filled line is counted.","Left out: "&({filled}-{priced}-{samples})&". Look for ? and red cells; point at one for why."))',
        },
        {
          name: "samples",
          label: "Samples alone",
          formula: '=COUNTIF({packs.floz},"sample only")',
          format: "0",
          note: `=IF(${lostBlank}=0,"","Where Lost is blank nothing lost is counted: "&${lostBlank}&" lines")`,
        },
      ],
    },
    {
      text: "note",
      under: "results",
      name: "more",
      rows: [
        `=IF(${ofMaterials}>{filled},"Materials has "&${ofMaterials}&" lines of bases, of which "&{filled}&" are here: copy the last line down for more.","")`,
      ],
    },
    {
      list: "cheapest",
      beside: "results",
      skip: 4,
      lines: BASES,
      columns: [
        {
          name: "name",
          heading: "Each base",
          look: "result",
          demo: Array.from(
            { length: BASES },
            (_, i) =>
              `=IF(COUNTIF({packs.turn},${i + 1})=0,"",${turned(i + 1)}&IF(COUNTIFS({packs.base},${turned(i + 1)},{packs.floz},">0")=0,": no cost",""))`,
          ),
        },
        {
          name: "cost",
          heading: "At least ($ per fl oz)",
          format: "0.000",
          formula:
            '=IF({name}="","",IF(COUNTIFS({packs.base},{name},{packs.floz},">0")=0,"",MINIFS({packs.floz},{packs.base},{name},{packs.floz},">0")))',
        },
      ],
    },
    { room: "picture", beside: "cheapest", rows: 10, columns: 5 },
    {
      gap: 1,
      list: "packs",
      lines: LINES,
      reach: 60,
      columns: [
        {
          name: "base",
          heading: "Base",
          demo: ["Alder Clear", "Bluepost Soft", "Drovers Dry"],
          draw: drawn("name"),
        },
        {
          name: "supplier",
          heading: "Supplier",
          demo: ["Alder Row", "Bluepost Chandlery", "Drovers Wharf"],
          draw: drawn("supplier"),
        },
        {
          name: "price",
          heading: "Price of a pack ($)",
          format: "#,##0.00",
          demo: [46, 39, 61],
          draw: drawn("price"),
        },
        { name: "size", heading: "Pack size", worded: true, demo: [1, 8, 5], draw: drawn("size") },
        {
          name: "unit",
          heading: "Pack unit",
          words: PACK_UNITS,
          demo: ["gal", "lb", "L"],
          draw: drawn("unit"),
        },
        {
          name: "density",
          heading: "Density (g/mL)",
          format: "0.000",
          demo: [null, 0.93],
          draw: drawn("density"),
        },
        {
          name: "count",
          heading: "Packs in the order (count)",
          demo: [1, 1, 2],
          draw: drawn("packs"),
        },
        {
          name: "freight",
          heading: "Freight of the order ($)",
          format: "#,##0.00",
          demo: [14.5, 12.75, 22],
          draw: drawn("freight"),
        },
        {
          name: "freefrom",
          heading: "Freight free from ($)",
          format: "#,##0.00",
          demo: [75, 100, 120],
          draw: drawn("freefrom"),
        },
        {
          name: "lost",
          heading: "Lost (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: [0.02, 0.02, 0.02],
          draw: drawn("lost"),
        },
        {
          name: "landed",
          heading: "Landed pack ($)",
          format: "#,##0.00",
          formula:
            '=IF({price}="","",IF(SUM({count})<=0,"how many packs?",IF({freight}="","freight?",MIST.LANDED({price},{count},{freight},{freefrom})/{count})))',
        },
        {
          name: "floz",
          heading: "Landed cost ($ per fl oz)",
          format: "0.000",
          formula: `=IF(ISNUMBER({landed}),IF(${HELD_IN}="",MIST.FLOZCOST({landed},{size},{unit},{density},0,{lost}),MIST.FLOZCOST({landed},${HELD},${HELD_IN},{density},0,{lost})),IF({landed}<>"","",IF({size}<>"","price?",IF({sampleprice}="","","sample only"))))`,
        },
        {
          name: "against",
          heading: "Against cheapest",
          format: '0.00" x"',
          formula: '=IF(ISNUMBER({floz}),{floz}/MINIFS({packs.floz},{packs.floz},">0"),"")',
        },
        {
          name: "sampleprice",
          heading: "Sample price ($)",
          format: "#,##0.00",
          demo: [9, 7.5, 11],
          draw: drawn("sampleprice"),
        },
        {
          name: "samplesize",
          heading: "Sample size",
          worded: true,
          demo: [4, 4, 100],
          draw: drawn("samplesize"),
        },
        {
          name: "sampleunit",
          heading: "Sample unit",
          words: PACK_UNITS,
          demo: ["floz", "oz", "mL"],
          draw: drawn("sampleunit"),
        },
        {
          name: "samplefloz",
          heading: "Sample cost ($ per fl oz)",
          format: "0.000",
          formula:
            '=IF({sampleprice}="","",IF({samplepackin}="",MIST.FLOZCOST({sampleprice},{samplesize},{sampleunit},{density}),MIST.FLOZCOST({sampleprice},{samplepackheld},{samplepackin},{density})))',
        },
        {
          name: "disclosed",
          heading: "Ingredients",
          words: ["all named", "part named", "not disclosed"],
          demo: ["all named", "part named", "not disclosed"],
          draw: drawn("disclosed"),
        },
        { name: "named", heading: "Named (count)", demo: [], draw: inIt("named") },
        { name: "avoided", heading: "To avoid (count)", demo: [], draw: inIt("avoided") },
        {
          name: "undisclosed",
          heading: "Undisclosed at most (%)",
          format: "0.0%",
          demo: [],
          draw: inIt("most"),
        },
        {
          name: "cloth",
          heading: "Lasts on cloth (h)",
          format: "0.0",
          demo: [],
          draw: `=${hoursOf("{base}", "cloth", THERE)}`,
        },
        {
          name: "room",
          heading: "Lasts in the room (h)",
          format: "0.0",
          demo: [],
          draw: `=${hoursOf("{base}", "room", THERE)}`,
        },
        {
          name: "score",
          heading: "Score (1 to 5)",
          limits: [1, 5],
          demo: [4, 3, 4],
          draw: drawn("score"),
        },
        {
          name: "pick",
          heading: "Pick",
          words: ["pick", "reserve", "no"],
          demo: ["pick", "no", "reserve"],
          draw: drawn("pick"),
        },
        {
          name: "notes",
          heading: "Notes",
          demo: [
            "fine mist, dries clear",
            "soft on cloth, slow to dry",
            "dries fastest, sharp opening",
          ],
          draw: drawn("notes"),
        },
        { heading: "Typed over", look: "note", over: true },
        {
          name: "line",
          hidden: true,
          heading: "Line of Materials",
          format: "0",
          formula:
            '=IF(ISERROR(MATCH(ROW()-ROW({packs.base:head}),{Materials!materials.basenth},0)),"",MATCH(ROW()-ROW({packs.base:head}),{Materials!materials.basenth},0))',
        },
        {
          name: "nth",
          hidden: true,
          heading: "Pack of the base",
          format: "0",
          formula: '=IF({base}="","",COUNTIF({packs.base:upto},{base}))',
        },
        {
          name: "turn",
          hidden: true,
          heading: "Base, each once",
          format: "0",
          formula: '=IF({nth}=1,COUNTIF({packs.nth:upto},1),"")',
        },
        ...packRead(),
        ...packRead("{samplesize}", "{sampleunit}", "sample"),
      ],
    },
  ],
  charts: [
    {
      title: "Landed cost of each base, cheapest pack",
      kind: "columns",
      unit: "$ per US fl oz",
      labels: "{cheapest.name}",
      series: [{ name: "$ per US fl oz", values: "{cheapest.cost}" }],
      over: "{picture}",
    },
  ],
  page: {
    landscape: true,
    heads: "packs",
    columns: 1,
    sections: { begin: ["packs.disclosed"], repeat: 2 },
    caution: "Not disclosed means not known, not harmless: the safety data sheet comes first.",
  },
};
