/** The tags of a doc comment. */
import ts from "typescript";
import { type Attempt, refuse } from "./refusal.ts";

/** Every tag that means something here; any other is a slip of the pen. */
const TAGS = new Set(
  "customfunction topic need words remarks param returns throws needs working source example".split(
    " ",
  ),
);

export function checkTag(tag: ts.JSDocTag) {
  const name = tag.tagName.text;
  if (!TAGS.has(name)) refuse(`unknown tag @${name}; known are @${[...TAGS].join(" @")}`, tag);
}

export function tagsOf(node: ts.Node, tagName: string): ts.JSDocTag[] {
  return ts.getJSDocTags(node).filter((tag) => tag.tagName.text === tagName);
}

export function texts(node: ts.Node, tagName: string): string[] {
  return tagsOf(node, tagName).map((tag) => flat(tag.comment));
}

export function optionalTag(node: ts.Node, tagName: string): string {
  return texts(node, tagName)[0] ?? "";
}

export function oneTag(node: ts.Node, tagName: string): string {
  const [found, ...others] = texts(node, tagName);
  if (found && others.length === 0) return found;
  return refuse(`exactly one @${tagName} is needed`);
}

export function flat(comment: string | ts.NodeArray<ts.JSDocComment> | undefined): string {
  return (ts.getTextOfJSDocComment(comment) ?? "").replace(/\s+/g, " ").trim();
}

/** What each tag of a name says, as far as it can be read. */
export function eachTag<T>(
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
