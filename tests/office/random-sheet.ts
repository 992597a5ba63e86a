/**
 * Sheets of random calls, as people write them: arguments in cells, in ranges down or across, or typed into
 * the formula; calls in calls and in other formulas; spare lines, wrong units, percents typed as whole numbers.
 */
import fc from "fast-check";
import { catalog } from "../../functions/catalog/catalog";
import { type CatalogEntry, NAMESPACE, type Param, wordsOf } from "../../functions/catalog/entry";
import type { Kind } from "../../functions/catalog/kinds";
import { cellName } from "../../functions/formula/addresses";

/** What stands in the cells, by name; formulas open with =. */
export type Contents = Record<string, string>;

export interface RandomSheet {
  contents: Contents;
  /** The cells that hold calls of ours. */
  calls: string[];
  /** The cells that hold numbers to be changed. */
  inputs: string[];
}

/** Cells that a block of one call takes: inputs above, the call and its answer below. */
const BLOCK = { rows: 16, columns: 12 };

type Draw = <T>(arbitrary: fc.Arbitrary<T>) => T;

const number = (low: number, high: number) =>
  fc.integer({ min: low * 100, max: high * 100 }).map((n) => String(n / 100));
const some = <T>(...values: T[]) => fc.constantFrom(...values);
const WEIGHT_WORDS = some("g", "oz", "lb", "kg", " LB ", "Ounces", "lbs.", "kilo");
const VOLUME_WORDS = some("mL", "floz", "gal", "L", "Fl. Oz.", "fluid ounces", "Litre", "cc");

/** Sensible values of each kind, as a person would type them. */
const VALUES: Record<Kind, fc.Arbitrary<string>> = {
  amount: number(1, 500),
  weight: number(1, 500),
  volume: number(1, 500),
  share: fc.integer({ min: 1, max: 300 }).map((n) => `${n / 10}%`),
  density: fc.integer({ min: 70, max: 130 }).map((n) => String(n / 100)),
  money: number(1, 90),
  count: fc.integer({ min: 1, max: 24 }).map(String),
  celsius: fc.integer({ min: -5, max: 110 }).map(String),
  drops: fc.integer({ min: 5, max: 60 }).map(String),
  rate: fc.integer({ min: 15, max: 45 }).map(String),
  hours: fc.integer({ min: 1, max: 12 }).map(String),
  dose: number(0, 2),
  score: fc.integer({ min: 1, max: 10 }).map(String),
  limit: some("10%", "4%", "not limited", "0.5%", "Not approved"),
  yesno: some("yes", "no"),
  label: some("skin", "fabric", "air"),
  worded: some("1%"),
  category: some("1"),
  number: number(-40, 90),
  unit: fc.oneof(
    { weight: 6, arbitrary: WEIGHT_WORDS },
    { weight: 6, arbitrary: VOLUME_WORDS },
    { weight: 1, arbitrary: some("cup", "gr", "fl") },
  ),
  pack: some("1 lb", "4 x 250 mL", "half gallon", "2"),
  choice: some("finished", "base", "volume", "weight", "Base "),
};

/** What goes wrong: a blank, a word, a percent as a whole number, a negative, an empty text, an error. */
const WRONG = some("", "", "", "5", "-3", "abc", '=""', "=1/0", "0", "1.5");

export function randomSheet(seed: number, calls = 8): RandomSheet {
  const [sheet] = fc.sample(sheetOf(calls), { seed, numRuns: 1 });
  return sheet;
}

function sheetOf(calls: number): fc.Arbitrary<RandomSheet> {
  return fc.gen().map((gen) => {
    const draw: Draw = (arbitrary) => gen(() => arbitrary);
    const sheet: RandomSheet = { contents: {}, calls: [], inputs: [] };
    for (let i = 0; i < calls; i++) {
      const block = new Block(sheet, draw, Math.floor(i / 2) * BLOCK.rows, (i % 2) * BLOCK.columns);
      block.fill();
    }
    return sheet;
  });
}

class Block {
  private next = 0;
  /** Lines of this block: 1, or several down or across. */
  private readonly lines: number;
  private readonly across: boolean;
  private isPlain = false;

  constructor(
    private readonly sheet: RandomSheet,
    private readonly draw: Draw,
    private readonly row: number,
    private readonly column: number,
  ) {
    this.lines = draw(some(1, 1, 1, 3));
    this.across = draw(some(false, false, true));
  }

  fill() {
    const wrap = this.draw(some("", "", "", "IF", "SUM", "*"));
    // What is reckoned with further is a number: hosts differ on sums with words and blanks.
    this.isPlain = wrap === "SUM" || wrap === "*";
    const isNumber = ({ returns }: CatalogEntry) =>
      !["label", "category", "worded"].includes(returns.kind);
    const entry = this.draw(some(...catalog.filter((each) => !this.isPlain || isNumber(each))));
    const call = this.call(entry, 0);
    const formula = {
      "": call,
      IF: `IF(1>0,${call},0)`,
      SUM: `SUM(${call},1)`,
      "*": `2*${call}/4`,
    }[wrap];
    const cell = cellName(this.row + 9, this.column);
    this.sheet.contents[cell] = `=${formula}`;
    this.sheet.calls.push(cell);
  }

