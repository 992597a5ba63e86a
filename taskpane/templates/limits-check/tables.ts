/** The tables of Limits check: where to look, the rules, the categories, and the lists to pick from. */
import {
  CARRIAGE,
  CATEGORY_NAMES,
  DUTIES,
  FEDERATION,
  IFRA_GUIDANCE,
  SKIN_CATEGORIES,
  STATES,
  VOC_RULES,
} from "../../../src/data/rules.ts";
import { serialOf } from "../../sheets/days.ts";
import type { Part } from "../../sheets/parts.ts";
import { COLUMNS, LIMITS_ACROSS, wide } from "./words.ts";

/** Cream lines below the rules and below the categories. */
const OWN_RULES = 4;
const OWN_CATEGORIES = 3;

const PLACES = [...new Set([...VOC_RULES, ...DUTIES].map(({ place }) => place))];
const KINDS = [...new Set(VOC_RULES.map(({ product }) => product))];

/** A day such as 2026-11-25, as a sheet counts it. */
export function serial(day: string): number {
  return serialOf(Date.parse(`${day}T00:00:00Z`));
}

/** Letters of a line that is whole in sight beside the pane, right of what the line is of. */
const LINE = 74;

/** A text in lines, parted at its words. */
function inLines(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const line = `${lines.at(-1) ?? ""} ${word}`.trim();
    if (lines.length > 0 && line.length <= LINE) lines.splice(-1, 1, line);
    else lines.push(word);
  }
  return lines;
}

/** Where to look or to whom it holds, of what it is, and what it says: over as many lines as that takes. */
function pointers(
  list: string,
  [where, what]: [string, string],
  all: readonly { where: string; what: string; says: string }[],
): Part {
  const lines = all.flatMap(({ where, what, says }) =>
    inLines(says).map((line, i) => (i === 0 ? [where, what, line] : [null, null, line])),
  );
  const column = (nth: number) => lines.map((line) => line[nth] ?? null);
  return {
    list,
    lines: lines.length,
    columns: [
      { name: "place", heading: where, look: "label", demo: column(0) },
      { heading: what, look: "label", demo: column(1) },
      { heading: wide("What it says", 5), look: "note", demo: column(2) },
    ],
  };
}

export const POINTERS: Part[] = [
  { gap: 1, text: "section", rows: ["Transport and label in the United States"] },
  pointers(
    "carriage",
    ["Where to look", "Of what"],
    CARRIAGE.map(({ source, what, says, seen }) => {
      return { where: source, what, says: `${says} (${seen})` };
    }),
  ),
  { gap: 1, text: "section", rows: ["Duties to look up, by place"] },
  { text: "note", rows: ["Pointers, not advice, and not all of them."] },
  pointers(
    "duties",
    ["Place", "Duty"],
    DUTIES.map(({ place, what, says, source, seen }) => {
      return { where: place, what, says: `${says} (${source}; ${seen})` };
    }),
  ),
];

export const RULES: Part[] = [
  { gap: 1, paper: "new page", text: "section", rows: ["VOC rules, by weight"] },
  {
    text: "note",
    rows: [
      "Some rules of some places, not all. Of those that hold on the day the strictest counts; one without a date holds.",
      "Add your own in the cream lines: they can then be picked above.",
      "A blank exemption is none. Where a rule sets no limit, type none as the limit.",
      "How it was seen says what was not read in the rule: read it before you rely on a line.",
      "A place or kind that is not on the list shows no limit, which does not mean that there is none.",
      "Name the country beside a state, and its rule is looked at, too.",
    ],
  },
  {
    list: "rules",
    lines: VOC_RULES.length + OWN_RULES,
    end: "Not looked at: type rules in the cream lines above.",
    columns: [
      {
        name: "place",
        heading: "Place",
        look: "label",
        own: OWN_RULES,
        demo: VOC_RULES.map(({ place }) => place),
      },
      {
        name: "product",
        heading: "Product",
        look: "label",
        own: OWN_RULES,
        demo: VOC_RULES.map(({ product }) => product),
      },
      {
        name: "limit",
        heading: "Most VOC (%)",
        look: "label",
        own: OWN_RULES,
        format: "0.00%",
        demo: VOC_RULES.map(({ limit }) => limit),
      },
      {
        name: "exempt",
        heading: "Fragrance not counted (%)",
        look: "label",
        own: OWN_RULES,
        format: "0.00%",
        limits: [0, 1],
        demo: VOC_RULES.map(({ limit, exempt }) => (limit === "none" ? null : exempt)),
      },
      {
        name: "from",
        heading: "From (date)",
        look: "label",
        own: OWN_RULES,
        format: "yyyy-mm-dd",
        demo: VOC_RULES.map(({ from }) => from && serial(from)),
      },
      {
        name: "stateof",
        heading: "State of",
        look: "label",
        own: OWN_RULES,
        words: [FEDERATION],
        demo: VOC_RULES.map(({ place }) => (STATES.includes(place) ? FEDERATION : null)),
      },
      {
        name: "thatday",
        heading: "Limit on that day (%)",
        format: "0.00%",
        formula:
          '=IF(AND(ISNUMBER({limit}),ISNUMBER({madeon}),OR({from}="",{from}<={madeon})),{limit},"")',
      },
      {
        name: "uncounted",
        heading: "Not counted that day (%)",
        format: "0.00%",
        formula: '=IF({thatday}="","",IF(ISNUMBER({exempt}),{exempt},0))',
      },
      {
        name: "seen",
        heading: "How it was seen",
        look: "note",
        own: OWN_RULES,
        demo: VOC_RULES.map(({ seen }) => seen),
      },
      { heading: wide(null, 3), look: "note", own: OWN_RULES, demo: [] },
      {
        heading: wide("Source", 4),
        look: "note",
        own: OWN_RULES,
        demo: VOC_RULES.map(({ source }) => source),
      },
    ],
  },
];

