/** The functions that expressions call: what each is called with, and what it makes of it. */
import type { MathNode } from "mathjs";
import { constantIn, nameIn } from "./expression.ts";
import type { WordInput } from "./input.ts";
import type { NativeInputs } from "./inputs.ts";
import { BLANK, FALSE, type Piece, not, op } from "./piece.ts";
import { TooMuch } from "./too-much.ts";
import { type ListValue, type Value, givenList, like, one, single } from "./values.ts";

/** An argument of the call by its name, a text, or an expression. */
export class Term {
  constructor(
    private readonly node: MathNode,
    private readonly inputs: NativeInputs,
    private readonly translate: (node: MathNode) => Value,
  ) {}

  get value(): Value {
    return this.translate(this.node);
  }

  /** One cell for each line. */
  get piece(): Piece {
    return single(this.value);
  }

  get list(): ListValue {
    const { value } = this;
    if (value.is !== "list") throw new TooMuch(this.node.toString());
    return value;
  }

  /** A text in quotes. */
  get text(): string | undefined {
    const value = constantIn(this.node);
    return typeof value === "string" ? value : undefined;
  }

  get word(): WordInput {
    const { input } = this;
    if (input?.is !== "word") throw new TooMuch(this.node.toString());
    return input;
  }

  get isGiven(): Piece {
    return this.input?.given ?? FALSE;
  }

  isArgumentGiven(name: string): Piece {
    return this.inputs.isGiven(name);
  }

  /** The range of the call, as it was given; undefined where it was left out. */
  get range(): ListValue | undefined {
    const { input } = this;
    return input?.is === "list" ? givenList(input.raw, input.across, input.length) : undefined;
  }

  /** True where it is filled in; of a range, cell by cell. */
  get isFilled(): Value {
    const { input } = this;
    if (!input) throw new TooMuch(this.node.toString());
    if (input.is !== "list") return one(not(input.nothing));
    const { raw, across, length } = input;
    return like(givenList(raw, across, length), op(raw, "<>", BLANK));
  }

  private get input() {
    return this.inputs.get(nameIn(this.node) ?? "");
  }
}

/** What a function of an expression is in a formula. */
export type Make = (...terms: Term[]) => Value;

/** A function of numbers, cell by cell. */
export function ofPieces(make: (...pieces: Piece[]) => Piece): Make {
  return (...terms) => {
    const values = terms.map(({ value }) => value);
    const [first, ...others] = values;
    if (first?.is === "list" && others.length === 0) return like(first, make(first.piece));
    return one(make(...values.map(single)));
  };
}
