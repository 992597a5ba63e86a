/**
 * What the text on a pack or in a price list says that it holds: `3.5 oz sample`, `1/2 gal`,
 * `case of 4 x 250 mL`. One size, or none: what may mean two things is refused, with the reason.
 */
import { type Cell, isBlank } from "./cells.ts";
import { BlankError, CalcError, isBlankNumber } from "./errors.ts";
import { UNIT_WORDS, type Unit, unitWord } from "./units.ts";
import { decimalOf, fractionOf } from "./written-number.ts";

export interface Pack {
  /** How many stand together: 4 in `4 x 250 mL`. */
  count: number;
  /** What one of them holds. */
  size: number;
  unit: Unit;
}

/** Words that may stand before or behind the size: they say nothing of how much there is. */
export const PASSED_OVER =
  "sample bottle jug pail bucket drum bag can tin jar tub approx approximately".split(" ");

/** Numbers that are written as words. */
const NUMBER_WORDS: Readonly<Record<string, number>> = {
  ...{ "half a": 1 / 2, half: 1 / 2, quarter: 1 / 4, one: 1, two: 2, three: 3, four: 4, five: 5 },
  ...{ six: 6, seven: 7, eight: 8, nine: 9, ten: 10, eleven: 11, twelve: 12 },
};

const COUNT_WORDS = Object.keys(NUMBER_WORDS).filter((word) =>
  Number.isInteger(NUMBER_WORDS[word]),
);
const WHOLE = `(?:\\d+|${COUNT_WORDS.join("|")})`;
const FIGURES = "(?:(?:\\d+ )?\\d+/\\d+|[\\d.,]*\\d)";
const PASSED = `(?:(?:${PASSED_OVER.join("|")})\\.? )`;

/** [case of] COUNT x SIZE UNIT and words; or SIZE UNIT and words x TIMES. */
const FORM = new RegExp(
  `^(?:${PASSED}+(?:of )?)?(?:(?<together>case|box|pack|set) of )?` +
    `(?<counts>(?:${WHOLE} ?x ?)*)` +
    `(?<size>${FIGURES}[ -]?|(?:${Object.keys(NUMBER_WORDS).join("|")})[ -])` +
    `(?<words>[a-z][a-z. ]*?)(?: ?x ?(?<times>\\d+))?$`,
  "i",
);

/** A pack's text as its parts. */
export function readPack(argument: string, cell: Cell): Pack {
  if (typeof cell === "number" ? isBlankNumber(cell) : isBlank(cell))
    throw new BlankError(argument, "blank");
  const refuse = (why: string): never => {
    throw new CalcError(
      `${argument} must say one size, such as "1 lb", "1/2 gal" or "4 x 250 mL", got "${cell}"` +
        (why && `: ${why}`),
    );
  };
  const { together, counts = "", size, words, times } = FORM.exec(tidy(cell))?.groups ?? {};
  if (!size || !words) return refuse(whyNot(cell));
  if ((counts && times) || (together && !counts)) return refuse("how many of them is not clear");
  if (/^G\.?(?: |$)/.test(words)) return refuse('"G" may be grams or gallons: write g or gal');
  const unit = unitIn(words) ?? refuse(`"${words.trim()}" is not a unit and words to pass over`);
  const held = { count: productOf(counts || (times ?? "1")), size: sizeOf(size, refuse), unit };
  return held.count > 0 && held.size > 0 ? held : refuse("nothing is in it");
}

/** One sort of each sign, and no more than one space. */
function tidy(cell: Cell): string {
  const signs = String(cell).replace(/[×✕*]/g, "x").replace(/⁄/g, "/");
  const plain = signs.replace(/[¼½¾⅓⅔⅛⅜⅝⅞]/g, (sign) => ` ${sign.normalize("NFKC")}`);
  return plain
    .replace(/⁄/g, "/")
    .replace(/[()]|,(?=\s|$)/g, " ")
    .replace(/\s+/g, " ")
    .trim();
}

function whyNot(cell: Cell): string {
  const sizes = tidy(cell).match(/\d[\d.,/]* ?[a-z]+/gi) ?? [];
  return sizes.filter((each) => !/\dx$|\d x$/i.test(each)).length > 1 ? "more than one size" : "";
}

function productOf(counts: string): number {
  const factors = counts.toLowerCase().match(new RegExp(WHOLE, "g")) ?? [];
  return factors.reduce((all, each) => all * (NUMBER_WORDS[each] ?? Number(each)), 1);
}

function sizeOf(text: string, refuse: (why: string) => never): number {
  const key = text.toLowerCase().replace(/[ -]$/, "");
  const word = NUMBER_WORDS[key];
  if (word !== undefined) return word;
  return key.includes("/") ? fractionOf(key, refuse) : decimalOf(key, refuse);
}

/** The longest unit that the words open with, where nothing but words to pass over follows. */
function unitIn(words: string): Unit | undefined {
  const all = words.trim().split(" ");
  for (let length = Math.min(4, all.length); length > 0; length--) {
    const first = all.slice(0, length);
    const unit = UNIT_WORDS.get(unitWord(first.join("")));
    // A word of one letter is a unit by itself or none: "1 l b" is not a pound.
    const isWhole = length === 1 || first.every((word) => unitWord(word).length > 1);
    if (unit && isWhole) return all.slice(length).every(isPassedOver) ? unit : undefined;
  }
  return undefined;
}

function isPassedOver(word: string): boolean {
  return PASSED_OVER.includes(word.toLowerCase().replace(/\.$/, ""));
}
