/**
 * A formula in the engine's words, where it has none for what other programs write. A quotation mark within a text:
 * "" ends the text for it, \" leaves the backslash in, and "C:\" never ends, so that "5"" jar" becomes
 * "5"&CHAR(34)&" jar". The error #N/A, which is NA(). And -2^2, which is 4 in other programs, and -4 for it: (-2)^2.
 */
import { tokenize } from "@borgar/fx/xlsx";
import { rankOf } from "../functions/formula/precedence.ts";
import { readFormula } from "../functions/formula/reader.ts";
import type { Node } from "../functions/formula/tree.ts";
import { type Substitute, writeFormula } from "../functions/formula/writer.ts";

const HARD = /""|\\"|#N\/A/i;

export function readableFormula(formula: string): string {
  const held = /-.*\^/s.test(formula) ? withMinusHeld(formula) : formula;
  if (!HARD.test(held)) return held;
  return tokenize(held, { negativeNumbers: false })
    .map(({ type, value }) => {
      if (type === "error" && value.toUpperCase() === "#N/A") return "NA()";
      return type === "string" ? inParts(value) : value;
    })
    .join("");
}

/** A minus before what is raised to a power goes with it, as other programs have it. */
function withMinusHeld(formula: string): string {
  const changed: Node[] = [];
  const held: Substitute = (node) => {
    if (node.type !== "BinaryExpression" || node.operator !== "^") return null;
    const [base, power] = node.arguments;
    if (base.type !== "UnaryExpression" || base.operator !== "-") return null;
    changed.push(node);
    const right = writeFormula(power, held);
    const rank = rankOf(node);
    return {
      text: `(${writeFormula(base, held)})^${rankOf(power) > rank ? right : `(${right})`}`,
      rank,
    };
  };
  try {
    const [, sign = "", body = ""] = /^(=?)(.*)$/s.exec(formula) ?? [];
    const written = sign + writeFormula(readFormula(body), held);
    return changed.length > 0 ? written : formula;
  } catch {
    return formula;
  }
}

function inParts(text: string): string {
  const inside = /^"(.*)"$/s.exec(text)?.[1] ?? "";
  if (!/""|\\$/.test(inside)) return text;
  const parts = inside
    .split(/(""|\\(?=""|$))/)
    .filter((part) => part !== "")
    .map((part) => ({ '""': "CHAR(34)", "\\": "CHAR(92)" })[part] ?? `"${part}"`);
  return parts.join("&");
}
