/** The list that the functions' bundle is made of: the catalog without its texts. */
import type { Param, SourceEntry } from "../catalog/entry.ts";
import { WORD_KINDS, ZERO } from "../catalog/kinds.ts";
import { CODE_HEADER } from "./headers.ts";

export function boundList(entries: readonly SourceEntry[]): string {
  return [
    `${CODE_HEADER}import * as src from "../../src/index.ts";`,
    'import type { Listed } from "./listed.ts";',
    "",
    "export const list: readonly Listed[] = [",
    ...entries.map(({ id, name, params, returns }) => {
      const texts = `"${id}", "${params.map(written).join(", ")}"`;
      return `  [${texts}, src.${name}${returns.range ? ", true" : ""}],`;
    }),
    "];",
    "",
  ].join("\n");
}

/** An argument as `functions/bind/listed.ts` reads it. */
function written(param: Param): string {
  const marks = {
    [param.kind]: !isReadAsNumber(param),
    range: param.range,
    mixed: param.mixed,
    optional: param.optional,
    // Told where a zero is refused.
    [`=${param.default}`]: param.kind === "celsius" && param.default !== undefined,
  };
  return [param.name, ...Object.keys(marks).filter((mark) => marks[mark])].join(" ");
}

/** Numbers of all kinds are read alike where a zero is a zero, and a text none. */
function isReadAsNumber({ kind }: Param): boolean {
  return ZERO[kind] === "zero" && !WORD_KINDS.has(kind) && kind !== "pack" && kind !== "money";
}
