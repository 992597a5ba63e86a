/** How the generated list writes a function, in few letters: every workbook loads them. */
import type { Bound } from "../catalog/entry.ts";
import { isKind } from "../catalog/kinds.ts";
import type { BoundParam } from "./cell.ts";
import type { Pure } from "./lift.ts";

/**
 * A function's id, its arguments, the function of src, and whether it answers with a range. An
 * argument is its name and what is out of the ordinary: "celsius celsius optional =20" is a
 * temperature that may be left out, "limits range mixed" a range whose cells may be words.
 */
export type Listed = readonly [id: string, params: string, pure: Pure, isRange?: boolean];

export function boundOf([id, params, , isRange = false]: Listed): Bound {
  return { id, params: params.split(", ").map(paramOf), returns: { range: isRange } };
}

function paramOf(text: string): BoundParam {
  const [name = "", ...marks] = text.split(" ");
  const fallback = marks.find((mark) => mark.startsWith("="))?.slice(1);
  return {
    name,
    kind: marks.find(isKind) ?? "number",
    range: marks.includes("range"),
    mixed: marks.includes("mixed"),
    optional: marks.includes("optional"),
    ...(fallback && { default: fallback }),
  };
}
