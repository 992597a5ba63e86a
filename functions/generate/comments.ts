/**
 * Reads the doc comments of src into the catalog, and refuses what Excel or a reader would trip on.
 *
 * The comment above a function is the only place where its name, units, ranges, errors and examples
 * are written. Each refusal names the file and the reason; tests/functions/refusals holds one folder
 * for each.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join, relative, sep } from "node:path";
import { type MathNode, type SymbolNode, parse } from "mathjs";
import ts from "typescript";
import { conditionIn } from "../catalog/conditions";
import type { Example, Need, Param, SourceEntry, WorkingLine } from "../catalog/entry";
import { readCall, readResult } from "../catalog/examples";
import { KINDS, type Kind, WORD_KINDS } from "../catalog/kinds";
import { TOPICS, type Topic } from "../catalog/topics";
import { MEANINGS } from "../working/meanings";

export interface Problem {
  file: string;
  line: number;
  reason: string;
}

export interface Reading {
  entries: SourceEntry[];
  problems: Problem[];
}

/** Every tag that means something here; any other is a slip of the pen. */
const TAGS = new Set(
  "customfunction topic need remarks param returns throws needs working source example".split(" "),
);

/** What conditions may call, besides what working lines may; functions/native says it in cells. */
export const CONDITION_WORDS = (
  "abs banned filled floor given isknown islimit isquoted isrange isspare isunit isweight isyesno " +
  "same samelength"
).split(" ");

/** Names that stand for something in every expression. */
const ALWAYS = ["isrow", "true", "false"];

/** Reads every file below a folder that is laid out like src. */
export function readComments(root: string): Reading {
  const readings = sourceFiles(root).map((path) => {
    return readFile(path, relative(root, path).split(sep).join("/"));
  });
  const entries = readings.flatMap((reading) => reading.entries);
  const problems = readings.flatMap((reading) => reading.problems);
  const order = (entry: SourceEntry) => TOPICS.indexOf(entry.topic);
  entries.sort((a, b) => order(a) - order(b) || a.id.localeCompare(b.id, "en"));
  return { entries, problems: [...problems, ...duplicates(entries)] };
}

class Refusal extends Error {
  constructor(
    reason: string,
    readonly node?: ts.Node,
  ) {
    super(reason);
  }
}

function refuse(reason: string, node?: ts.Node): never {
  throw new Refusal(reason, node);
}

/** Runs a part of the reading; what it refuses is noted, so that the other parts are read all the same. */
type Attempt = <T>(node: ts.Node, read: () => T) => T | undefined;

function sourceFiles(folder: string): string[] {
  return readdirSync(folder)
    .sort()
    .map((name) => join(folder, name))
    .flatMap((path) => {
      if (statSync(path).isDirectory()) return sourceFiles(path);
      return path.endsWith(".ts") ? [path] : [];
    });
}

function readFile(path: string, file: string): Reading {
  const text = readFileSync(path, "utf8");
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const problems: Problem[] = [];
  const attempt: Attempt = (node, read) => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      const place = (error.node ?? node).getStart(source);
      const line = source.getLineAndCharacterOfPosition(place).line + 1;
      problems.push({ file, line, reason: error.message });
      return undefined;
    }
  };
  const entries = source.statements.flatMap((statement) => {
    const tags = ts.getJSDocTags(statement);
    if (!tags.some((tag) => tag.tagName.text === "customfunction")) return [];
    const entry = attempt(statement, () => {
      if (ts.isFunctionDeclaration(statement))
        return readFunction(statement, source, file, attempt);
      return refuse(
        "@customfunction must stand above a function declaration, not an arrow function",
      );
    });
    return entry ? [entry] : [];
  });
  return { entries: problems.length > 0 ? [] : entries, problems };
}

function readFunction(
  node: ts.FunctionDeclaration,
  source: ts.SourceFile,
  file: string,
  attempt: Attempt,
): SourceEntry {
  for (const tag of ts.getJSDocTags(node)) attempt(tag, () => checkTag(tag));
  const summary = attempt(node, () => commentOf(node, source)) ?? "";
  const id = attempt(node, () => idOf(node, file)) ?? "";
  const topic = attempt(node, () => topicOf(node, file)) ?? TOPICS[0];
  const params = readParams(node, attempt);
  const returns = attempt(node, () => readReturns(node));
  const names = node.parameters.map((parameter) => parameter.name.getText());
  const entry: SourceEntry = {
    id,
    topic,
    name: node.name?.text ?? "",
    file,
    summary,
    need: attempt(node, () => needOf(node)) ?? "",
    remarks: optionalTag(node, "remarks"),
    params,
    returns: returns ?? { kind: "number", text: "", range: false },
    throws: texts(node, "throws").map((text) => text.replace(/^value\s*-\s*/, "")),
    needs: eachTag(node, "needs", attempt, (text) => readNeed(text, names)),
    working: readWorkings(node, names, attempt),
    source: attempt(node, () => oneTag(node, "source")) ?? "",
    examples: readExamples(node, id, attempt),
  };
  attempt(node, () => {
    if (entry.throws.length === 0) refuse(`${id} has no @throws: say what it refuses`);
  });
  // What was refused above would be refused once more here.
  const isRead = id !== "" && params.length === node.parameters.length;
  for (const example of isRead ? entry.examples : []) {
    attempt(node, () => checkExample(example, entry));
  }
  return entry;
}

function checkTag(tag: ts.JSDocTag) {
  const name = tag.tagName.text;
  if (!TAGS.has(name)) refuse(`unknown tag @${name}; known are @${[...TAGS].join(" @")}`, tag);
}

