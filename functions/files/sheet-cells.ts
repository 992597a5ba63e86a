/**
 * The cells of a sheet, read and changed as texts: of a long sheet, a tree of elements takes many
 * times as long. What is not changed stays as it is, byte for byte.
 */
import { type Package, escaped } from "./package.ts";
import { attributesOf, unescaped } from "./source.ts";

// Rows hold no comments or the like (see Package), and no value of theirs has a bare > in it.
const CELL = /<((?:\w+:)?)c(\s[^>]*?)?(?:\/>|>([\s\S]*?)<\/\1c>)/g;
const FORMULA = /<((?:\w+:)?)f(\s[^>]*?)?(?:\/>|>([^<]*)<\/\1f>)/;
const VALUE = /<((?:\w+:)?)v(?:\s[^>]*?)?(?:\/>|>([^<]*)<\/\1v>)/;
const TEXT = /<(?:\w+:)?t(?:\s[^>]*?)?>([^<]*)</g;

export class SheetCells {
  readonly all: FileCell[] = [];
  /** What stands before each cell, and after the last. */
  private readonly between: string[] = [];
  private named: ReadonlyMap<string, FileCell> | undefined;

  constructor(
    private readonly file: Package,
    private readonly path: string,
  ) {
    const rows = file.rows(path);
    let end = 0;
    for (const match of rows.matchAll(CELL)) {
      const [whole, prefix = "", attributes = "", inside = ""] = match;
      this.between.push(rows.slice(end, match.index));
      end = match.index + whole.length;
      this.all.push(new FileCell(whole, prefix, attributes, inside));
    }
    this.between.push(rows.slice(end));
  }

  /** A cell by its name, where the file has it. */
  cell(name: string): FileCell | undefined {
    this.named ??= new Map(this.all.map((cell) => [cell.get("r") ?? "", cell]));
    return this.named.get(name);
  }

  /** Puts what was changed into the file. */
  save(): void {
    if (!this.all.some(({ isChanged }) => isChanged)) return;
    const texts = this.between.map((text, i) => text + (this.all[i]?.written() ?? ""));
    this.file.setRows(this.path, texts.join(""));
  }
}

export interface CellFormula {
  attributes: Record<string, string>;
  text: string;
}

/** A cell as a file has it. */
export class FileCell {
  isChanged = false;
  private known: Record<string, string> | undefined;

  constructor(
    private readonly whole: string,
    private readonly prefix: string,
    private readonly opening: string,
    private inside: string,
  ) {}

  private get attributes(): Record<string, string> {
    return (this.known ??= attributesOf(this.opening));
  }

  get(attribute: string): string | undefined {
    return this.attributes[attribute];
  }

  set(attribute: string, value: string): void {
    this.attributes[attribute] = value;
    this.isChanged = true;
  }

  remove(attribute: string): void {
    if (this.attributes[attribute] === undefined) return;
    delete this.attributes[attribute];
    this.isChanged = true;
  }

  get formula(): CellFormula | undefined {
    const match = FORMULA.exec(this.inside);
    if (!match) return undefined;
    const [, , attributes = "", text = ""] = match;
    return { attributes: attributesOf(attributes), text: unescaped(text) };
  }

  /** Another formula in place of the one that it has, or none. */
  setFormula(formula: CellFormula | undefined): void {
    const made = formula
      ? `<${this.prefix}f${attributesText(formula.attributes)}>${escaped(formula.text)}</${this.prefix}f>`
      : "";
    this.inside = this.inside.replace(FORMULA, () => made);
    this.isChanged = true;
  }

  /** What stands in it as its value: of a shared text, its place among them. */
  get value(): string | undefined {
    const match = VALUE.exec(this.inside);
    return match ? unescaped(match[2] ?? "") : undefined;
  }

  /** The text that stands in the cell itself. */
  get inlineText(): string {
    return Array.from(this.inside.matchAll(TEXT), ([, text = ""]) => unescaped(text)).join("");
  }

  /** The text of a formula as a text that somebody typed, spaces at its ends included. */
  makeText(): void {
    const { prefix, value } = this;
    if (value === undefined) return;
    this.set("t", "inlineStr");
    const text = `<${prefix}t xml:space="preserve">${escaped(value)}</${prefix}t>`;
    this.inside = this.inside.replace(VALUE, () => `<${prefix}is>${text}</${prefix}is>`);
  }

  written(): string {
    if (!this.isChanged) return this.whole;
    const { prefix, inside } = this;
    return `<${prefix}c${attributesText(this.attributes)}>${inside}</${prefix}c>`;
  }
}

function attributesText(attributes: Record<string, string>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escaped(value)}"`)
    .join("");
}
