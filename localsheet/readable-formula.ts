/**
 * A formula in the engine's words, where it has none for what other programs write. A quotation mark within a text:
 * "" ends the text for it, \" leaves the backslash in, and "C:\" never ends, so that "5"" jar" becomes
 * "5"&CHAR(34)&" jar". The error #N/A, which is NA().
 */
import { tokenize } from "@borgar/fx/xlsx";

const HARD = /""|\\"|#N\/A/i;

export function readableFormula(formula: string): string {
  if (!HARD.test(formula)) return formula;
  return tokenize(formula, { negativeNumbers: false })
    .map(({ type, value }) => {
      if (type === "error" && value.toUpperCase() === "#N/A") return "NA()";
      return type === "string" ? inParts(value) : value;
    })
    .join("");
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
