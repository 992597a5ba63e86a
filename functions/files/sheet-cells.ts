/**
 * The cells of a sheet, read and changed as texts: of a long sheet, a tree of elements takes many
 * times as long. What is not changed stays as it is, byte for byte.
 */
import { type Package, escaped } from "./package.ts";
import { attributesOf, unescaped } from "./source.ts";
import { elementsOf, withAttributes } from "./texts.ts";

// Rows hold no comments or the like (see Package), and no attribute of theirs has a bare > in it.
const CELL = elementsOf("c");
const FORMULA = elementsOf("f");
const VALUE = elementsOf("v");
const TEXT = elementsOf("t");

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
      const [whole, mark = "", attributes = "", inside = ""] = match;
      this.between.push(rows.slice(end, match.index));
      end = match.index + whole.length;
      this.all.push(new FileCell(whole, mark, attributes, inside));
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
    /** The name of its element, c with the prefix of the file. */
    private readonly mark: string,
    private attributes: string,
    private inside: string,
  ) {}

  get(attribute: string): string | undefined {
    return (this.known ??= attributesOf(this.attributes))[attribute];
  }

  /** Undefined takes it out. */
  set(attribute: string, value: string | undefined): void {
    if (this.get(attribute) === value) return;
    this.attributes = withAttributes(this.attributes, { [attribute]: value });
    this.known = undefined;
    this.isChanged = true;
  }

  get formula(): CellFormula | undefined {
    const [found] = this.inside.matchAll(FORMULA);
    if (!found) return undefined;
    const [, , attributes = "", text = ""] = found;
    return { attributes: attributesOf(attributes), text: unescaped(text) };
  }

  /** Another formula in place of the one that it has, or none. */
  setFormula(formula: CellFormula | undefined): void {
    const mark = `${this.prefix}f`;
    const made = formula
      ? `<${mark}${withAttributes("", formula.attributes)}>${escaped(formula.text)}</${mark}>`
      : "";
    this.inside = this.inside.replace(FORMULA, () => made);
    this.isChanged = true;
  }

  /** What stands in it as its value: of a shared text, its place among them. */
  get value(): string | undefined {
    const [found] = this.inside.matchAll(VALUE);
    return found && unescaped(found[3] ?? "");
  }

  /** The text that stands in the cell itself. */
  get inlineText(): string {
    return Array.from(this.inside.matchAll(TEXT), ([, , , text = ""]) => unescaped(text)).join("");
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
    const { mark, attributes, inside } = this;
    return `<${mark}${attributes}>${inside}</${mark}>`;
  }

  private get prefix(): string {
    return this.mark.slice(0, -1);
  }
}
