/** The arguments of a function and its result: their kinds, their shapes and their defaults. */
import ts from "typescript";
import type { Param, SourceEntry } from "../catalog/entry.ts";
import { KINDS, type Kind, WORD_KINDS } from "../catalog/kinds.ts";
import { type Attempt, refuse } from "./refusal.ts";
import { flat } from "./tags.ts";

export function readParams(node: ts.FunctionDeclaration, attempt: Attempt): Param[] {
  const documented = new Map(
    ts
      .getJSDocTags(node)
      .filter(ts.isJSDocParameterTag)
      .map((tag) => [tag.name.getText(), tag]),
  );
  const declared = node.parameters.map((parameter) => parameter.name.getText());
  for (const [name, tag] of documented) {
    if (declared.includes(name)) continue;
    attempt(tag, () => refuse(`@param ${name} is not an argument of the function`));
  }
  return node.parameters.flatMap((parameter) => {
    const name = parameter.name.getText();
    const tag = documented.get(name);
    const param = attempt(tag ?? parameter, () =>
      tag ? readParam(parameter, name, tag) : refuse(`@param ${name} is missing`),
    );
    return param ? [param] : [];
  });
}

function readParam(
  parameter: ts.ParameterDeclaration,
  name: string,
  tag: ts.JSDocParameterTag,
): Param {
  if (parameter.dotDotDotToken) refuse(`${name} repeats: take one range instead`);
  const { kind, text } = kindAndText(`@param ${name}`, flat(tag.comment));
  const inferred = parameter.initializer && ts.isNumericLiteral(parameter.initializer);
  const plain: ArgumentShape = { range: false, word: false };
  const { range, word, mixed } =
    !parameter.type && inferred ? plain : shapeOf(name, parameter.type);
  if ((kind === "pack") !== (parameter.type?.getText() === "Cell"))
    refuse(`@param ${name}: a (pack) is a Cell, and nothing else is`);
  if (!mixed && WORD_KINDS.has(kind) !== word)
    refuse(`@param ${name} is (${kind}), but its type is not of that sort`);
  const optional = Boolean(parameter.questionToken ?? parameter.initializer);
  if (optional !== tag.isBracketed) {
    refuse(optional ? `@param ${name} must be written [${name}]` : `${name} is not optional`);
  }
  if (optional) checkDefault(name, kind, text, parameter.initializer);
  const fallback = literalIn(parameter.initializer);
  return {
    name,
    kind,
    range,
    ...(mixed && { mixed }),
    optional,
    ...(fallback !== undefined && { default: fallback }),
    text,
  };
}

/** The default as the catalog holds it: a number or a word, and no other expression. */
function literalIn(initializer: ts.Expression | undefined): number | string | undefined {
  if (!initializer) return undefined;
  if (ts.isStringLiteral(initializer)) return initializer.text;
  const value = Number(initializer.getText());
  if (!Number.isNaN(value)) return value;
  return refuse(`a default must be a number or a word, got ${initializer.getText()}`);
}

export function readReturns(node: ts.FunctionDeclaration): SourceEntry["returns"] {
  const tag = ts.getJSDocReturnTag(node) ?? refuse("@returns is missing");
  return {
    ...kindAndText("@returns", flat(tag.comment)),
    range: shapeOf("the result", node.type).range,
  };
}

/** "(share) Fragrance load." into its kind and its text. */
function kindAndText(where: string, comment: string): { kind: Kind; text: string } {
  const [, word, text] = /^\(([^)]*)\)\s*(.+)$/.exec(comment) ?? [];
  if (word === undefined || text === undefined) {
    return refuse(`${where} must open with its kind in brackets, then say what it is`);
  }
  if (isKind(word)) return { kind: word, text };
  return refuse(`${where}: unknown kind (${word}); known are ${Object.keys(KINDS).join(" ")}`);
}

function isKind(word: string): word is Kind {
  return word in KINDS;
}

interface ArgumentShape {
  range: boolean;
  word: boolean;
  mixed?: boolean;
}

/** Which shapes Excel can carry: one number, one word, a range of numbers, or a range of either. */
function shapeOf(name: string, type: ts.TypeNode | undefined): ArgumentShape {
  const text = type?.getText() ?? refuse(`${name} has no type`);
  if (text === "number" || text === "Cell") return { range: false, word: false };
  if (text === "number[][]") return { range: true, word: false };
  if (text === "Cells") return { range: true, word: false, mixed: true };
  if (text === "number[]") refuse(`${name} is number[], which repeats in Excel: use number[][]`);
  if (type && ts.isUnionTypeNode(type)) {
    refuse(`${name} is a union, which Excel takes for anything: use one type, or name the words`);
  }
  if (text === "string" || /^[A-Z]\w*$/.test(text)) return { range: false, word: true };
  return refuse(`${name} has the type ${text}, which a cell cannot carry`);
}

/** Excel passes null for what was left out, so a reader must find the default in the text. */
function checkDefault(name: string, kind: Kind, text: string, initializer?: ts.Expression) {
  if (!initializer) {
    if (/default/.test(text)) return;
    refuse(`@param ${name} must say its default, or "no default"`);
  }
  const value = initializer.getText().replace(/^["'](.*)["']$/, "$1");
  const shown = kind === "share" ? `${Number((Number(value) * 100).toPrecision(12))} %` : value;
  const written = WORD_KINDS.has(kind) ? `"${shown}" (default)` : `default ${shown}`;
  if (!text.includes(written)) refuse(`@param ${name} must say its default as: ${written}`);
}
