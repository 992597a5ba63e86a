import { SKIN_CATEGORIES, VOC_RULES } from "../../src/data/rules";
import { cellName } from "../../functions/formula/addresses";
import type { Template } from "../sheets/template";

/** A day as a sheet counts days: from the end of 1899. */
function serial(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) / 86_400_000 + 25_569;
}

const FIRST_PART = 16;
const LAST_PART = 23;
const RULES_AT = 59;
const SPARE_RULES = 4;
const LAST_RULE = RULES_AT + VOC_RULES.length + SPARE_RULES;
const CATEGORIES_AT = LAST_RULE + 3;

const parts = (column: string) => `${column}${FIRST_PART}:${column}${LAST_PART}`;
const rules = (column: string) => `${column}${RULES_AT + 1}:${column}${LAST_RULE}`;
const categories = (column: string) =>
  `${column}${CATEGORIES_AT + 1}:${column}${CATEGORIES_AT + SKIN_CATEGORIES.length}`;

const products = [...new Set(VOC_RULES.map(({ product }) => product)), "other"];
const places = [...new Set(VOC_RULES.map(({ place }) => place))];

/** In words, never a verdict: what the numbers say, and who decides. */
const inWords = (row: number, unknown: string) =>
  `=IF(D${row}="","${unknown}",IF(C${row}<=D${row},"Within the limit on these numbers.",` +
  `IF(B${row}>D${row},"Over the limit on these numbers.","The range lies on both sides: ask the supplier, or test.")))`;

/** The rule that holds for the product, its place and its day: of several, the strictest. */
const rule = (column: string) =>
  `MINIFS(${rules(column)},${rules("A")},$B$9,${rules("B")},$B$8,${rules("E")},"<="&$B$10)`;
const hasRule = `COUNTIFS(${rules("A")},$B$9,${rules("B")},$B$8,${rules("E")},"<="&$B$10)>0`;

/** True where a rule that holds was not read whole. */
const rememberedRule = `COUNTIFS(${rules("A")},$B$9,${rules("B")},$B$8,${rules("E")},"<="&$B$10,${rules("F")},"*memory*")>0`;

