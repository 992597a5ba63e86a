import { DEMO_BATCHES, DEMO_WEIGHED, bottlesOf } from "./demo/batches.ts";
import { DEMO_MATERIALS } from "./demo/materials.ts";
import { LIQUIDS } from "./weighed.ts";
import type { Template } from "../sheets/template.ts";

/** Batches with a lot that are shown; how many there are is said. */
const SHOWN = 12;

const isOf = (kinds: readonly string[], material: string) =>
  DEMO_MATERIALS.some(({ name, what }) => name === material && kinds.includes(what));
const pouredFor = (batch: string, kinds: readonly string[]) =>
  DEMO_WEIGHED.filter((line) => line.batch === batch && isOf(kinds, line.material)).reduce(
    (sum, { amount }) => sum + amount,
    0,
  );

/** Without Weighed nobody can tell where a lot went. */
const UNKNOWN = 'COUNTIF({batches.found},"Weighed?")>0';

/** All that was poured for batches of the book, as Weighed has it: one sum, and not one for each batch. */
const ON_WEIGHED = 'SUMIFS({Weighed!weighed.liquid},{Weighed!weighed.line},">0")';

/**
 * What the k-th batch with the lot has in a column. Where there is none the first line is looked at, as a line
 * of nothing would be the whole book.
 */
const traced = (column: string) => {
  const there = `INDEX({batches.${column}},MAX(1,SUM({row})))`;
  return `=IF(OR({row}="",${there}=""),"",${there})`;
};

