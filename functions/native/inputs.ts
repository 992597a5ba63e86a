/** The arguments of a call by name, and when its line is right, empty or spare. */
import type { CatalogEntry, Param } from "../catalog/entry.ts";
import { WORD_KINDS, isRefusedAtZero } from "../catalog/kinds.ts";
import type { Given, Spread } from "./given.ts";
import { type Input, inputOf } from "./input.ts";
import { FALSE, type Piece, and, or } from "./piece.ts";

export class NativeInputs {
  private readonly named = new Map<string, Input>();
  /** Arguments of one cell where the call has many lines: they do not fill a line. */
  private readonly stretched: ReadonlySet<string>;

  /** The needs hold those in "surely" to be above zero. */
  constructor(
    private readonly entry: CatalogEntry,
    args: readonly (Given | undefined)[],
    surely: ReadonlySet<string> = new Set(),
  ) {
    const singles = entry.params.flatMap((param, i) =>
      param.range ? [] : [{ param, shape: args[i]?.shape }],
    );
    const isCell = (shape?: Spread | null) =>
      shape === undefined || (shape?.rows === 1 && shape.columns === 1);
    const cells = singles.filter(({ shape }) => isCell(shape)).map(({ param }) => param.name);
    this.stretched = new Set(cells.length < singles.length ? cells : []);
    entry.params.forEach((param, i) => {
      const input = inputOf(entry, param, args[i], surely.has(param.name));
      if (input) this.named.set(param.name, input);
    });
  }

  /** An argument by its name; undefined for a range that was left out. */
  get(name: string): Input | undefined {
    return this.named.get(name);
  }

  isGiven(name: string): Piece {
    return this.get(name)?.given ?? FALSE;
  }

  /** True where the first range lies in a row. */
  get isRow(): boolean {
    return [...this.named.values()].find((input) => input.is === "list")?.across ?? false;
  }

  /** All of them of the right sort. */
  get fit(): Piece {
    return and(...[...this.named.values()].map(({ fits }) => fits));
  }

  /** Nothing filled in at all. */
  get empty(): Piece {
    return and(...[...this.named.values()].map(({ nothing }) => nothing));
  }

  /** No required quantity is filled in: a spare line. */
  get spare(): Piece {
    const isRequired = ({ optional, kind }: Param) => !optional && !WORD_KINDS.has(kind);
    const required = this.entry.params.filter(isRequired);
    const own = required.filter(({ name }) => !this.stretched.has(name));
    const quantities = this.of(own.length > 0 ? own : required);
    return and(...quantities.map(({ blank, nothing }) => blank ?? nothing));
  }

  /** A line that shows blank: spare, with nothing wrong in what may be left out; or empty. */
  get quiet(): Piece {
    const isSpare = and(this.spare, this.optionsFit);
    return this.entry.params.some(isRefusedAtZero) ? or(isSpare, this.empty) : isSpare;
  }

  /** What may be left out, of the right sort. */
  private get optionsFit(): Piece {
    const options = this.of(this.entry.params.filter(({ optional }) => optional));
    return and(...options.map(({ fits }) => fits));
  }

  private of(params: readonly Param[]): Input[] {
    return params.flatMap(({ name }) => this.get(name) ?? []);
  }
}
