/** The reference pages: one for each function, and their index. All from the catalog. */
import { SPELLINGS } from "../../src/data/spellings.ts";
import { turn } from "../../src/measure/turn.ts";
import { type VolumeUnit, VOLUME_UNITS, type WeightUnit, WEIGHT_UNITS } from "../../src/units.ts";
import { TOPIC_TITLES, cautionOf } from "../catalog/topics.ts";
import { type CatalogEntry, NAMESPACE, meaning, shownName, signature } from "../catalog/entry.ts";
import { readCall } from "../catalog/examples.ts";
import { KINDS } from "../catalog/kinds.ts";
import { type Told, toldOf } from "../working/told.ts";
import { PAGE_HEADER } from "./headers.ts";
import { pictureOf } from "./pictures.ts";

/** Page name to page text. */
export function referencePages(entries: readonly CatalogEntry[]): Map<string, string> {
  const pages = new Map(entries.map((entry) => [`${entry.id.toLowerCase()}.md`, page(entry)]));
  return pages.set("README.md", index(entries));
}

function index(entries: readonly CatalogEntry[]): string {
  const topics = [...new Set(entries.map((entry) => entry.topic))];
  const sections = topics.map((topic) => {
    const rows = entries
      .filter((entry) => entry.topic === topic)
      .map((entry) => {
        const name = `[${signature(entry)}](${entry.id.toLowerCase()}.md)`;
        return `| ${name} | ${entry.summary} | ${entry.needs.length > 0 ? "live" : "a value"} |`;
      });
    const head = "| function | gives | in a [copy](../sharing.md) |";
    return [`## ${TOPIC_TITLES[topic]}`, "", head, "|---|---|---|", ...rows, ""].join("\n");
  });
  return [
    PAGE_HEADER,
    "# Functions",
    "",
    `Type \`${NAMESPACE}.\` before each name. In the pane, *Functions* finds one by what you need, and *Working* explains the selected cell with its own numbers:`,
    "",
    "![The pane's part Working: what went into a cell, and how its number comes about](../pictures/working.png)",
    "",
    ...sections,
    "## Units",
    "",
    ...units(),
    "",
  ].join("\n");
}

/** The closed list, with the size and the spellings of each. */
function units(): string[] {
  const line = (unit: WeightUnit | VolumeUnit, base: string) =>
    `| ${unit} | ${turn(1, unit, base)} ${base} | ${SPELLINGS[unit].join(", ")} |`;
  return [
    "Case, spaces, dots and an s at the end do not matter: `Fl. Oz.` is floz, `lbs` is lb. Any other word is refused.",
    "",
    "| unit | is | also written |",
    "|---|---|---|",
    ...WEIGHT_UNITS.map((unit) => line(unit, "g")),
    ...VOLUME_UNITS.map((unit) => line(unit, "mL")),
  ];
}

function page(entry: CatalogEntry): string {
  const params = entry.params.map((param) => {
    const kind = param.range ? `a range; each cell ${KINDS[param.kind]}` : KINDS[param.kind];
    return `| ${shownName(param)} | ${kind} | ${param.text} |`;
  });
  const examples = entry.examples.map(({ formula, result }) => {
    return `=${NAMESPACE}.${formula}    gives ${result}`;
  });
  return [
    PAGE_HEADER,
    `# ${NAMESPACE}.${entry.id}`,
    "",
    `*${entry.need}*`,
    "",
    entry.summary,
    "",
    "```text",
    `=${NAMESPACE}.${signature(entry)}`,
    "```",
    "",
    "| argument | is | means |",
    "|---|---|---|",
    ...params,
    "",
    `**Gives** ${entry.returns.text} (${KINDS[entry.returns.kind]})`,
    "",
    entry.remarks,
    "",
    "## Examples",
    "",
    "```text",
    ...examples,
    "```",
    "",
    ...pictureOf(entry.id),
    "## How it comes about",
    "",
    "Line by line; the last that applies gives what the cell shows. The name of a line stands for its value in those below it. Values are shown to six digits.",
    "",
    "| line | what it is | how | with the first example's numbers |",
    "|---|---|---|---|",
    ...working(entry),
    "",
    `Keep in mind: ${cautionOf(entry)}`,
    "",
    "## Handed over",
    "",
    ...inACopy(entry),
    "",
    "## Errors",
    "",
    ...entry.throws.map((text) => `- \`#VALUE!\`: ${text}`),
    "- [What every function does with blanks, words, ranges and errors](../errors.md)",
    "",
    `Source of the method: ${entry.source}`,
    "",
  ].join("\n");
}

/** What becomes of it in a copy for a partner without the add-in. */
function inACopy({ needs }: CatalogEntry): string[] {
  const more = "See [sharing](../sharing.md).";
  if (needs.length === 0) {
    return [`In a copy for a partner without the add-in it becomes a fixed value. ${more}`];
  }
  const lines = needs.map(({ where, says }) => `- ${says}${where ? `, where ${where}` : ""}`);
  const live = "it becomes an ordinary formula that stays live, and answers where this holds";
  return [`In a copy for a partner without the add-in ${live}. ${more}`, "", ...lines];
}

/** The lines of the working, with the first example's numbers beside those that apply to it. */
function working(entry: CatalogEntry): string[] {
  const [example] = entry.examples;
  const args = example ? readCall(example.formula).args : [];
  const { steps } = toldOf(entry, args, { digits: "six", units: new Map() });
  return entry.working.map((line) => {
    const step = steps.find((each) => each.line === line);
    const shown = step ? inOneCell(step) : "does not apply";
    return `| ${line.name} | ${meaning(line)} | ${line.how} | ${shown} |`;
  });
}

/** A sentence, and of a table what came out. */
function inOneCell({ sentence, table }: Told): string {
  if (!table || !sentence.endsWith(":")) return sentence;
  return `${sentence} ${table.lines.map((line) => line.at(-1)).join(", ")}.`;
}
