/** Values as a person reads them, with their units. */
import type { CatalogEntry, Param } from "../../functions/catalog/entry.ts";
import type { Kind } from "../../functions/catalog/kinds.ts";
import { type CellValue, isFault } from "../../functions/bind/cell.ts";

/** The unit behind a number of a kind. */
const UNITS: Partial<Record<Kind, string>> = {
  density: "g/mL",
  celsius: "°C",
  drops: "drops",
  rate: "drops per mL",
  hours: "h",
  dose: "g/m3",
};

/** A number to at most nine figures, so that 0.1 + 0.2 reads 0.3. */
export function plain(value: number): string {
  return String(Number(value.toPrecision(9)));
}

export function shown(value: CellValue, kind: Kind): string {
  if (isFault(value)) return value.fault;
  if (value === null || value === "") return "blank";
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return value;
  if (kind === "share" || kind === "limit" || kind === "worded") return `${plain(value * 100)} %`;
  const unit = UNITS[kind];
  return unit ? `${plain(value)} ${unit}` : plain(value);
}

/**
 * The argument that holds the unit of another: size and unit, weight and weightunit, amount and
 * from, a temperature and its scale.
 */
export function unitParam(entry: CatalogEntry, param: Param): Param | undefined {
  if (param.kind === "celsius") return entry.params.find(({ name }) => name === "scale");
  if (!["amount", "weight", "volume", "pack"].includes(param.kind)) return undefined;
  const named = (name: string) =>
    entry.params.find((each) => each.kind === "unit" && each.name === name);
  return named(`${param.name}unit`) ?? named("unit") ?? named("from");
}
