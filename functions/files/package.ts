/**
 * A workbook file as its parts: fflate opens and closes the zip, @xmldom/xmldom reads and writes
 * the XML. Parts that nobody asks for as XML stay as they are, byte for byte.
 */
import { DOMParser, type Document, Element, XMLSerializer } from "@xmldom/xmldom";
import { strFromU8, strToU8, zipSync } from "fflate";
import { Refusal } from "./refusal.ts";
import { plainXml } from "./plain-xml.ts";
import { refuseOther, unpack } from "./unpack.ts";
import { relationsOf, targetFrom } from "./paths.ts";

export type { Document, Element };

export interface Relation {
  id: string;
  /** The last word of its type: worksheet, comments, table. */
  type: string;
  /** The path of the part that it leads to. */
  path: string;
}

const RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const TYPES = "[Content_Types].xml";

const ROWS = /<((?:\w+:)?)sheetData\s*>/;
const NO_ROWS = /<((?:\w+:)?)sheetData\s*\/>/;
/** Comments, instructions and CDATA: all but the line that says that this is XML. */
const MISLEADING = /<!|<\?(?!xml\s)/;

export class Package {
  private readonly read = new Map<string, Document>();
  /** The rows of sheets that are kept as texts, by their paths. */
  private readonly rowsApart = new Map<string, string>();

  private constructor(
    private readonly parts: Record<string, Uint8Array>,
    private readonly hasRowsApart = false,
  ) {}

  /**
   * The file of a workbook. With rows apart, the elements of a sheet have none, and what is in
   * them is asked for as a text.
   */
  static open(bytes: Uint8Array, { rowsApart = false } = {}): Package {
    const parts = unpack(bytes);
    refuseOther(parts);
    if (!parts[TYPES])
      throw new Refusal("This is not an .xlsx workbook: it has no list of contents.");
    return new Package(parts, rowsApart);
  }

  /** Parts that were made as texts. */
  static of(texts: Record<string, string>): Package {
    const parts = Object.entries(texts).map(([path, text]) => [path, strToU8(text)] as const);
    return new Package(Object.fromEntries(parts));
  }

  has(path: string): boolean {
    return path in this.parts;
  }

  text(path: string): string {
    const part = this.parts[path];
    if (!part) throw new Error(`the workbook lacks its part ${path}`);
    return strFromU8(part);
  }

  write(path: string, text: string): void {
    this.parts[path] = strToU8(text);
    this.read.delete(path);
    this.rowsApart.delete(path);
  }

  /** A part as XML; what is changed in it is saved. */
  xml(path: string): Document {
    const known = this.read.get(path);
    if (known) return known;
    const text = this.hasRowsApart ? this.withoutRows(path) : this.text(path);
    const document = new DOMParser().parseFromString(text.trimStart(), "text/xml");
    this.read.set(path, document);
    return document;
  }

  /** The text of a part; of a sheet, without its rows, which are set apart. */
  private withoutRows(path: string): string {
    const written = this.text(path);
    if (!ROWS.test(written)) return written;
    // Rows are looked through as texts, which comments and the like would mislead.
    const text = MISLEADING.test(written) ? plainXml(path, strToU8(written)) : written;
    const [open = "", prefix = ""] = ROWS.exec(text) ?? [];
    const from = text.indexOf(open) + open.length;
    const to = text.lastIndexOf(`</${prefix}sheetData>`);
    if (to < from) return text;
    this.rowsApart.set(path, text.slice(from, to));
    return text.slice(0, from) + text.slice(to);
  }

  /** The rows of a sheet, where they are apart. */
  rows(path: string): string {
    this.xml(path);
    return this.rowsApart.get(path) ?? "";
  }

  setRows(path: string, rows: string): void {
    this.rowsApart.set(path, rows);
  }

  root(path: string): Element {
    return rootOf(this.xml(path));
  }

  add(path: string, contentType: string, text: string): void {
    this.write(path, text);
    const types = this.root(TYPES);
    const override = this.xml(TYPES).createElementNS(types.namespaceURI, "Override");
    override.setAttribute("PartName", `/${path}`);
    override.setAttribute("ContentType", contentType);
    types.appendChild(override);
  }

  /** Says what parts of an ending are, where that is not said yet. */
  addEnding(extension: string, contentType: string): void {
    const types = this.root(TYPES);
    const known = childrenNamed(types, "Default").some(
      (each) => each.getAttribute("Extension")?.toLowerCase() === extension,
    );
    if (known) return;
    const ending = this.xml(TYPES).createElementNS(types.namespaceURI, "Default");
    ending.setAttribute("Extension", extension);
    ending.setAttribute("ContentType", contentType);
    types.insertBefore(ending, types.firstChild);
  }

  /** Removes a part, its type, and the relation of another part to it. */
  remove(path: string, from: string): void {
    delete this.parts[path];
    this.read.delete(path);
    this.rowsApart.delete(path);
    const types = childrenNamed(this.root(TYPES), "Override");
    const relations = this.has(relationsOf(from)) ? elements(this.root(relationsOf(from))) : [];
    for (const each of types) if (each.getAttribute("PartName") === `/${path}`) drop(each);
    for (const each of relations) {
      if (!isOutside(each) && resolve(from, each.getAttribute("Target") ?? "") === path) drop(each);
    }
  }

  /** What a part leads to. Links to other files are left out. */
  relations(path: string): Relation[] {
    if (!this.has(relationsOf(path))) return [];
    return elements(this.root(relationsOf(path)))
      .filter((each) => !isOutside(each))
      .map((each) => ({
        id: each.getAttribute("Id") ?? "",
        type: (each.getAttribute("Type") ?? "").split("/").at(-1) ?? "",
        path: resolve(path, each.getAttribute("Target") ?? ""),
      }));
  }

