import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { expect, test } from "vitest";

const HOUSES = ["src", "functions", "taskpane", "localsheet"];

/** The casts of a source, `as const` aside: where the compiler is told, not asked. */
function castsOf(source: ts.SourceFile): ts.Node[] {
  const found: ts.Node[] = [];
  const look = (node: ts.Node) => {
    if (ts.isAssertionExpression(node) && !ts.isConstTypeReference(node.type)) found.push(node);
    ts.forEachChild(node, look);
  };
  look(source);
  return found;
}

/** Whether a comment stands above a cast, up to the statement that it is in, or behind that. */
function hasReason(cast: ts.Node, text: string): boolean {
  for (let node = cast; ; node = node.parent) {
    if (ts.getLeadingCommentRanges(text, node.getFullStart())) return true;
    if (ts.isStatement(node)) return Boolean(ts.getTrailingCommentRanges(text, node.getEnd()));
  }
}

function bareCasts(path: string, text = readFileSync(path, "utf8")): string[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  return castsOf(source)
    .filter((cast) => !hasReason(cast, text))
    .map((cast) => {
      const { line } = source.getLineAndCharacterOfPosition(cast.getEnd());
      return `${path}:${line + 1} ${cast.getText()}`;
    });
}

test("every cast has its reason beside it", () => {
  const paths = HOUSES.flatMap((house) =>
    readdirSync(house, { recursive: true, encoding: "utf8" }).map((name) => join(house, name)),
  ).filter((path) => path.endsWith(".ts"));
  expect(paths.flatMap((path) => bareCasts(path))).toEqual([]);
});

test("a cast without a reason is found, wherever it stands", () => {
  const text = `
// Of the file.
const list = [1] as const;
const all = read(
  // What a host gives.
  given as Cells,
);
/** Of the function. */
function first() {
  const cell = all[0] as Cell;
  // Office says any.
  const value = cell.value as string;
  return value as Word;
}
`;
  // By hand: the casts to Cell and to Word.
  expect(bareCasts("text.ts", text)).toEqual([
    "text.ts:10 all[0] as Cell",
    "text.ts:13 value as Word",
  ]);
});