export const CATEGORIES: Part[] = [
  { gap: 1, text: "section", rows: ["Categories of fragrance certificates"] },
  {
    list: "categories",
    lines: SKIN_CATEGORIES.length + OWN_CATEGORIES,
    columns: [
      {
        name: "product",
        heading: "Product",
        look: "label",
        own: OWN_CATEGORIES,
        demo: SKIN_CATEGORIES.map(({ product }) => product),
      },
      {
        name: "category",
        heading: "Category",
        look: "label",
        own: OWN_CATEGORIES,
        demo: SKIN_CATEGORIES.map(({ category }) => category),
      },
      {
        name: "other",
        heading: "Other, if disputed",
        look: "label",
        own: OWN_CATEGORIES,
        demo: SKIN_CATEGORIES.map(({ other = null }) => other),
      },
      {
        name: "seen",
        heading: "How it was seen",
        look: "note",
        own: OWN_CATEGORIES,
        demo: SKIN_CATEGORIES.map(({ seen }) => `${IFRA_GUIDANCE}: ${seen}`),
      },
      { heading: wide(null, 3), look: "note", own: OWN_CATEGORIES, demo: [] },
    ],
  },
];

/** A list to pick from: what is known, and below it what cream lines add, each once. */
function picks(
  name: string,
  heading: string,
  known: readonly string[],
  ...own: { column: string; of: readonly unknown[]; lines: number }[]
): Part {
  const added = own.flatMap(({ column, of, lines }) =>
    Array.from({ length: lines }, (_, i) => {
      const cell = `INDEX({${column}},${of.length + i + 1})`;
      return `=IF(${cell}="","",IF(COUNTIF({${name}.word:above},${cell})>0,"",${cell}))`;
    }),
  );
  return {
    list: name,
    lines: known.length + added.length,
    columns: [{ name: "word", heading, look: "label", demo: [...known, ...added] }],
  };
}

const ofRules = { of: VOC_RULES, lines: OWN_RULES };
const ofCategories = { of: SKIN_CATEGORIES, lines: OWN_CATEGORIES };

/** Right of what is printed, and level with the limits: no line is put in there by hand. */
export const LISTS: Part[] = [
  {
    beside: "limits",
    skip: COLUMNS - LIMITS_ACROSS,
    paper: "left out from here",
    text: "section",
    name: "lists",
    rows: ["Lists for the choices at the left, with what the cream lines add"],
  },
  // The longest first: what follows stands under it.
  {
    under: "lists",
    ...picks(
      "names",
      "Categories",
      CATEGORY_NAMES,
      { column: "categories.category", ...ofCategories },
      { column: "categories.other", ...ofCategories },
    ),
  },
  {
    beside: "names",
    ...picks("kinds", "Kinds, for VOC", KINDS, { column: "rules.product", ...ofRules }),
  },
  {
    beside: "kinds",
    ...picks("places", "Places", PLACES, { column: "rules.place", ...ofRules }),
  },
];