function idOf(node: ts.FunctionDeclaration, file: string): string {
  const id = oneTag(node, "customfunction");
  if (!/^[A-Z][A-Z0-9]*$/.test(id)) refuse(`the id "${id}" must be capital letters and digits`);
  const plainName = basename(file, ".ts")
    .replace(/[^a-z0-9]/gi, "")
    .toUpperCase();
  if (plainName !== id) refuse(`${id} must live in a file named after it, ${id.toLowerCase()}.ts`);
  const isExported = node.modifiers?.some((m) => m.kind === ts.SyntaxKind.ExportKeyword);
  if (!node.name || !isExported) refuse(`${id} must be an exported, named function`);
  return id;
}

function topicOf(node: ts.FunctionDeclaration, file: string): Topic {
  const topic = oneTag(node, "topic");
  const folder = file.split("/").at(-2);
  if (topic !== folder) refuse(`@topic ${topic} must be the name of its folder, ${folder}`);
  const known = TOPICS.find((each) => each === topic);
  if (known) return known;
  return refuse(
    `unknown @topic ${topic}; known are ${TOPICS.join(" ")}: a new one goes into functions/catalog/topics.ts`,
  );
}

/** What the function is for, as a question of the maker. A condition is not one: that is @needs. */
function needOf(node: ts.FunctionDeclaration): string {
  const need = oneTag(node, "need");
  if (need.endsWith("?")) return need;
  return refuse(`@need must be a question, got: ${need}. What must hold stands in @needs`);
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

function readParams(node: ts.FunctionDeclaration, attempt: Attempt): Param[] {
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

/** What each tag of a name says, as far as it can be read. */
function eachTag<T>(
  node: ts.FunctionDeclaration,
  tagName: string,
  attempt: Attempt,
  read: (text: string) => T,
): T[] {
  return tagsOf(node, tagName).flatMap((tag) => {
    const found = attempt(tag, () => read(flat(tag.comment)));
    return found === undefined ? [] : [found];
  });
}

function readExamples(node: ts.FunctionDeclaration, id: string, attempt: Attempt): Example[] {
  if (tagsOf(node, "example").length === 0) attempt(node, () => refuse(`${id} has no @example`));
  return eachTag(node, "example", attempt, (line) => {
    const match = /^(.+?)\s*\/\/ => (.+)$/.exec(line);
    if (!match) return refuse(`@example must read CALL // => RESULT, got: ${line}`);
    return { formula: match[1], result: match[2] };
  });
}

function readWorkings(
  node: ts.FunctionDeclaration,
  params: readonly string[],
  attempt: Attempt,
): WorkingLine[] {
  const known = [...params];
  const lines = eachTag(node, "working", attempt, (text) => {
    const line = readWorking(text, known);
    known.push(line.name);
    return line;
  });
  if (tagsOf(node, "working").length === 0) {
    attempt(node, () => refuse("@working is missing: say how the number comes about"));
  }
  return lines;
}

/** "[basis is base] part: oil as a part of the batch = load / (1 + load)" */
function readWorking(text: string, known: readonly string[]): WorkingLine {
  const match = /^(?:\[(.+?)\] )?([a-z]+): (.+?) = (.+)$/.exec(text);
  if (!match) return refuse(`@working must read [WHEN] NAME: WHAT = EXPRESSION, got: ${text}`);
  const [, when, name, what, expression] = match;
  checkExpression("@working", expression, known);
  if (when) checkWhen("@working", when, known);
  return { ...(when && { when }), name, what, expression };
}

/** "[or blank, counts given] fills > 0" */
function readNeed(text: string, params: readonly string[]): Need {
  const [, bracket = "", expression] = /^(?:\[(.+?)\] )?(.+)$/.exec(text) ?? ["", "", text];
  const orBlank = /^or blank\b/.test(bracket);
  const when = bracket.replace(/^or blank(, )?/, "");
  checkExpression("@needs", expression, params);
  if (when) checkWhen("@needs", when, params);
  return { ...(orBlank && { orBlank }), ...(when && { when }), expression };
}

function checkWhen(tag: string, when: string, known: readonly string[]) {
  const condition = conditionIn(when);
  if (condition.sort === "expression") checkExpression(tag, when, known);
  else if (!known.includes(condition.name)) {
    refuse(`${tag} [${when}] names ${condition.name}, which is no argument`);
  }
}

/** Refuses what mathjs cannot read, and names that stand for nothing. */
function checkExpression(tag: string, expression: string, known: readonly string[]) {
  const node = parsed(tag, expression);
  node.traverse((part, path) => {
    if (part.type !== "SymbolNode") return;
    const { name } = part as SymbolNode;
    const isCalled = path === "fn";
    const isKnown = isCalled
      ? name in MEANINGS || CONDITION_WORDS.includes(name)
      : known.includes(name) || ALWAYS.includes(name);
    if (isKnown) return;
    const what = isCalled ? "calls" : "names";
    refuse(`${tag} ${what} ${name}, which is not known there: ${expression}`);
  });
}

function parsed(tag: string, expression: string): MathNode {
  try {
    return parse(expression);
  } catch (error) {
    return refuse(
      `${tag} has an expression that mathjs cannot read, ${expression}: ${String(error)}`,
    );
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
    if (first === undefined) return [];
    return [{ file: entry.file, line: 1, reason: `the id ${entry.id} is taken by ${first}` }];
  });
}

function tagsOf(node: ts.Node, tagName: string): ts.JSDocTag[] {
  return ts.getJSDocTags(node).filter((tag) => tag.tagName.text === tagName);
}

function texts(node: ts.Node, tagName: string): string[] {
  return tagsOf(node, tagName).map((tag) => flat(tag.comment));
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