  /** Leads from a part to another; gives the id. */
  relate(path: string, type: string, target: string): string {
    const file = relationsOf(path);
    if (!this.has(file)) {
      this.write(
        file,
        `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="${RELATIONS}"/>`,
      );
    }
    const root = this.root(file);
    const taken = elements(root).map((each) => each.getAttribute("Id"));
    let n = taken.length + 1;
    while (taken.includes(`rId${n}`)) n++;
    const relation = this.xml(file).createElementNS(root.namespaceURI, "Relationship");
    relation.setAttribute("Id", `rId${n}`);
    relation.setAttribute("Type", `${OFFICE}/${type}`);
    relation.setAttribute("Target", targetFrom(path, target));
    root.appendChild(relation);
    return `rId${n}`;
  }

  /** A path that no part has: xl/comments1.xml for "xl/comments", "xml". */
  freePath(stem: string, extension: string): string {
    for (let n = 1; ; n++)
      if (!this.has(`${stem}${n}.${extension}`)) return `${stem}${n}.${extension}`;
  }

  save(): Uint8Array {
    const writer = new XMLSerializer();
    for (const [path, document] of this.read)
      this.parts[path] = strToU8(this.withRows(path, writer.serializeToString(document)));
    // The same bytes for the same workbook: the day of the making is not part of it.
    return zipSync(this.parts, { mtime: "1980-01-01T00:00:00" });
  }

  private withRows(path: string, text: string): string {
    const rows = this.rowsApart.get(path);
    if (!rows) return text;
    return text.replace(
      NO_ROWS,
      (_, prefix: string) => `<${prefix}sheetData>${rows}</${prefix}sheetData>`,
    );
  }
}

/** Whether a relation leads out of the file. */
function isOutside(relation: Element): boolean {
  return relation.getAttribute("TargetMode") === "External";
}

/** A target as it stands in a part, as a path from the root. */
function resolve(from: string, target: string): string {
  return decodeURIComponent(new URL(target, `file:///${from}`).pathname.slice(1));
}

export function rootOf(document: Document): Element {
  if (!document.documentElement) throw new Error("a part of the workbook has no root element");
  return document.documentElement;
}

export function drop(element: Element): void {
  element.parentNode?.removeChild(element);
}

/** The elements right below one. */
export function elements(parent: Element): Element[] {
  const found: Element[] = [];
  for (let node = parent.firstChild; node; node = node.nextSibling)
    if (node instanceof Element) found.push(node);
  return found;
}

/** The elements right below one that have a name, whatever its prefix. */
export function childrenNamed(parent: Element, name: string): Element[] {
  return elements(parent).filter(({ localName }) => localName === name);
}

/** The first of them. */
export function childNamed(parent: Element, name: string): Element | undefined {
  for (let node = parent.firstChild; node; node = node.nextSibling)
    if (node instanceof Element && node.localName === name) return node;
  return undefined;
}

/** One that a file of this kind always has. */
export function theChild(parent: Element, name: string): Element {
  const found = childNamed(parent, name);
  if (!found) throw new Error(`the workbook's ${parent.localName} lacks its ${name}`);
  return found;
}

/** All elements below one that have a name. */
export function allNamed(parent: Element, name: string): Element[] {
  return elements(parent).flatMap((each) => [
    ...(each.localName === name ? [each] : []),
    ...allNamed(each, name),
  ]);
}

/** The document that an element is of, or was made for. */
export function documentOf(element: Element): Document {
  if (!element.ownerDocument) throw new Error(`${element.nodeName} belongs to no document`);
  return element.ownerDocument;
}

/** A new element of the same namespace and prefix as another, not yet put anywhere. */
export function elementLike(
  like: Element,
  name: string,
  attributes: Record<string, string> = {},
  text?: string,
): Element {
  const document = documentOf(like);
  const prefix = like.prefix ? `${like.prefix}:` : "";
  const made = document.createElementNS(like.namespaceURI, prefix + name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.appendChild(document.createTextNode(text));
  return made;
}

/** A text as it stands, spaces at its ends included. */
export function keptText(like: Element, text: string): Element {
  const made = elementLike(like, "t", {}, text);
  made.setAttributeNS("http://www.w3.org/XML/1998/namespace", "xml:space", "preserve");
  return made;
}

/** Makes an element lead where a relation does. */
export function link(element: Element, relation: string): void {
  element.setAttributeNS(OFFICE, "r:id", relation);
}

/** Text for XML that is written by hand; characters that XML has no place for are left out. */
export function escaped(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex -- these are what is taken out
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F]/g, "")
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
  );
}

/** Adds to a list that the styles of a workbook hold, such as their fonts; its place there. */
export function appendStyle(styles: Element, list: string, element: Element): string {
  const all = styleList(styles, list);
  all.appendChild(element);
  const count = elements(all).length;
  all.setAttribute("count", String(count));
  return String(count - 1);
}

/** A copy of a style of a list; of the first where a file counts wrong. */
export function styleLike(styles: Element, list: string, id: string | null): Element {
  const all = elements(styleList(styles, list));
  const like = all[Number(id)] ?? all[0];
  if (!like) throw new Error(`the workbook's styles have no ${list}`);
  return documentOf(like).importNode(like, true);
}

export function styleList(styles: Element, list: string): Element {
  const found = childNamed(styles, list);
  if (!found) throw new Error(`the workbook's styles lack their ${list}`);
  return found;
}
