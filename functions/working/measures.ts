/**
 * What a number of a working is measured in, so that it can be shown with its unit.
 *
 * A measure is a kind (share), a unit (floz) or other words for one ("halvings an hour"), or the
 * name of an argument or of an earlier line, whose unit it has; "money per floz" is one over
 * another. Several cells are told apart by what stands before a colon: "low: share; high: share".
 */
import { UNIT_WORDS, unitWord } from "../../src/units.ts";
import { KINDS, type Kind } from "../catalog/kinds.ts";
import type { Param } from "../catalog/entry.ts";

export interface Measure {
  kind: Kind;
  /** Stands behind the number, instead of that of its kind. */
  unit?: string | undefined;
  /** What it is for one of: g, of money for a gram. */
  per?: string | undefined;
}

/** A measure of one of several cells. */
export interface Labelled extends Measure {
  label: string;
}

/** What the names in a working stand for. */
export interface Names {
  params: readonly Param[];
  values: Readonly<Record<string, unknown>>;
  /** Units and currencies that the cells of arguments tell, by the argument's name. */
  told: ReadonlyMap<string, string>;
  /** The measures of the lines so far. */
  lines: ReadonlyMap<string, Measure>;
}

/** The cells of a measure that has several. */
export function cellsIn(text: string): { label: string; measure: string }[] {
  if (!text.includes(":")) return [];
  return text.split("; ").map((cell) => {
    const [label = "", measure = ""] = cell.split(": ");
    return { label, measure };
  });
}

/** The first word of a measure that stands for nothing. */
export function strangeIn(text: string, names: ReadonlySet<string>): string | undefined {
  const cells = cellsIn(text);
  const measures = cells.length > 0 ? cells.map(({ measure }) => measure) : [text];
  return measures
    .flatMap((measure) => measure.split(" per "))
    .find((word) => !quoted(word) && !names.has(word) && !isUnit(word) && !(word in KINDS));
}

export function measureOf(text: string, names: Names): Measure {
  const [first = "", per] = text.split(" per ");
  const measure = single(first, names);
  if (per === undefined) return measure;
  return { ...measure, per: single(per, names).unit };
}

function single(word: string, names: Names): Measure {
  const { params, values, lines } = names;
  const unit = quoted(word);
  if (unit) return { kind: "number", unit };
  const line = lines.get(word);
  const param = line ? undefined : params.find(({ name }) => name === word);
  const value = values[word];
  // A name that holds a unit stands for it.
  if (typeof value === "string" && UNIT_WORDS.has(unitWord(value)))
    return { kind: "amount", unit: unitShown(value) };
  const measure = line ?? (param && ofParam(param, names));
  if (measure) return measure;
  if (isUnit(word)) return { kind: "amount", unit: unitShown(word) };
  // The generator has let through no other word.
  const kind = word as Kind;
  return kind === "money" ? { kind, unit: currencyOf(names) } : { kind };
}

/** The currency that the cell of an argument tells. */
function currencyOf({ params, told }: Names): string | undefined {
  return params
    .filter(({ kind }) => kind === "money")
    .flatMap(({ name }) => told.get(name) ?? [])[0];
}

/** What an argument is measured in: by another argument, or as its cell tells. */
export function ofParam(param: Param, { params, values, told }: Names): Measure {
  const { kind, name } = param;
  const beside = unitParam(params, param);
  if (!beside) return told.get(name) === "%" ? { kind: "share" } : { kind, unit: told.get(name) };
  if (kind === "celsius") return { kind: "number", unit: degrees(values[beside.name]) };
  return { kind, unit: unitShown(values[beside.name]) };
}

function degrees(scale: unknown): string {
  return typeof scale === "string" && scale !== "" ? `°${scale.trim().toUpperCase()}` : "degrees";
}

/**
 * The argument that holds the unit of another: size and unit, weight and weightunit, amount and
 * from, a temperature and its scale.
 */
function unitParam(params: readonly Param[], { kind, name }: Param): Param | undefined {
  const named = (wanted: string) => params.find((each) => each.name === wanted);
  if (kind === "celsius") return named("scale");
  if (!HAS_UNIT.has(kind)) return undefined;
  return named(`${name}unit`) ?? (kind === "number" ? undefined : (named("unit") ?? named("from")));
}

const HAS_UNIT: ReadonlySet<Kind> = new Set(["amount", "weight", "volume", "pack", "number"]);

/** A unit as people write it: fl oz for floz, and lb for pounds. */
export function unitShown(unit: unknown): string | undefined {
  if (typeof unit !== "string" || unit.trim() === "") return undefined;
  const name = UNIT_WORDS.get(unitWord(unit))?.name ?? unit.trim();
  return name.replace(/^imp/, "imp ").replace(/floz$/, "fl oz");
}

function isUnit(word: string): boolean {
  return UNIT_WORDS.get(unitWord(word))?.name === word;
}

/** What stands in quotes. */
function quoted(word: string): string | undefined {
  return /^"(.+)"$/.exec(word)?.[1];
}
