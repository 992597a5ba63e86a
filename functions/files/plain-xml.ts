/**
 * XML of other programs as plain XML: well-formed, in characters, without what a workbook has no
 * use for (comments, processing instructions, CDATA), the main namespace without a prefix, strict
 * names as the usual ones. What is no XML at all is refused in one sentence, before any parser sees
 * it.
 */
import { Refusal } from "./refusal.ts";

const DEEPEST = 200;

const ATTRIBUTES = `(?:"[^"<]*"|'[^'<]*'|[^"'<>])*?`;
const MARK = new RegExp(
  `<!--[\\s\\S]*?-->|<!\\[CDATA\\[([\\s\\S]*?)\\]\\]>|<\\?[\\s\\S]*?\\?>|<(/?)([A-Za-z_][\\w.:-]*)(\\s${ATTRIBUTES})?\\s*(/?)>`,
  "g",
);
const ATTRIBUTE = /\s+([A-Za-z_][\w.:-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')/gy;
/** An ampersand that opens nothing that XML knows by itself. */
const STRAY = /&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[0-9a-fA-F]+);)/;

export function plainXml(path: string, bytes: Uint8Array): string {
  const text = decoded(bytes);
  if (/<!(DOCTYPE|ENTITY)/i.test(text))
    throw new Refusal(
      `This file defines its own XML (in ${path}), which a workbook has no need of and which can do harm: it was not opened.`,
    );
  return new WellFormed(path, legal(text)).written();
}

/** The text of a part, in the encoding that it names. */
export function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  const opening = new TextDecoder("latin1").decode(bytes.subarray(0, 200));
  const named = /^<\?xml[^>]*encoding=["']([\w-]+)["']/.exec(opening)?.[1] ?? "utf-8";
  try {
    return new TextDecoder(named).decode(bytes);
  } catch {
    return new TextDecoder().decode(bytes);
  }
}

/** Without the characters that XML has no place for, bare or as numbers. */
function legal(text: string): string {
  return (
    text
      .replace(/&#(?:(\d+)|x([0-9a-fA-F]+));/g, (whole, decimal?: string, hex?: string) => {
        const code = decimal ? Number(decimal) : parseInt(hex ?? "", 16);
        return isLegal(code) ? whole : "";
      })
      // eslint-disable-next-line no-control-regex -- these are what is taken out
      .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/g, "")
      .replace(/^\uFEFF/, "")
  );
}

function isLegal(code: number): boolean {
  if (code < 32) return code === 9 || code === 10 || code === 13;
  return code < 0xd800 || (code > 0xdfff && code < 0xfffe) || (code > 0xffff && code <= 0x10ffff);
}

/** The prefixes that the reader of the local sheet's engine looks for. */
const PREFIXES: Record<string, string> = {
  "http://schemas.openxmlformats.org/spreadsheetml/2006/main": "",
  "http://schemas.openxmlformats.org/package/2006/relationships": "",
  "http://schemas.openxmlformats.org/officeDocument/2006/relationships": "r",
  "http://schemas.openxmlformats.org/drawingml/2006/main": "a",
  "http://schemas.openxmlformats.org/drawingml/2006/chart": "c",
  "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing": "xdr",
};
const DECLARED = Object.entries(PREFIXES)
  .filter(([, prefix]) => prefix !== "")
  .map(([namespace, prefix]) => ` xmlns:${prefix}="${namespace}"`)
  .join("");

const STRICT = "http://purl.oclc.org/ooxml/";
const USUAL = "http://schemas.openxmlformats.org/";

/** A strict namespace as the usual one: spreadsheetml/main is spreadsheetml/2006/main. */
function usual(namespace: string): string {
  if (!namespace.startsWith(STRICT)) return namespace;
  return USUAL + namespace.slice(STRICT.length).replace(/^(\w+)/, "$1/2006");
}

/** What prefixes stand for at a place, and how names are written there. */
class Scope {
  private readonly names = new Map<string, string>();

  constructor(private readonly namespaces: ReadonlyMap<string, string>) {}

  with(declared: readonly [string, string][]): Scope {
    return declared.length > 0 ? new Scope(new Map([...this.namespaces, ...declared])) : this;
  }

  namespaceOf(name: string): string | undefined {
    const cut = name.indexOf(":");
    return this.namespaces.get(cut < 0 ? "" : name.slice(0, cut));
  }

