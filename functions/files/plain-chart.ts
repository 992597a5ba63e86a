/**
 * A chart as the local sheet's engine reads it right: a name that some programs write as a formula, "oil", is
 * plain words, as the engine stumbles over what is no range.
 */
import { isRange } from "../formula/references.ts";
import { unescaped } from "./source.ts";

export function plainChart(xml: string): string {
  return xml.replace(
    /(<c:tx\b[^>]*>\s*)<c:strRef\b[^>]*>([\s\S]*?)<\/c:strRef>/g,
    (whole, open: string, inside: string) => {
      const formula = unescaped(/<c:f\b[^>]*>([^<]*)<\/c:f>/.exec(inside)?.[1] ?? "");
      if (isRange(formula)) return whole;
      return open + (/<c:v\b[^>]*>[^<]*<\/c:v>/.exec(inside)?.[0] ?? "<c:v></c:v>");
    },
  );
}
