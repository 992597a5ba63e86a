/**
 * Reads the doc comments of src into the catalog, and refuses what Excel or a reader would trip on.
 *
 * The comment above a function is the only place where its name, units, ranges, errors and examples
 * are written. Each refusal names the file and the reason; tests/functions/refusals holds one
 * folder for each.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join, relative, sep } from "node:path";
import ts from "typescript";
import type { Example, SourceEntry } from "../catalog/entry.ts";
import { readCall, readResult } from "../catalog/examples.ts";
import { TOPICS, type Topic } from "../catalog/topics.ts";
import { knownOf, readNeeds, readWorkings } from "./expressions.ts";
import { readParams, readReturns } from "./parameters.ts";
import { type Attempt, type Problem, BuildRefusal, refuse } from "./refusal.ts";
import { checkTag, eachTag, flat, oneTag, optionalTag, tagsOf, texts } from "./tags.ts";

export interface ReadComments {
  entries: SourceEntry[];
  problems: Problem[];
}

/** Reads every file below a folder that is laid out like src. */
export function readComments(root: string): ReadComments {
  const readings = sourceFiles(root).map((path) => {
    return readFile(path, relative(root, path).split(sep).join("/"));
  });
  const entries = readings.flatMap((reading) => reading.entries);
  const problems = readings.flatMap((reading) => reading.problems);
  const order = (entry: SourceEntry) => TOPICS.indexOf(entry.topic);
  entries.sort((a, b) => order(a) - order(b) || a.id.localeCompare(b.id, "en"));
  return { entries, problems: [...problems, ...duplicates(entries)] };
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

function readFile(path: string, file: string): ReadComments {
  const text = readFileSync(path, "utf8");
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  const problems: Problem[] = [];
  const attempt: Attempt = (node, read) => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof BuildRefusal)) throw error;
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
  const topic = attempt(node, () => topicOf(node, file)) ?? "load";
  const params = readParams(node, attempt);
  const returns = attempt(node, () => readReturns(node));
  const names = node.parameters.map((parameter) => parameter.name.getText());
  const known = knownOf(names, params);
  const entry: SourceEntry = {
    id,
    topic,
    name: node.name?.text ?? "",
    file,
    summary,
    need: attempt(node, () => needOf(node)) ?? "",
    words: optionalTag(node, "words"),
    remarks: optionalTag(node, "remarks"),
    params,
    returns: returns ?? { kind: "number", text: "", range: false },
    throws: texts(node, "throws").map((text) => text.replace(/^value\s*-\s*/, "")),
    needs: readNeeds(node, known, attempt),
    working: readWorkings(
      node,
      known,
      params.filter(({ kind }) => kind === "share").map(({ name }) => name),
      attempt,
    ),
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

function readExamples(node: ts.FunctionDeclaration, id: string, attempt: Attempt): Example[] {
  if (tagsOf(node, "example").length === 0) attempt(node, () => refuse(`${id} has no @example`));
  return eachTag(node, "example", attempt, (line) => {
    const [, formula, result] = /^(.+?)\s*\/\/ => (.+)$/.exec(line) ?? [];
    if (formula && result) return { formula, result };
    return refuse(`@example must read CALL // => RESULT, got: ${line}`);
  });
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
    refuse(
      `@example ${example.formula}: ${error instanceof Error ? error.message : String(error)}`,
    );
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