  /** The name with its usual prefix; undefined where its prefix stands for nothing. */
  written(name: string): string | undefined {
    const known = this.names.get(name);
    if (known !== undefined) return known;
    const namespace = this.namespaceOf(name);
    if (namespace === undefined) return undefined;
    const prefix = PREFIXES[namespace];
    const local = name.slice(name.indexOf(":") + 1);
    const made = prefix === undefined ? name : prefix ? `${prefix}:${local}` : local;
    this.names.set(name, made);
    return made;
  }
}

const OUTSIDE = new Scope(
  new Map([
    ["", ""],
    ["xml", "xml"],
  ]),
);

/** Reads the marks of a text one by one, and writes them again. */
class WellFormed {
  private readonly open: { name: string; written: string; scope: Scope }[] = [];
  private readonly out: string[] = [];
  private isRooted = false;

  constructor(
    private readonly path: string,
    private readonly text: string,
  ) {}

  written(): string {
    let end = 0;
    for (const match of this.text.matchAll(MARK)) {
      this.between(this.text.slice(end, match.index));
      end = match.index + match[0].length;
      this.mark(match);
    }
    this.between(this.text.slice(end));
    if (this.open.length > 0 || !this.isRooted) this.refuse();
    return this.out.join("");
  }

  private between(text: string) {
    if (text === "") return;
    if (text.includes("<") || STRAY.test(text)) this.refuse();
    if (this.open.length > 0) this.out.push(text);
    else if (text.trim() !== "") this.refuse();
  }

  private mark([, cdata, close, name, attributes = "", empty]: RegExpExecArray) {
    if (cdata !== undefined) this.between(cdata.replaceAll("&", "&amp;").replaceAll("<", "&lt;"));
    if (!name) return;
    if (!close) {
      this.opened(name, attributes, empty !== "");
      return;
    }
    const last = this.open.pop();
    if (last?.name !== name) this.refuse();
    this.out.push(`</${last.written}>`);
  }

  private opened(name: string, attributes: string, isEmpty: boolean) {
    if (this.open.length === 0 && this.isRooted) this.refuse();
    const all = this.attributes(attributes);
    const declared = all.flatMap(([key, value]): [string, string][] =>
      key === "xmlns" || key.startsWith("xmlns:") ? [[key.slice(6), usual(value)]] : [],
    );
    const scope = (this.open.at(-1)?.scope ?? OUTSIDE).with(declared);
    const written = scope.written(name) ?? this.refuse();
    const root = this.isRooted ? "" : `${rootNamespace(scope.namespaceOf(name) ?? "")}${DECLARED}`;
    this.isRooted = true;
    const texts = all.map((attribute) => this.attribute(attribute, scope)).join("");
    this.out.push(`<${written}${root}${texts}${isEmpty ? "/" : ""}>`);
    if (isEmpty) return;
    this.open.push({ name, written, scope });
    if (this.open.length > DEEPEST)
      throw new Refusal(
        `This file is nested deeper than any workbook (in ${this.path}): it was not opened.`,
      );
  }

  private attribute([key, value]: [string, string], scope: Scope): string {
    const text = `"${value.replaceAll('"', "&quot;").replaceAll(">", "&gt;")}"`;
    if (key === "xmlns" || key.startsWith("xmlns:"))
      return PREFIXES[usual(value)] === undefined ? ` ${key}=${text}` : "";
    return ` ${key.includes(":") ? (scope.written(key) ?? this.refuse()) : key}=${text}`;
  }

  private attributes(text: string): [string, string][] {
    const found = new Map<string, string>();
    ATTRIBUTE.lastIndex = 0;
    let end = 0;
    for (let match = ATTRIBUTE.exec(text); match; match = ATTRIBUTE.exec(text)) {
      end = ATTRIBUTE.lastIndex;
      const [, name = "", quoted, apostrophed] = match;
      const value = quoted ?? apostrophed ?? "";
      if (found.has(name) || STRAY.test(value)) this.refuse();
      found.set(name, value);
    }
    if (text.slice(end).trim() !== "") this.refuse();
    return [...found];
  }

  private refuse(): never {
    throw new Refusal(
      `This file is damaged (its part ${this.path} cannot be read): open it in the program that made it and save a copy.`,
    );
  }
}

/** The default namespace of a part is that of its root, where that goes without a prefix. */
function rootNamespace(namespace: string): string {
  return PREFIXES[namespace] === "" ? ` xmlns="${namespace}"` : "";
}
