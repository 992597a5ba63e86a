import { isTooMuchLost, saidOfName } from "../sheets/columns.ts";
import { PACK_UNITS, PIECE } from "../sheets/pack-units.ts";
import { HELD, HELD_IN, packRead, saidOfPack } from "../sheets/read-packs.ts";
import { DEMO_MATERIALS } from "./demo/materials.ts";
import type { Template } from "../sheets/template.ts";

const UNITS = [...PACK_UNITS, PIECE];
const demo = <K extends keyof (typeof DEMO_MATERIALS)[number]>(key: K) =>
  DEMO_MATERIALS.map((line) => line[key] ?? null);

/** What a price list of the maker's own may draw. */
const OWN_DRAWS = { ownDraws: true } as const;

/** What a pack lands at for one of something, or what is missing to say it. */
const each = (turned: string) =>
  `=IF(OR(NOT(ISNUMBER({landed})),${HELD_IN}="",${HELD_IN}="piece",SUM(${HELD})<=0),"",IF(${isTooMuchLost("{lost}")},"lost?",IF(ISERROR(${turned}),"density?",${turned})))`;

/** Everything that is bought, one line each: the sheet that all others draw from. */
export const template: Template = {
  title: "Materials",
  use: "Everything you buy, typed once: packs, prices, freight, what is on hand, limits. All other sheets draw from it.",
  words:
    "stock, inventory, on hand, supplies, wax, wick, data sheet, prices, reorder, running low, run out, expiry, expired, old, use by date, price per kilo, samples, suppliers, shipping, left, supplier list, add a supplier, who sold it, bought from, enough, run out of base, oil or bottles",
  step: 1,
  widths: [
    236, 104, 138, 100, 74, 66, 66, 74, 74, 82, 82, 66, 82, 82, 88, 88, 240, 92, 96, 92, 84, 84, 92,
    92, 74, 82, 82, 82, 82, 82, 74, 104, 92, 108, 74, 82, 74, 74, 74, 88, 74, 180, 92, 92, 140, 150,
    60, 140, 60, 60, 60, 140,
  ],
  parts: [
    { text: "title", rows: ["Materials"] },
    {
      text: "note",
      rows: [
        "One line a pack on offer: base, oil, wax, bottle, label. Other sheets find it by its name.",
        "Packs of a material have one name: one is in use (so is a blank), the others are offers.",
        "A blank is not 0: type 0 for no cost. A size may be a text, its unit blank: 4 x 250 mL.",
      ],
    },
    {
      text: "caution",
      rows: ["Flammable: keep closed, cool, far from flame. The safety data sheet comes first."],
    },
    {
      gap: 1,
      fields: [
        {
          name: "filled",
          label: "Lines filled",
          formula: '=SUMPRODUCT(--({materials.name:all}<>""))-1',
          format: "0",
          note: '=IF(SUM({materials.leftout})=0,"","of your own list not here: "&SUM({materials.leftout})&IFERROR(", "&INDEX({materials.ownname},MATCH(1,{materials.leftout},0)),"")&"; draw from it again, or type the name below the last line; ")&IF({filled}=0,"no line is filled yet",IF({filled}={counted},"every one is priced or a sample","priced or a sample: "&{counted}&"; look under Said of this line, and above the first and below the last one that is counted"))',
        },
        {
          name: "counted",
          label: "Lines with a landed price, or a sample",
          formula:
            '=SUMPRODUCT(({materials.name}<>"")*((ISNUMBER({materials.landed})+ISNUMBER({materials.samplefloz}))>0))',
          format: "0",
        },
        {
          name: "low",
          label: "Below the least to keep",
          formula:
            "=SUMPRODUCT(ISNUMBER({materials.onhand})*ISNUMBER({materials.least})*({materials.onhand}<{materials.least}))",
          format: "0",
        },
        {
          name: "past",
          label: "Past their use by",
          formula: "=SUMPRODUCT(ISNUMBER({materials.useby})*({materials.useby}<TODAY()))",
          format: "0",
        },
      ],
    },
    {
      gap: 1,
      list: "materials",
      lines: DEMO_MATERIALS.length + 4,
      reach: 2000,
      columns: [
        { name: "name", heading: "Material", demo: demo("name") },
        {
          name: "what",
          heading: "What it is",
          words: [
            "base",
            "fragrance oil",
            "additive",
            "wax",
            "wick",
            "jar",
            "bottle",
            "sprayer",
            "cap",
            "label",
            "box",
            "other",
          ],
          demo: demo("what"),
        },
        { name: "supplier", heading: "Supplier", demo: demo("supplier") },
        {
          name: "standing",
          heading: "Standing",
          words: ["in use", "offer", "sample only"],
          demo: demo("standing"),
        },
        {
          name: "price",
          ...OWN_DRAWS,
          heading: "Price of a pack ($)",
          format: "0.00",
          demo: demo("price"),
        },
        { name: "size", heading: "Pack size", worded: true, demo: demo("size") },
        { name: "unit", heading: "Pack unit", words: UNITS, demo: demo("unit") },
        {
          name: "density",
          ...OWN_DRAWS,
          heading: "Density (g/mL)",
          format: "0.000",
          demo: demo("density"),
        },
        { name: "packs", ...OWN_DRAWS, heading: "Packs in the order (count)", demo: demo("packs") },
        {
          name: "freight",
          ...OWN_DRAWS,
          heading: "Freight of the order ($)",
          format: "0.00",
          demo: demo("freight"),
        },
        {
          name: "freefrom",
          ...OWN_DRAWS,
          heading: "Freight free from ($)",
          format: "0.00",
          demo: demo("freefrom"),
        },
        {
          name: "lost",
          ...OWN_DRAWS,
          heading: "Lost (%)",
          format: "0%",
          limits: [0, 1],
          demo: demo("lost"),
        },
        {
          name: "landed",
          heading: "Landed pack ($)",
          format: "0.00",
          formula:
            '=IF({price}="","",IF(SUM({packs})<=0,"how many?",IF({freight}="","freight?",MIST.LANDED({price},{packs},{freight},{freefrom})/{packs})))',
        },
        {
          name: "perg",
          heading: "Lands at ($ per g)",
          format: "0.0000",
          formula: each(`{landed}/MIST.TURN(${HELD},${HELD_IN},"g",{density})/(1-SUM({lost}))`),
        },
        {
          name: "perfloz",
          heading: "Lands at ($ per fl oz)",
          format: "0.000",
          formula: each(`MIST.FLOZCOST({landed},${HELD},${HELD_IN},{density},0,{lost})`),
        },
        {
          name: "perpiece",
          heading: "Lands at ($ per piece)",
          format: "0.000",
          formula: `=IF(OR(NOT(ISNUMBER({landed})),${HELD_IN}<>"piece",SUM(${HELD})<=0),"",IF(${isTooMuchLost("{lost}")},"lost?",{landed}/${HELD}/(1-SUM({lost}))))`,
        },
        {
          name: "said",
          heading: "Said of this line",
          look: "note",
          formula: `=IF({name}="",IF({what}&{supplier}&{price}="","","which material?"),TEXTJOIN("; ",TRUE,IF(AND(ISTEXT({ownrow}),{price}=""),{ownrow},""),${saidOfName("{name}")},IF({what}="","what is it?",""),IF({price}="",IF({standing}="sample only",IF(ISNUMBER({samplefloz}),"a sample only","a sample only: its price, size or density?"),"no price"),IF(ISNUMBER({landed}),"",{landed})),IF({size}="",IF({price}="","","pack size?"),${saidOfPack("pack")}),IF(${isTooMuchLost("{lost}")},"lost is from 0 % to below 100 %",""),IF(OR({perg}="density?",AND({perfloz}="density?",{what}<>"wax")),"density? weigh a known volume",""),IF(SUM({onhand})<0,"on hand is below zero: count it anew",""),IF({key}="","",IF(MATCH({key},{materials.key},0)=ROW()-ROW({materials.name:head}),"","a line above is in use too: that one counts")),IF({sheetdate}="",IF(OR({what}="base",{what}="fragrance oil"),"no date of its data sheet",""),"")))`,
        },
        { name: "counted", heading: "Counted on hand (g or pieces)", demo: demo("counted") },
        {
          name: "countedon",
          heading: "Counted on (date)",
          format: "yyyy-mm-dd",
          demo: demo("countedon"),
        },
        {
          name: "onhand",
          heading: "On hand now (g or pieces)",
          format: "0.0",
          formula:
            '=IF(OR({counted}="",AND({key}="",{lotline}="")),"",{counted}-IF(OR({key}="",ISERROR(MATCH({name},{Weighed!weighed.material},0))),0,SUMIFS({Weighed!weighed.counts},{Weighed!weighed.stock},MATCH({name},{Weighed!weighed.material},0),{Weighed!weighed.date},">="&SUM({countedon})))-IF({lotline}="",0,SUMIFS({Weighed!weighed.counts},{Weighed!weighed.stock},-SUM({lotline}),{Weighed!weighed.date},">="&SUM({countedon}))))',
          alone: '=IF(OR({counted}="",AND({key}="",{lotline}="")),"",{counted})',
        },
        { name: "least", heading: "Least to keep (g or pieces)", demo: demo("least") },
        { name: "lot", heading: "Lot", demo: demo("lot") },
        { name: "opened", heading: "Opened (date)", format: "yyyy-mm-dd", demo: demo("opened") },
        { name: "useby", heading: "Use by (date)", format: "yyyy-mm-dd", demo: demo("useby") },
        {
          name: "vocpart",
          heading: "VOC part (%)",
          format: "0%",
          limits: [0, 1],
          demo: demo("vocpart"),
        },
        {
          name: "limits",
          heading: [
            "Skin limit, room spray (%)",
            "Skin limit, linen spray (%)",
            "Skin limit, body spray (%)",
            "Skin limit, diffuser (%)",
            "Skin limit, candle (%)",
          ],
          format: "0.0%",
          demo: DEMO_MATERIALS.map(({ limits }) => limits ?? [null]),
        },
        { name: "flash", heading: "Flash point (C)", demo: demo("flash") },
        {
          name: "hazard",
          heading: "Hazardous by its data sheet (yes or no)",
          words: ["yes", "no", "not known"],
          demo: demo("hazard"),
        },
        {
          name: "sheetdate",
          heading: "Data sheet of (date)",
          format: "yyyy-mm-dd",
          demo: demo("sheetdate"),
        },
        {
          name: "disclosed",
          heading: "Ingredients",
          words: ["all named", "part named", "not disclosed"],
          demo: demo("disclosed"),
        },
        { name: "score", heading: "Score (1 to 5)", limits: [1, 5], demo: demo("score") },
        { name: "pick", heading: "Pick", words: ["pick", "reserve", "no"], demo: demo("pick") },
        {
          name: "sampleprice",
          heading: "Sample price ($)",
          format: "0.00",
          demo: demo("sampleprice"),
        },
        { name: "samplesize", heading: "Sample size", worded: true, demo: demo("samplesize") },
        { name: "sampleunit", heading: "Sample unit", words: PACK_UNITS, demo: demo("sampleunit") },
        {
          name: "samplefloz",
          heading: "Sample cost ($ per fl oz)",
          format: "0.000",
          formula:
            '=IF({sampleprice}="","",IF(ISERROR(MIST.FLOZCOST({sampleprice},{samplepackheld},{samplepackin},{density})),"size, density?",MIST.FLOZCOST({sampleprice},{samplepackheld},{samplepackin},{density})))',
        },
        { name: "days", heading: "Days to arrive (count)", demo: demo("days") },
        { name: "notes", heading: "Notes", demo: demo("notes") },
        {
          name: "takes",
          heading: "Most oil that this base takes (%)",
          format: "0.0%",
          limits: [0, 1],
          demo: demo("takes"),
        },
        {
          name: "strong",
          heading: "A strong oil (yes or no)",
          words: ["yes", "no"],
          demo: demo("strong"),
        },
        {
          name: "key",
          hidden: true,
          heading: "Found by (in use)",
          formula: '=IF(OR({name}="",{standing}="offer",{standing}="sample only"),"",{name})',
        },
        {
          name: "nth",
          hidden: true,
          heading: "Found by (each line)",
          formula: '=IF({name}="","",{name}&"|"&COUNTIF({materials.name:upto},{name}))',
        },
        {
          name: "turn",
          hidden: true,
          heading: "In use, in order",
          format: "0",
          formula: '=IF({key}="","",COUNTIF({materials.key:upto},"?*")-1)',
        },
        {
          // Without gaps, for the drop-downs of other sheets.
          name: "picks",
          hidden: true,
          heading: "Names to pick from",
          formula:
            '=IF(ROW()-ROW({materials.name:head})>COUNT({materials.turn}),"",INDEX({materials.key},MATCH(ROW()-ROW({materials.name:head}),{materials.turn},0)))',
        },
        {
          name: "basenth",
          hidden: true,
          heading: "Base, in order",
          format: "0",
          formula: '=IF({what}="base",COUNTIF({materials.what:upto},"base"),"")',
        },
        {
          name: "ofbase",
          hidden: true,
          heading: "Pack of the base",
          format: "0",
          formula:
            '=IF({basenth}="","",COUNTIFS({materials.name:upto},{name},{materials.what:upto},"base"))',
        },
        {
          name: "baseturn",
          hidden: true,
          heading: "Base, each once",
          format: "0",
          formula: '=IF({ofbase}=1,COUNTIF({materials.ofbase:upto},1),"")',
        },
        {
          name: "bases",
          hidden: true,
          heading: "Bases to pick from",
          formula:
            '=IF(ROW()-ROW({materials.name:head})>COUNT({materials.baseturn}),"",INDEX({materials.name},MATCH(ROW()-ROW({materials.name:head}),{materials.baseturn},0)))',
        },
        // What the pane writes where Materials draws from a list of the maker's own (from-cells/own-list.ts).
        { name: "drawnas", hidden: true, heading: "Drawn from your own list as", demo: [] },
        { name: "ownrow", hidden: true, heading: "Stands in it at", demo: [] },
        { name: "ownname", hidden: true, heading: "Its lines, by name", demo: [] },
        { name: "ownkey", hidden: true, heading: "Its lines, by name and pack", demo: [] },
        { name: "leftout", hidden: true, heading: "Its lines left out", demo: [] },
        ...packRead(),
        ...packRead("{samplesize}", "{sampleunit}", "sample"),
        {
          name: "lotkey",
          hidden: true,
          heading: "Found by (material and lot)",
          formula: '=IF(OR({name}="",{lot}=""),"",{name}&"|"&TRIM({lot}&""))',
        },
        {
          name: "lotline",
          hidden: true,
          heading: "First line with its lot",
          format: "0",
          formula: '=IF({lotkey}="","",MATCH({lotkey},{materials.lotkey},0))',
        },
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "materials",
    columns: 1,
    sections: { begin: ["materials.counted", "materials.flash"], repeat: 2 },
    caution: "Flammable liquids: the safety data sheet and local rules come first.",
  },
};
