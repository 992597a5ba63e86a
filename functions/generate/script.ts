/**
 * What stands below the bundle for a web spreadsheet: one plain function for each of ours. Its
 * runtime finds functions by their declarations, and takes its help from the comments above them.
 */
import { type CatalogEntry, NAMESPACE } from "../catalog/entry.ts";
import { cautionOf } from "../catalog/topics.ts";
import { CODE_HEADER } from "./headers.ts";

export function declarations(entries: readonly CatalogEntry[]): string {
  return CODE_HEADER + entries.map(declaration).join("\n");
}

function declaration(entry: CatalogEntry): string {
  const { id, summary, params, returns, examples } = entry;
  const lines = [
    `${summary} ${cautionOf(entry)}`,
    ...examples
      .slice(0, 1)
      .map(({ formula, result }) => `=${NAMESPACE}_${formula} gives ${result}`),
    ...params.map(({ name, text, range, optional }) => {
      return `@param {${range ? "range" : "any"}} ${optional ? `[${name}]` : name} ${text}`;
    }),
    `@return ${returns.text}`,
    "@customfunction",
  ];
  return [
    "/**",
    ...lines.map((line) => ` * ${plain(line)}`),
    " */",
    `function ${NAMESPACE}_${id}(${params.map(({ name }) => name).join(", ")}) {`,
    `  return mistwright.run("${id}", arguments);`,
    "}",
    "",
  ].join("\n");
}

/** One line, and nothing that ends the comment. */
function plain(text: string): string {
  return text.replaceAll("*/", "* /").replace(/\s+/g, " ");
}
