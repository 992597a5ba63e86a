/** How the generated list writes a function, in few letters: every workbook loads them. */
import type { Bound } from "../catalog/entry.ts";
import type { Kind } from "../catalog/kinds.ts";
import type { BoundParam } from "./cell.ts";
import type { Pure } from "./lift.ts";

/**
 * A function's id, its arguments, the function of src, and whether it answers with a range. An
 * argument is its name and what is out of the ordinary: "celsius?:celsius=20" is a temperature
 * that may be left out, "limits[*]" a range whose cells may be words, "shares[]" one of numbers.
 */
export type Listed = readonly [id: string, params: string, pure: Pure, isRange?: boolean];

const PARAM = /^(\w+)(\[\*?\])?(\?)?(?::(\w+))?(?:=(.+))?$/;

export function boundOf([id, params, , isRange = false]: Listed): Bound {
  return { id, params: params.split(" ").map(paramOf), returns: { range: isRange } };
}

function paramOf(text: string): BoundParam {
  const [, name = "", range, optional, kind, fallback] = PARAM.exec(text) ?? [];
  return {
    name,
    // The list is generated from the catalog, whose kinds these are.
    kind: (kind ?? "number") as Kind,
    range: range !== undefined,
    mixed: range === "[*]",
    optional: optional !== undefined,
    ...(fallback && { default: fallback }),
  };
}
