/** The list that the functions' bundle is made of: the catalog without its texts. */
import type { Param, SourceEntry } from "../catalog/entry.ts";
import { WORD_KINDS, zeroOf } from "../catalog/kinds.ts";
import type { Topic } from "../catalog/topics.ts";
import { CODE_HEADER } from "./headers.ts";

/** What few workbooks ask for, and in few cells: Excel loads it after the others. */
const LATE = { topics: new Set<Topic>(["trial"]), ids: new Set(["FILLCHECK"]) };

/** The functions that are loaded first, and the names of those that follow. */
export function boundList(entries: readonly SourceEntry[]): string {
  const late = entries.filter(isLate).map(({ id }) => `"${id}"`);
  const first = entries.filter((entry) => !isLate(entry));
  return `${listOf("list", first)}\nexport const lateIds = [${late.join(", ")}];\n`;
}

/** The functions that follow. */
export function lateList(entries: readonly SourceEntry[]): string {
  return listOf("lateList", entries.filter(isLate));
}

function isLate({ topic, id }: SourceEntry): boolean {
  return LATE.topics.has(topic) || LATE.ids.has(id);
}

function listOf(list: string, entries: readonly SourceEntry[]): string {
  return [
    `${CODE_HEADER}import type { Listed } from "./listed.ts";`,
    // From the file of each: index.ts would bring the others along.
    ...entries.map(({ name, file }) => `import { ${name} } from "../../src/${file}";`),
    "",
    `export const ${list}: readonly Listed[] = [`,
    ...entries.map(({ id, name, params, returns }) => {
      const texts = `"${id}", "${params.map(written).join(" ")}"`;
      return `  [${texts}, ${name}${returns.range ? ", true" : ""}],`;
    }),
    "];",
    "",
  ].join("\n");
}

/** An argument as `functions/bind/listed.ts` reads it. */
function written(param: Param): string {
  const { name, range, mixed, optional, kind } = param;
  const marks = [
    range && (mixed ? "[*]" : "[]"),
    optional && "?",
    !isReadAsNumber(param) && `:${kind}`,
    // Told where a zero is refused.
    kind === "celsius" && param.default !== undefined && `=${param.default}`,
  ];
  return name + marks.filter(Boolean).join("");
}

/** Numbers of all kinds are read alike where a zero is a zero, and a text none. */
function isReadAsNumber({ kind }: Param): boolean {
  return zeroOf(kind) === "zero" && !WORD_KINDS.has(kind) && kind !== "pack" && kind !== "money";
}