  private call(entry: CatalogEntry, depth: number): string {
    const length = this.draw(some(1, 2, 3, 4));
    const across = this.draw(some(false, false, true));
    const isGiven = entry.params.map(
      ({ optional }) => !optional || this.draw(some(true, true, false)),
    );
    const last = isGiven.lastIndexOf(true);
    const args = entry.params.slice(0, last + 1).map((param, i) => {
      if (!isGiven[i]) return "";
      if (param.range)
        return this.range(param, length, this.draw(some(across, across, across, !across)));
      return this.one(param, depth);
    });
    return `${NAMESPACE}.${entry.id}(${args.join(",")})`;
  }

  private value(param: Param, i = 0, length = 1): string {
    if (!this.isPlain && this.draw(fc.integer({ min: 1, max: 40 })) === 1) return this.draw(WRONG);
    // Shares of a whole sum to it, mostly.
    if (
      param.kind === "share" &&
      param.range &&
      /^shares|lows|highs/.test(param.name) &&
      length > 1
    ) {
      const even = Math.floor(1000 / length);
      return `${(i === 0 ? 1000 - even * (length - 1) : even) / 10}%`;
    }
    if (/unit$|^unit$|^from$|^to$/.test(param.name) && param.kind === "unit") {
      const sort =
        /volume/.test(param.text) || /volume/.test(param.name) ? VOLUME_WORDS : WEIGHT_WORDS;
      return this.draw(
        fc.oneof({ weight: 4, arbitrary: sort }, { weight: 1, arbitrary: VALUES.unit }),
      );
    }
    return this.draw(this.usual(param));
  }

  /** A choice is mostly one of its own words. */
  private usual(param: Param): fc.Arbitrary<string> {
    if (param.kind !== "choice") return VALUES[param.kind];
    const own = some(...wordsOf(param));
    return fc.oneof({ weight: 4, arbitrary: own }, { weight: 1, arbitrary: VALUES.choice });
  }

  private one(param: Param, depth: number): string {
    const isNumber = param.kind !== "unit" && param.kind !== "choice";
    const how = this.draw(fc.integer({ min: 1, max: 12 }));
    if (how <= 3) return literal(this.draw(this.usual(param)));
    if (how === 4 && isNumber && depth < 2) {
      const inner = catalog.filter(
        ({ returns, params }) => returns.kind === param.kind && !returns.range && params.length < 5,
      );
      if (inner.length > 0) return this.call(this.draw(some(...inner)), depth + 1);
    }
    const cell =
      this.lines > 1 && this.draw(some(true, false))
        ? this.line(param)
        : this.put([[this.value(param)]]);
    if (how === 5 && isNumber) return `${cell}*1`;
    if (how === 6 && isNumber) return `IF(${cell}="","",${cell})`;
    return cell;
  }

  /** A range of several lines, down or across. */
  private line(param: Param): string {
    const cells = Array.from({ length: this.lines }, () => this.value(param));
    return this.put(this.across ? [cells] : cells.map((cell) => [cell]));
  }

  private range(param: Param, length: number, across: boolean): string {
    const isTable = (param.name === "scores" && param.kind === "number") || param.name === "ranks";
    const rows = isTable ? 3 : 1;
    const cells = Array.from({ length: rows }, () =>
      Array.from({ length }, (_, i) => this.value(param, i, length)),
    );
    if (isTable) return this.put(cells);
    return this.put(across ? cells : cells[0].map((cell) => [cell]));
  }

  /** Puts a table of contents into fresh cells; gives their range. */
  private put(cells: string[][]): string {
    const column = this.column + this.next;
    this.next += cells[0].length;
    const row = this.row + 1;
    // Where a block has no room left, further cells stand far to the right.
    const away = this.next > BLOCK.columns ? 40 + this.column * 4 : 0;
    cells.forEach((line, i) =>
      line.forEach((content, j) => {
        const name = cellName(row + i, column + away + j);
        if (content !== "") this.sheet.contents[name] = content;
        if (/^-?[\d.]+%?$/.test(content)) this.sheet.inputs.push(name);
      }),
    );
    const first = cellName(row, column + away);
    const last = cellName(row + cells.length - 1, column + away + cells[0].length - 1);
    return first === last ? first : `${first}:${last}`;
  }
}

/** As it is typed into a formula: a number bare, a word in quotes. */
function literal(value: string): string {
  return /^-?[\d.]+%?$/.test(value) ? value : `"${value}"`;
}
