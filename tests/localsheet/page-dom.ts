/** What the engine asks of a page's XML, on @xmldom/xmldom: enough for it to read a workbook in Node. */
import { DOMParser, Document, Element, type Node } from "@xmldom/xmldom";

type Parent = Document | Element;

export class PageParser extends DOMParser {
  override parseFromString(text: string, type: string) {
    const document = super.parseFromString(text.trimStart(), type);
    for (const element of below(document)) {
      // A page's list of attributes knows them by name.
      const attributes = element.attributes as unknown as Record<string, unknown>;
      for (const attribute of Array.from(element.attributes))
        attributes[attribute.name] = attribute;
    }
    return document;
  }
}

function childrenOf(parent: Node): Element[] {
  const found: Element[] = [];
  for (let node = parent.firstChild; node; node = node.nextSibling)
    if (node.nodeType === 1) found.push(node as Element);
  return found;
}

function* below(parent: Node): Generator<Element> {
  for (const child of childrenOf(parent)) {
    yield child;
    yield* below(child);
  }
}

const STEP = /^([\w:.-]*)((?:\[[^\]]+\])*)$/;

function isOne(element: Element, step: string): boolean {
  if (step === ":root") return element.ownerDocument?.documentElement === element;
  const [, tag, conditions] = STEP.exec(step) as RegExpExecArray;
  if (tag && element.tagName !== tag) return false;
  return [...conditions.matchAll(/\[([\w:]+)(?:="([^"]*)")?\]/g)].every(([, name, value]) =>
    value === undefined ? element.hasAttribute(name) : element.getAttribute(name) === value,
  );
}

/** "a > b c": from the right, as a page reads it. */
function fits(element: Element, steps: string[]): boolean {
  const last = steps.at(-1) as string;
  if (!isOne(element, last)) return false;
  const before = steps.slice(0, -1);
  if (before.length === 0) return true;
  const isChild = before.at(-1) === ">";
  const rest = isChild ? before.slice(0, -1) : before;
  for (let up = element.parentNode; up?.nodeType === 1; up = up.parentNode) {
    if (fits(up as Element, rest)) return true;
    if (isChild) return false;
  }
  return false;
}

function select(parent: Parent, query: string): Generator<Element> {
  const choices = query.split(",").map((choice) => choice.trim().split(/\s+/));
  return (function* () {
    for (const element of below(parent))
      if (choices.some((steps) => fits(element, steps))) yield element;
  })();
}

for (const kind of [Document, Element])
  Object.defineProperties(kind.prototype, {
    querySelector: {
      value(this: Parent, query: string) {
        return select(this, query).next().value ?? null;
      },
    },
    querySelectorAll: {
      value(this: Parent, query: string) {
        return [...select(this, query)];
      },
    },
  });