/** One product's composition beside each limit, as ranges. It is arithmetic; it decides nothing. */
export const template: Template = {
  title: "Limits check",
  use: "One product's composition beside skin, VOC, transport and flash limits, as ranges with sources.",
  step: 5,
  widths: [208, 216, 124, 92, 92, 92, 92, 76, 104, 104, 92, 92, 78],
  blocks: [
    { at: "A1", look: "title", rows: [["Limits check"]] },
    {
      at: "A2",
      look: "note",
      rows: [
        [
          "Type over the cream cells. Composition by weight, as the safety data sheets give it: ranges may stay ranges.",
        ],
        [
          "What is not disclosed is not nothing: give it a line, from the least to the most that it could be.",
        ],
        [
          "Numbers marked estimate are estimates. Lines marked from memory were not read in the rule: look them up.",
        ],
      ],
    },
    {
      at: "A5",
      look: "caution",
      rows: [
        [
          "This sheet is arithmetic. The safety data sheet, the oil's certificate, a test or a licensed person decides.",
        ],
      ],
    },
    { at: "A7", look: "section", rows: [["The product"]] },
    {
      at: "A8",
      look: "label",
      rows: [
        ["Kind of product, for VOC"],
        ["Place where it is sold"],
        ["Made on (date)"],
        ["Kind of product, for skin"],
        ["Certificate category to look up"],
      ],
    },
    { at: "B8", look: "input", words: products, rows: [["room spray (pump)"]] },
    { at: "B9", look: "input", words: places, rows: [["California"]] },
    { at: "B10", look: "input", format: "yyyy-mm-dd", rows: [[serial("2026-11-25")]] },
    {
      at: "B11",
      look: "input",
      words: SKIN_CATEGORIES.map(({ product }) => product),
      rows: [["room spray"]],
    },
    {
      at: "B12",
      look: "result",
      rows: [[`=IF(B11="","",INDEX(${categories("B")},MATCH(B11,${categories("A")},0)))`]],
    },
    {
      at: "C12",
      look: "note",
      rows: [[`=IF(B11="","",INDEX(${categories("D")},MATCH(B11,${categories("A")},0)))`]],
    },
    { at: "A14", look: "section", rows: [["What is in it, by weight"]] },
    {
      at: "A15",
      look: "heading",
      rows: [
        [
          "Ingredient",
          "What it is",
          "Fragrance limit on the certificate (%)",
          "Low (%)",
          "High (%)",
          "VOC part, low (%)",
          "VOC part, high (%)",
          "Density (g/mL)",
          "Oil hazardous by its data sheet",
          "Narrowest low (%)",
          "Narrowest high (%)",
          "Part of the fragrance (%)",
          "Counts as alcohol",
        ],
      ],
    },
    {
      at: "A16",
      look: "input",
      rows: [
        ["Alcohol of the base"],
        ["Water"],
        ["Not disclosed"],
        ["Rain on Slate"],
        ["Attic Cedar"],
        [null],
        [null],
        [null],
      ],
    },
    {
      at: "B16",
      look: "input",
      words: ["ethanol", "isopropanol", "water", "fragrance oil", "other"],
      rows: [
        ["ethanol"],
        ["water"],
        ["other"],
        ["fragrance oil"],
        ["fragrance oil"],
        [null],
        [null],
        [null],
      ],
    },
    {
      at: "C16",
      look: "input",
      format: "0.0%",
      rows: [[null], [null], [null], [0.08], ["not limited"], [null], [null], [null]],
    },
    {
      at: "D16",
      look: "input",
      format: "0.0%",
      limits: [0, 1],
      rows: [
        [0.15, 0.25, 1, 1],
        [0.68, 0.8, 0, 0],
        [0.01, 0.05, 0, 1],
        [0.03, 0.03, 1, 1],
        [0.01, 0.01, 1, 1],
        [null, null, null, null],
        [null, null, null, null],
        [null, null, null, null],
      ],
    },
    {
      at: "H16",
      look: "input",
      format: "0.000",
      rows: [[0.789], [0.998], [1], [0.95], [0.94], [null], [null], [null]],
    },
    {
      at: "I16",
      look: "input",
      words: ["yes", "no"],
      rows: [[null], [null], [null], ["yes"], ["no"], [null], [null], [null]],
    },
    {
      at: "J16",
      look: "result",
      format: "0.0%;-0.0%;",
      formula: `=IF(SUM(${parts("E")})=0,"",MIST.SDSTIGHTEN(${parts("D")},${parts("E")}))`,
      spills: [8, 2],
    },
    {
      at: "L16",
      look: "result",
      format: "0.0%;-0.0%;",
      formula: `=IF(B16="fragrance oil",E16/SUMIF(B$16:B$23,"fragrance oil",E$16:E$23),0)`,
      down: 8,
    },
    {
      at: "M16",
      look: "answer",
      formula: '=IF(B16="","",IF(OR(B16="ethanol",B16="isopropanol"),"yes","no"))',
      down: 8,
    },
    { at: "A25", look: "section", rows: [["Each limit beside its value"]] },
    {
      at: "A26",
      look: "heading",
      rows: [
        ["What is limited", "Value, low (%)", "Value, high (%)", "Limit (%)", "Room left (%)"],
      ],
    },
    { at: "F26", look: "heading", rows: [["In words", null, null, null, null, null, null]] },
    {
      at: "A27",
      look: "label",
      rows: [
        ["Fragrance, by certificates"],
        ["VOC by weight, by place"],
        ["Alcohol by volume (estimate)"],
      ],
    },
    {
      at: "B27",
      look: "result",
      format: "0.0%",
      rows: [
        [
          `=IF(SUM(${parts("E")})=0,"",SUMIF(${parts("B")},"fragrance oil",${parts("J")}))`,
          `=IF(SUM(${parts("E")})=0,"",SUMIF(${parts("B")},"fragrance oil",${parts("K")}))`,
        ],
      ],
    },
    {
      at: "B28",
      look: "result",
      format: "0.0%",
      formula: `=IF(SUM(${parts("E")})=0,"",MIST.VOCSHARE(J16:K23,F16:G23,B27,IF(${hasRule},${rule("D")},0)))`,
      spills: [1, 2],
    },
    {
      at: "B29",
      look: "result",
      format: "0.0%",
      formula: `=IF(SUM(${parts("E")})=0,"",MIST.ALCOHOLVOLUME(J16:K23,${parts("H")},${parts("M")}))`,
      spills: [1, 2],
    },
    {
      at: "D27",
      look: "result",
      format: "0.0%",
      rows: [
        [`=IF(SUM(${parts("L")})=0,"",MIST.SAFELOAD(${parts("L")},${parts("C")}))`],
        [`=IF(${hasRule},${rule("C")},"")`],
        ['=IF(B29="","",0.24)'],
      ],
    },
    {
      at: "E27",
      look: "result",
      format: "0.0%",
      formula: '=IF(OR(C27="",D27=""),"",D27-C27)',
      down: 3,
    },
    {
      at: "F27",
      look: "note",
      rows: [
        [inWords(27, "No oil, or no certificate read yet.")],
        [
          `${inWords(28, "No rule is listed for this product, place and day: look it up.")}&IF(${rememberedRule}," The rule is from memory, or partly: read it.","")`,
        ],
        [
          `=IF(B29="","",IF(COUNTIF(${parts("I")},"yes")>0,"The aqueous-alcohol exception is lost: an oil is hazardous itself. A trained shipper classes it.",IF(C29+0.023<=0.24,"May fall under the aqueous-alcohol exception (49 CFR 173.150(e)); a trained shipper decides.",IF(B29>0.24,"Over 24 % by volume: the aqueous-alcohol exception does not reach it.","Too near to 24 % for an estimate that can read 2.3 points low: measure it."))))`,
        ],
      ],
    },
    { at: "A31", look: "section", rows: [["Flash point, closed cup: an estimate"]] },
    {
      at: "A32",
      look: "heading",
      rows: [["Taken from", "Cautious estimate (C)", "Lowest (C)", "Highest (C)"]],
    },
    { at: "E32", look: "heading", rows: [["What it decides", null, null, null]] },
    {
      at: "A33",
      look: "label",
      rows: [["Most alcohol, least water"]],
    },
    {
      at: "B33",
      look: "result",
      format: "0",
      formula: `=IF(SUMIF(${parts("M")},"yes",${parts("K")})=0,"",MIST.FLASHGUESS(SUMIF(${parts("B")},"ethanol",${parts("K")}),SUMIF(${parts("B")},"isopropanol",${parts("K")})))`,
      spills: [1, 4],
    },
    {
      at: "A34",
      look: "note",
      rows: [
        [
          "Vapour pressure over alcohol and water. Against the one published table it is off by 1.4 degrees on average and 2.1 at most if that table",
        ],
        [
          "is by volume, by 1.8 and 5.8 if by weight; which it is, is disputed, so the cautious value is shown. Fragrance oil, glycols and other solvents",
        ],
        [
          "are not in it and can move it either way. Its constants are from memory. It decides no class: a closed-cup test does.",
        ],
      ],
    },
    { at: "A38", look: "section", rows: [["The lowest of the limits on the load"]] },
    { at: "A39", look: "heading", rows: [["Limit", "Load (%)"]] },
    {
      at: "A40",
      look: "label",
      rows: [
        ["skin, by certificates"],
        ["supplier's maximum"],
        ["seen to dissolve in a trial"],
        ["what VOC leaves room for"],
        ["Lowest, and which"],
      ],
    },
    { at: "B40", look: "result", format: "0.0%", rows: [["=D27"]] },
    { at: "B41", look: "input", format: "0.0%", rows: [[0.06], [0.05]] },
    {
      at: "B43",
      look: "result",
      format: "0.0%",
      rows: [['=IF(E28="","not limited",IF(C27+E28<=0,"none",MIN(1,C27+E28)))']],
    },
    {
      at: "B44",
      look: "result",
      format: "0.0%",
      formula: `=IF(OR(SUM(${parts("E")})=0,SUM(B41:B42)=0),"",MIST.TOPLOAD(A40:A43,B40:B43))`,
      spills: [1, 2],
    },
    {
      at: "A45",
      look: "note",
      rows: [
        [
          "Each part of oil counts as a part of VOC here; a limit that is not known must be asked for, not left blank.",
        ],
      ],
    },
    { at: "A47", look: "section", rows: [["Before anyone uses it"]] },
    {
      at: "A48",
      look: "caution",
      rows: [
        [
          "Air and fire: pour and spray with air moving, away from flames, pilot lights, heaters and sparks. Keep it closed and cool.",
        ],
        [
          "Cloth and wood: spray a hidden spot first, let it dry, look for stain, film and colour. Finishes and silk are at risk.",
        ],
        [
          "Skin: a room or linen spray is not a body mist. Skin use has its own category, limits and labelling.",
        ],
        [
          "Pets and children: keep away until dry, out of reach, and never on bedding of pets; some oils are toxic to cats and birds.",
        ],
        [
          "Law: labels, storage, transport and sale have rules where you are. Ask the authority, the carrier and your insurer.",
        ],
      ],
    },
    { at: "A54", look: "section", rows: [["VOC rules, by weight"]] },
    {
      at: "A55",
      look: "note",
      rows: [
        [
          "Some rules of some places, not all. Of those that hold on the day, the strictest counts. Add your own in the cream lines.",
        ],
        [
          "From memory means that nobody here has read it in the rule. Read the rule before you rely on any line.",
        ],
        [
          "A place or kind that is not on the list shows no limit, which does not mean that there is none.",
        ],
      ],
    },
    {
      at: `A${RULES_AT}`,
      look: "heading",
      rows: [
        [
          "Place",
          "Product",
          "Most VOC (%)",
          "Fragrance not counted (%)",
          "From (date)",
          "Checked",
          null,
          null,
          "Source",
          null,
          null,
        ],
      ],
    },
    {
      at: `A${RULES_AT + 1}`,
      look: "label",
      rows: VOC_RULES.map(({ place, product }) => [place, product]),
    },
    {
      at: `C${RULES_AT + 1}`,
      look: "label",
      format: "0.00%",
      rows: VOC_RULES.map(({ limit, exempt }) => [limit, exempt]),
    },
    {
      at: `E${RULES_AT + 1}`,
      look: "label",
      format: "yyyy-mm-dd",
      rows: VOC_RULES.map(({ from }) => [serial(from)]),
    },
    { at: `F${RULES_AT + 1}`, look: "note", rows: VOC_RULES.map(({ checked }) => [checked]) },
    { at: `I${RULES_AT + 1}`, look: "note", rows: VOC_RULES.map(({ source }) => [source]) },
    ...["A", "C", "E", "F", "I"].map((column, i) => ({
      at: `${column}${RULES_AT + 1 + VOC_RULES.length}`,
      look: "input" as const,
      format: [undefined, "0.00%", "yyyy-mm-dd", undefined, undefined][i],
      rows: Array.from(
        { length: SPARE_RULES },
        () => [[null, null], [null, null], [null], [null, null, null], [null, null, null]][i],
      ),
    })),
    {
      at: `A${CATEGORIES_AT - 1}`,
      look: "section",
      rows: [["Categories of fragrance certificates"]],
    },
    {
      at: `A${CATEGORIES_AT}`,
      look: "heading",
      rows: [["Product", "Category", "Source", "Checked"]],
    },
    {
      at: `A${CATEGORIES_AT + 1}`,
      look: "label",
      rows: SKIN_CATEGORIES.map(({ product, category }) => [product, category]),
    },
    {
      at: `C${CATEGORIES_AT + 1}`,
      look: "note",
      rows: SKIN_CATEGORIES.map(() => ["IFRA guidance"]),
    },
    {
      at: cellName(CATEGORIES_AT, 3),
      look: "note",
      rows: SKIN_CATEGORIES.map(({ checked }) => [checked]),
    },
  ],
};
