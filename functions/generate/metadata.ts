/**
 * Excel's metadata, made by Microsoft's own tool.
 *
 * The tool reads TypeScript, so each catalog entry is written out as the declaration that Excel
 * should see: every argument and the result a grid of anything. Then ranges reach lift.ts whole, and
 * a wrong input becomes our error text instead of Excel's bare #VALUE!.
 */
import { parseTree } from "custom-functions-metadata";
import { type CatalogEntry, shownName } from "../catalog/entry";
import { KINDS } from "../catalog/kinds";

/** The text of functions.json. */
export function metadata(entries: readonly CatalogEntry[]): string {
  const { functions, extras } = parseTree(entries.map(declaration).join("\n"), "functions.ts");
  const errors = extras.flatMap((extra) => extra.errors);
  if (errors.length > 0) throw new Error(errors.join("\n"));
  return `${JSON.stringify({ allowCustomDataForDataTypeAny: true, functions }, null, 2)}\n`;
}

function declaration(entry: CatalogEntry): string {
  const docs = entry.params.map((param) => {
    return ` * @param {any[][]} ${shownName(param)} ${param.text} (${KINDS[param.kind]})`;
  });
  const args = entry.params.map((param) => `${param.name}${param.optional ? "?" : ""}: any[][]`);
  return [
    "/**",
    ` * ${entry.summary}`,
    ` * @customfunction ${entry.id}`,
    ...docs,
    ` * @returns {any[][]} ${entry.returns.text}`,
    " */",
    `export function ${entry.name}(${args.join(", ")}): any[][] { return []; }`,
  ].join("\n");
}
