/**
 * Reads the doc comments of src into the catalog, and refuses what Excel or a reader would trip on.
 *
 * The comment above a function is the only place where its name, units, ranges, errors and examples
 * are written. Each refusal names the file and the reason; tests/functions/refusals holds one folder
 * for each.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join, relative, sep } from "node:path";
import { parse } from "mathjs";
import ts from "typescript";
import {
  type SourceEntry,
  type Example,
  type Need,
  type Param,
  TOPICS,
  type WorkingLine,
} from "../catalog/entry";
import { readCall, readResult } from "../catalog/examples";
import { KINDS, type Kind, WORD_KINDS } from "../catalog/kinds";

export interface Problem {
  file: string;
  reason: string;
}

export interface Reading {
  entries: SourceEntry[];
  problems: Problem[];
}

/** Reads every file below a folder that is laid out like src. */
export function readComments(root: string): Reading {
  const entries: SourceEntry[] = [];
  const problems: Problem[] = [];
  for (const path of sourceFiles(root)) {
    const file = relative(root, path).split(sep).join("/");
    try {
      entries.push(...readFile(path, file));
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      problems.push({ file, reason: error.message });
    }
  }
  const order = (entry: SourceEntry) => TOPICS.indexOf(entry.topic);
  entries.sort((a, b) => order(a) - order(b) || a.id.localeCompare(b.id, "en"));
  return { entries, problems: [...problems, ...duplicates(entries)] };
}

class Refusal extends Error {}

function refuse(reason: string): never {
  throw new Refusal(reason);
}

function sourceFiles(folder: string): string[] {
  return readdirSync(folder)
    .sort()
    .map((name) => join(folder, name))
    .flatMap((path) => {
      if (statSync(path).isDirectory()) return sourceFiles(path);
      return path.endsWith(".ts") ? [path] : [];
    });
}

function readFile(path: string, file: string): SourceEntry[] {
  const text = readFileSync(path, "utf8");
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((statement) => {
    const tags = ts.getJSDocTags(statement);
    if (!tags.some((tag) => tag.tagName.text === "customfunction")) return [];
    if (!ts.isFunctionDeclaration(statement)) {
      refuse("@customfunction must stand above a function declaration, not an arrow function");
    }
    return [readFunction(statement, source, file)];
  });
}

function readFunction(
  node: ts.FunctionDeclaration,
  source: ts.SourceFile,
  file: string,
): SourceEntry {
  const comment = commentOf(node, source);
  const id = oneTag(node, "customfunction");
  if (!/^[A-Z][A-Z0-9]*$/.test(id)) refuse(`the id "${id}" must be capital letters and digits`);
  const plainName = basename(file, ".ts")
    .replace(/[^a-z0-9]/gi, "")
    .toUpperCase();
  if (plainName !== id) refuse(`${id} must live in a file named after it, ${id.toLowerCase()}.ts`);
  const isExported = node.modifiers?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword);
  if (!node.name || !isExported) refuse(`${id} must be an exported, named function`);
  const topic = oneTag(node, "topic");
  const folder = file.split("/").at(-2);
  if (topic !== folder) refuse(`@topic ${topic} must be the name of its folder, ${folder}`);
  if (!TOPICS.includes(topic)) refuse(`unknown @topic ${topic}; known are ${TOPICS.join(" ")}`);
  const entry: SourceEntry = {
    id,
    topic,
    name: node.name.text,
    file,
    summary: comment,
    need: optionalTag(node, "need"),
    remarks: optionalTag(node, "remarks"),
    params: readParams(node),
    returns: readReturns(node),
    throws: texts(node, "throws").map((text) => text.replace(/^value\s*-\s*/, "")),
    needs: texts(node, "needs").map(readNeed),
    working: texts(node, "working").map(readWorking),
    source: optionalTag(node, "source"),
    examples: readExamples(node, id),
  };
  for (const example of entry.examples) checkExample(example, entry);
  return entry;
}

