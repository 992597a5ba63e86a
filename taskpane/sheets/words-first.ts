/**
 * Words where a number is asked for, such as "about 5": a formula that reads that cell says so, and what to type,
 * in place of an error, or of a number that took the words for nothing.
 */
import type { Content } from "./block.ts";
import { type Column, type Member, type Part, membersOf } from "./parts.ts";

/** A cell, or a column of cells, that asks for a number. */
interface Asks {
  /** What a formula says that finds words there. */
  said: string;
  /** Drawn from another sheet, it holds an empty text where nothing is known. */
  isDrawn: boolean;
}

/** What formulas say of words where a number is asked for. */
export const ASKS_AGAIN = /^type a (number|percent|date): /;

/** Marks it where lines are spoken of: in a column of numbers it is seen by its being words. */
const MARK = { begins: "type a ", mark: "doubt" as const };

/** What asks for a number, by its name: "batch", "packs.price". */
type Asking = ReadonlyMap<string, Asks>;

/** The parts, with formulas that first look whether the numbers that they read are numbers. */
export function wordsFirst(parts: readonly Part[]): Part[] {
  const asking = new Map(parts.flatMap(membersOf).flatMap(asks));
  return parts.map((part): Part => {
    if ("fields" in part)
      return { ...part, fields: part.fields.map((field) => looking(field, asking)) };
    if ("list" in part)
      return { ...part, columns: part.columns.map((each) => ofColumn(each, asking, part.list)) };
    if ("table" in part)
      return { ...part, rows: part.rows.map((row) => looking(row, asking, part.table)) };
    return "block" in part ? looking(part, asking) : part;
  });
}

/** Of what is typed or drawn, and is a number by its format, its limits or the demo. */
function asks({ name, label, cell }: Member): [string, Asks][] {
  const { look = "input", format = "", limits, words, worded, formula, draw, ownDraws } = cell;
  const demo = [cell.demo].flat(2);
  if (!name || typeof label !== "string" || label.startsWith("=")) return [];
  if (look !== "input" || formula !== undefined || words || worded) return [];
  const isNumber = /[0#y]/.test(format) || limits || demo.some((each) => typeof each === "number");
  if (!isNumber) return [];
  const what = format.includes("y") ? "a date" : format.includes("%") ? "a percent" : "a number";
  const said = `type ${what}: ${label.replaceAll('"', '""')}`;
  return [[name, { said, isDrawn: draw !== undefined || ownDraws === true }]];
}

/** Of a column whose formulas are told line by line, those as well. */
function ofColumn(column: Column, asking: Asking, list: string): Column {
  const demo = column.demo?.map((line) =>
    isFormula(line) && column.look !== "label" ? ahead(line, asking, list) : line,
  );
  const looked = looking({ ...column, ...(demo && { demo }) }, asking, list);
  const isSaid = column.name === "said" && looked.formula !== column.formula;
  return isSaid ? { ...looked, marks: [...(column.marks ?? []), MARK] } : looked;
}

const isFormula = (cell: Content | Content[]): cell is string =>
  typeof cell === "string" && cell.startsWith("=");

function looking<T extends { formula?: string | undefined; alone?: string | undefined }>(
  cell: T,
  asking: Asking,
  within?: string,
): T {
  const { formula, alone } = cell;
  return {
    ...cell,
    ...(formula !== undefined && { formula: ahead(formula, asking, within) }),
    ...(alone !== undefined && { alone: ahead(alone, asking, within) }),
  };
}

/** What stands in quotes is text; of another sheet's cells it is not known here what they ask for. */
const READ = /"(?:[^"]|"")*"|\{([A-Za-z][\w.]*)(:[a-z]\w*)?\}/g;

/** The formula behind a look at each single cell that it reads and that asks for a number. */
function ahead(formula: string, asking: Asking, within = ""): string {
  const looks = new Map<string, Asks>();
  for (const [read, name = "", form = ""] of formula.matchAll(READ)) {
    const found = asking.get(`${within}.${name}`) ?? asking.get(name);
    // A column of another list is read whole, and so it is in other forms.
    const isOne = form === "" ? !name.includes(".") : form === ":same" || form === ":across";
    if (found && isOne) looks.set(read, found);
  }
  return [...looks].reduceRight(
    (then, [read, { said, isDrawn }]) =>
      `=IF(${isDrawn ? `AND(ISTEXT(${read}),${read}<>"")` : `ISTEXT(${read})`},"${said}",${then.slice(1)})`,
    formula,
  );
}