/** Every batch that was made; and from a lot, every batch and bottle it went into. */
export const template: Template = {
  title: "Batch book",
  use: "Every batch: date, recipe, bottles, what was really poured; from a lot, every batch and bottle it is in.",
  words:
    "record, log, diary, poured, last month, lot numbers, recall, trace, what I made, history, who got it, complaint, which batch, where a bottle came from",
  step: 14,
  widths: [196, 92, 140, 92, 220, 84, 84, 104, 92, 330, 220, 74, 74],
  parts: [
    { text: "title", rows: ["Batch book"] },
    {
      text: "note",
      rows: [
        "One line a batch. The pane writes it from a bench sheet: Book this run. Lots and weights stand on Weighed.",
        "Take a run back in the pane empties its line here and on Weighed, and on hand has the stock again.",
      ],
    },
    {
      gap: 1,
      name: "trace",
      apart: 2,
      fields: [
        { name: "lot", label: "Lot to trace", demo: "RS-5" },
        {
          name: "of",
          label: "Of this material (blank: any)",
          words: "{Materials!materials.picks}",
          demo: "Rain on Slate",
        },
        {
          name: "howmany",
          label: "Batches with this lot",
          format: "0",
          formula: `=IF(OR({lot}="",${UNKNOWN}),"",COUNT({batches.found}))`,
          note: `=IF({lot}="","type a lot",IF(${UNKNOWN},"without Weighed in the workbook it cannot be told",IF({howmany}>${SHOWN},"the first ${SHOWN} are shown",IF({howmany}=0,"no batch has it, as Weighed says",""))))`,
        },
        {
          name: "bottles",
          label: "Bottles in them (count)",
          format: "0",
          formula: `=IF(OR({lot}="",${UNKNOWN}),"",SUMIFS({batches.count},{batches.found},">0"))`,
          note: '=IF(COUNT({batches.found})=COUNTIFS({batches.found},">0",{batches.count},">=0"),"","not counted in every one: there are more")',
        },
        {
          name: "filled",
          label: "Batches in the book",
          format: "0",
          formula: "=COUNTA({batches.number})",
          note: '=IF({filled}=0,"no batch is booked yet",IF({filled}={counted},"every one has what was poured","with what was poured: "&{counted}&"; look under Said of this batch"))',
        },
        {
          name: "counted",
          label: "Batches with what was poured",
          format: "0",
          formula: "=COUNT({batches.weight})",
          note: `=IF(ABS(SUM({batches.weight})-${ON_WEIGHED})<0.05,"","poured in the book "&TEXT(SUM({batches.weight}),"#,##0.0")&" g, on Weighed "&TEXT(${ON_WEIGHED},"#,##0.0")&" g: look for what was changed")`,
        },
      ],
    },
    {
      gap: 1,
      list: "traced",
      lines: SHOWN,
      columns: [
        { name: "number", heading: "Batch with the lot", formula: traced("number") },
        { name: "date", heading: "Date", format: "yyyy-mm-dd", formula: traced("date") },
        { name: "recipe", heading: "Recipe", formula: traced("recipe") },
        { name: "who", heading: "Who", formula: traced("who") },
        { name: "sizes", heading: "Bottles filled", formula: traced("sizes") },
        {
          name: "count",
          heading: "Bottles (count)",
          format: "0",
          formula: traced("count"),
        },
        {
          name: "row",
          heading: "Line of the book",
          format: "0",
          formula:
            '=IF(ROW()-ROW({traced.number:head})>COUNT({batches.found}),"",SMALL({batches.found},ROW()-ROW({traced.number:head}))-ROW({batches.number:head}))',
        },
      ],
    },
    {
      gap: 1,
      paper: "new page",
      list: "batches",
      lines: DEMO_BATCHES.length + 8,
      reach: 5000,
      columns: [
        { name: "number", heading: "Batch", demo: DEMO_BATCHES.map(({ number }) => number) },
        {
          name: "date",
          heading: "Date",
          format: "yyyy-mm-dd",
          demo: DEMO_BATCHES.map(({ date }) => date),
        },
        {
          name: "recipe",
          heading: "Recipe",
          words: "{Recipes!recipes.picks}",
          demo: DEMO_BATCHES.map(({ recipe }) => recipe),
        },
        { name: "who", heading: "Who", demo: DEMO_BATCHES.map(({ who }) => who) },
        {
          name: "sizes",
          heading: "Bottles filled",
          demo: DEMO_BATCHES.map(({ filled }) => bottlesOf(filled)),
        },
        {
          name: "count",
          heading: "Bottles (count)",
          format: "0",
          demo: DEMO_BATCHES.map(({ filled }) => filled.reduce((sum, [, count]) => sum + count, 0)),
        },
        {
          name: "weight",
          heading: "Poured (g)",
          format: "#,##0.0",
          demo: DEMO_BATCHES.map(({ number }) => pouredFor(number, LIQUIDS)),
        },
        {
          name: "load",
          heading: "Oil in what was poured (%)",
          format: "0.00%",
          demo: DEMO_BATCHES.map(
            ({ number }) => pouredFor(number, ["fragrance oil"]) / pouredFor(number, LIQUIDS),
          ),
        },
        {
          name: "useby",
          heading: "Use by (date)",
          format: "yyyy-mm-dd",
          demo: DEMO_BATCHES.map(({ useby }) => useby),
        },
        { name: "notes", heading: "Notes", demo: DEMO_BATCHES.map(({ notes }) => notes ?? null) },
        {
          name: "said",
          heading: "Said of this batch",
          look: "note",
          marks: [{ begins: "twice", mark: "over" }],
          formula:
            '=IF({number}="",IF(COUNTA({date},{recipe})=0,"","which batch?"),TEXTJOIN("; ",TRUE,IF(MATCH({number},{batches.number},0)=ROW()-ROW({batches.number:head}),"","twice in the book: give one another number"),IF({date}="","no date: on hand does not fall",""),IF({recipe}="","which recipe?",""),IF({count}="","bottles not counted",""),IF({weight}="","what was poured?","")))',
        },
        {
          // Blank numbers are passed over here, and a blank lot is that of no weighing.
          name: "found",
          heading: "Row with the lot traced",
          hidden: true,
          format: "0",
          formula:
            '=IF({number}="","",IF(ISERROR(MATCH({number},{Weighed!weighed.traced},0)),"",ROW()))',
          alone: '=IF(OR({lot}="",{number}=""),"","Weighed?")',
        },
      ],
    },
  ],
  page: {
    landscape: true,
    heads: "batches",
    columns: 1,
    caution: "Flammable liquids: the safety data sheet and local rules come first.",
  },
};