/** The text above the tags; a {@link} anywhere crashes Microsoft's metadata tool. */
function commentOf(node: ts.FunctionDeclaration, source: ts.SourceFile): string {
  const doc = ts.getJSDocCommentsAndTags(node).find(ts.isJSDoc);
  const whole = doc?.getText(source) ?? "";
  const link = /\{@(link\w*|inheritDoc)/i.exec(whole);
  if (link) refuse(`{@${link[1]}} crashes the metadata tool: write the name plainly`);
  const text = flat(doc?.comment);
  if (text === "") refuse("the comment must open with a sentence that says what comes back");
  return text;
}

function readParams(node: ts.FunctionDeclaration): Param[] {
  const documented = new Map(
    ts
      .getJSDocTags(node)
      .filter(ts.isJSDocParameterTag)
      .map((tag) => [tag.name.getText(), tag]),
  );
  const declared = node.parameters.map((parameter) => parameter.name.getText());
  for (const name of documented.keys()) {
    if (!declared.includes(name)) refuse(`@param ${name} is not an argument of the function`);
  }
  return node.parameters.map((parameter) => {
    const name = parameter.name.getText();
    const tag = documented.get(name);
    return tag ? readParam(parameter, name, tag) : refuse(`@param ${name} is missing`);
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
  const plain: Shape = { range: false, word: false };
  const { range, word, mixed } =
    !parameter.type && inferred ? plain : shapeOf(name, parameter.type);
  if (!mixed && WORD_KINDS.has(kind) !== word)
    refuse(`@param ${name} is (${kind}), but its type is not of that sort`);
  const optional = Boolean(parameter.questionToken ?? parameter.initializer);
  if (optional !== tag.isBracketed) {
    refuse(optional ? `@param ${name} must be written [${name}]` : `${name} is not optional`);
  }
  if (optional) checkDefault(name, kind, text, parameter.initializer);
  const fallback = parameter.initializer && JSON.parse(parameter.initializer.getText());
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

function readReturns(node: ts.FunctionDeclaration): SourceEntry["returns"] {
  const tag = ts.getJSDocReturnTag(node) ?? refuse("@returns is missing");
  return {
    ...kindAndText("@returns", flat(tag.comment)),
    range: shapeOf("the result", node.type).range,
  };
}

/** "(share) Fragrance load." into its kind and its text. */
function kindAndText(where: string, comment: string): { kind: Kind; text: string } {
  const match = /^\(([^)]*)\)\s*(.+)$/.exec(comment);
  if (!match) refuse(`${where} must open with its kind in brackets, then say what it is`);
  const [, kind, text] = match as unknown as [string, string, string];
  if (!(kind in KINDS)) {
    refuse(`${where}: unknown kind (${kind}); known are ${Object.keys(KINDS).join(" ")}`);
  }
  return { kind: kind as Kind, text };
}

interface Shape {
  range: boolean;
  word: boolean;
  mixed?: boolean;
}

/** Which shapes Excel can carry: one number, one word, a range of numbers, or a range of either. */
function shapeOf(name: string, type: ts.TypeNode | undefined): Shape {
  const text = type?.getText() ?? refuse(`${name} has no type`);
  if (text === "number") return { range: false, word: false };
  if (text === "number[][]") return { range: true, word: false };
  if (text === "Cells") return { range: true, word: false, mixed: true };
  if (text === "number[]") refuse(`${name} is number[], which repeats in Excel: use number[][]`);
  if (ts.isUnionTypeNode(type as ts.TypeNode)) {
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

function readExamples(node: ts.FunctionDeclaration, id: string): Example[] {
  const lines = texts(node, "example");
  if (lines.length === 0) refuse(`${id} has no @example`);
  return lines.map((line) => {
    const match = /^(.+?)\s*\/\/ => (.+)$/.exec(line);
    if (!match) return refuse(`@example must read CALL // => RESULT, got: ${line}`);
    return { formula: match[1], result: match[2] };
  });
}

/** "[basis is base] part: oil as a part of the batch = load / (1 + load)" */
function readWorking(text: string): WorkingLine {
  const match = /^(?:\[(.+?)\] )?([a-z]+): (.+?) = (.+)$/.exec(text);
  if (!match) return refuse(`@working must read [WHEN] NAME: WHAT = EXPRESSION, got: ${text}`);
  const [, when, name, what, expression] = match;
  checkExpression("@working", expression);
  return { ...(when && { when }), name, what, expression };
}

/** "[or blank, counts given] fills > 0" */
function readNeed(text: string): Need {
  const [, bracket = "", expression] = /^(?:\[(.+?)\] )?(.+)$/.exec(text) ?? ["", "", text];
  const orBlank = /^or blank\b/.test(bracket);
  const when = bracket.replace(/^or blank(, )?/, "");
  checkExpression("@needs", expression);
  return { ...(orBlank && { orBlank }), ...(when && { when }), expression };
}

function checkExpression(tag: string, expression: string) {
  try {
    parse(expression);
  } catch (error) {
    refuse(`${tag} has an expression that mathjs cannot read, ${expression}: ${String(error)}`);
  }
}

function checkExample(example: Example, entry: SourceEntry) {
  try {
    const call = readCall(example.formula);
    readResult(example.result);
    if (call.id !== entry.id) refuse(`@example calls ${call.id}, not ${entry.id}`);
    const required = entry.params.filter((param) => !param.optional).length;
    if (call.args.length < required || call.args.length > entry.params.length) {
      refuse(`@example ${example.formula} gives ${call.args.length} arguments`);
    }
  } catch (error) {
    refuse(`@example ${example.formula}: ${(error as Error).message}`);
  }
}

/** Excel stores a call as NAMESPACE_NAME and ignores case, so ids must differ after that too. */
function duplicates(entries: SourceEntry[]): Problem[] {
  const seen = new Map<string, string>();
  return entries.flatMap((entry) => {
    const first = seen.get(entry.id);
    seen.set(entry.id, first ?? entry.file);
    return first ? [{ file: entry.file, reason: `the id ${entry.id} is taken by ${first}` }] : [];
  });
}

function texts(node: ts.Node, tagName: string): string[] {
  return ts
    .getJSDocTags(node)
    .filter((tag) => tag.tagName.text === tagName)
    .map((tag) => flat(tag.comment));
}

function optionalTag(node: ts.Node, tagName: string): string {
  return texts(node, tagName)[0] ?? "";
}

function oneTag(node: ts.Node, tagName: string): string {
  const found = texts(node, tagName);
  if (found.length !== 1 || found[0] === "") refuse(`exactly one @${tagName} is needed`);
  return found[0];
}

function flat(comment: string | ts.NodeArray<ts.JSDocComment> | undefined): string {
  return (ts.getTextOfJSDocComment(comment) ?? "").replace(/\s+/g, " ").trim();
}
