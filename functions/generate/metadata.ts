/**
 * Excel's metadata, made by Microsoft's own tool.
 *
 * The tool reads TypeScript, so each catalog entry is written out as the declaration that Excel
 * should see: every argument and the result a grid of anything. Then ranges reach lift.ts whole,
 * and a wrong input becomes our error text instead of Excel's bare #VALUE!. Words of a closed list
 * are an enum, which a newer Excel offers while the formula is typed; an older one takes the texts
 * as they are.
 */
import { parseTree } from "custom-functions-metadata";
import { type CatalogEntry, type Param, shownName, wordsOf } from "../catalog/entry.ts";
import { KINDS } from "../catalog/kinds.ts";

/**
 * Where the pages are while the add-in is developed; the build puts in where it will be served
 * from.
 */
const HELP = "https://localhost:3000/help/reference";

/** The text of functions.json. */
export function metadata(entries: readonly CatalogEntry[]): string {
  const enums = enumsOf(entries);
  const text = [...enumDeclarations(enums), ...entries.map((entry) => declaration(entry, enums))];
  const { functions, extras, enums: offered } = parseTree(text.join("\n"), "functions.ts");
  const errors = extras.flatMap((extra) => extra.errors);
  if (errors.length > 0) throw new Error(errors.join("\n"));
  const found = { allowCustomDataForDataTypeAny: true, functions, enums: offered };
  return `${JSON.stringify(found, null, 2)}\n`;
}

function isChoice({ kind, range }: Param): boolean {
  return kind === "choice" && !range;
}

/**
 * The lists of words that arguments take, each with the name of the first argument that takes it.
 */
function enumsOf(entries: readonly CatalogEntry[]): Map<string, string> {
  const enums = new Map<string, string>();
  for (const param of entries.flatMap(({ params }) => params).filter(isChoice)) {
    const words = wordsOf(param).join(" ");
    if (!enums.has(words)) enums.set(words, param.name.toUpperCase());
  }
  const names = [...enums.values()];
  if (new Set(names).size < names.length)
    throw new Error(`two lists of words of one name: ${names.join(" ")}`);
  return enums;
}

function enumDeclarations(enums: ReadonlyMap<string, string>): string[] {
  return [...enums].map(([words, name]) => {
    const members = words.split(" ").map((word) => `${word.replace(/\W/g, "_")} = "${word}"`);
    return `/** @customenum {string} */\nenum ${name} { ${members.join(", ")} }`;
  });
}

function declaration(entry: CatalogEntry, enums: ReadonlyMap<string, string>): string {
  const typeOf = (param: Param) =>
    isChoice(param) ? `${enums.get(wordsOf(param).join(" "))}[][]` : "any[][]";
  const docs = entry.params.map((param) => {
    return ` * @param {${typeOf(param)}} ${shownName(param)} ${param.text} (${KINDS[param.kind]})`;
  });
  const args = entry.params.map((param) => {
    return `${param.name}${param.optional ? "?" : ""}: ${typeOf(param)}`;
  });
  return [
    "/**",
    ` * ${entry.summary}`,
    ` * @customfunction ${entry.id}`,
    ` * @helpurl ${HELP}/${entry.id.toLowerCase()}.html`,
    ...docs,
    ` * @returns {any[][]} ${entry.returns.text}`,
    " */",
    `export function ${entry.name}(${args.join(", ")}): any[][] { return []; }`,
  ].join("\n");
}
