/** The list that the functions' bundle is made of: the catalog without its texts. */
import type { Param, SourceEntry } from "../catalog/entry.ts";
import { WORD_KINDS, zeroOf } from "../catalog/kinds.ts";
import { CODE_HEADER } from "./headers.ts";

export function boundList(entries: readonly SourceEntry[]): string {
  return [
    `${CODE_HEADER}import * as src from "../../src/index.ts";`,
    'import type { Listed } from "./listed.ts";',
    "",
    "export const list: readonly Listed[] = [",
    ...entries.map(({ id, name, params, returns }) => {
      const texts = `"${id}", "${params.map(written).join(" ")}"`;
      return `  [${texts}, src.${name}${returns.range ? ", true" : ""}],`;
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
