/**
 * A file's parts as texts that are changed in place: what is not asked for stays the same byte for
 * byte. The texts are those of any program, so that marks may go with a prefix.
 */
import { strToU8, zipSync } from "fflate";
import { type SourceRelation, Source, attributesOf, unescaped } from "./source.ts";
import { escaped } from "./package.ts";
import { relationsOf, targetFrom } from "./paths.ts";
import { decoded } from "./plain-xml.ts";
import { type Parts, unpack } from "./unpack.ts";

export class Texts {
  readonly source: Source;
  private readonly parts: Parts;
  private readonly changed = new Set<string>();

  constructor(readonly bytes: Uint8Array) {
    this.parts = unpack(bytes);
    this.source = new Source(this.parts);
  }

  get workbook(): string {
    return this.source.workbook();
  }

  relations(path: string): SourceRelation[] {
    return this.source.relations(path);
  }

  beside(path: string, ...types: string[]): string[] {
    return this.relations(path)
      .filter(
        ({ type, isOutside, target }) => types.includes(type) && !isOutside && this.has(target),
      )
      .map(({ target }) => this.path(target));
  }

  has(path: string): boolean {
    return this.source.has(path);
  }

  /** A path as the file spells it. */
  path(path: string): string {
    const lower = path.toLowerCase();
    return Object.keys(this.parts).find((each) => each.toLowerCase() === lower) ?? path;
  }

  paths(pattern: RegExp): string[] {
    return Object.keys(this.parts).filter((path) => pattern.test(path));
  }

  text(path: string): string {
    const bytes = this.parts[this.path(path)];
    if (!bytes) throw new Error(`the workbook lacks its part ${path}`);
    // Whatever it says, it is written in UTF-8.
    return decoded(bytes).replace(/^(<\?xml[^>]*?)\s+encoding=(["'])(?!utf-8\2)[^"']*\2/i, "$1");
  }

  write(path: string, text: string): void {
    const own = this.path(path);
    if (this.parts[own] && this.text(own) === text) return;
    this.parts[own] = strToU8(text);
    this.changed.add(own);
    this.source.know(own);
  }

  change(path: string, change: (text: string) => string): void {
    if (this.has(path)) this.write(path, change(this.text(path)));
  }

  add(path: string, contentType: string, text: string): void {
    this.write(path, text);
    this.change("[Content_Types].xml", (types) => {
      const prefix = /<(\w+:)?Types\b/.exec(types)?.[1] ?? "";
      return types.replace(
        /<\/(?:\w+:)?Types>/,
        (end) => `<${prefix}Override PartName="/${path}" ContentType="${contentType}"/>${end}`,
      );
    });
  }

  /**
   * Takes a part out, with what is said of it in the list of contents and in another part's
   * relations.
   */
  remove(path: string, from: string): void {
    const own = this.path(path);
    delete this.parts[own];
    this.changed.add(own);
    const gone = (text: string) => (whole: string) =>
      (attributesOf(whole)[text] ?? "").replace(/^\//, "").toLowerCase() === own.toLowerCase();
    this.change("[Content_Types].xml", (types) =>
      types.replace(/<(?:\w+:)?Override\b[^>]*\/>/g, (each) =>
        gone("PartName")(each) ? "" : each,
      ),
    );
    const id = this.relations(from).find(
      ({ target }) => target.toLowerCase() === own.toLowerCase(),
    )?.id;
    this.change(relationsOf(from), (text) =>
      text.replace(/<(?:\w+:)?Relationship\b[^>]*\/>/g, (each) =>
        id && attributesOf(each).Id === id ? "" : each,
      ),
    );
    this.source.forget(own);
  }

  /** Takes a sheet out with what is its own. */
  removeWhole(path: string, from: string): void {
    for (const part of this.beside(path, ...OWN)) this.removeWhole(part, path);
    const relations = this.path(relationsOf(path));
    this.remove(path, from);
    if (!this.parts[relations]) return;
    delete this.parts[relations];
    this.source.forget(relations);
  }

  /** Leads from a part to another, or out of the file; gives the id. */
  relate(from: string, type: string, target: string, isOutside = false): string {
    const path = relationsOf(from);
    if (!this.has(path))
      this.write(
        path,
        '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"></Relationships>',
      );
    const taken = new Set(this.relations(from).map(({ id }) => id));
    let n = taken.size + 1;
    while (taken.has(`rId${n}`)) n++;
    const leads = isOutside
      ? `Target="${escaped(target)}" TargetMode="External"`
      : `Target="${targetFrom(from, target)}"`;
    this.change(path, (text) => {
      const open = text.replace(/(<(?:\w+:)?Relationships\b[^>]*)\/>/, "$1></Relationships>");
      const prefix = /<(\w+:)?Relationships\b/.exec(open)?.[1] ?? "";
      const base = /purl\.oclc\.org/.test(text)
        ? "http://purl.oclc.org/ooxml/officeDocument/relationships"
        : "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
      return open.replace(
        /<\/(?:\w+:)?Relationships>/,
        (end) => `<${prefix}Relationship Id="rId${n}" Type="${base}/${type}" ${leads}/>${end}`,
      );
    });
    return `rId${n}`;
  }

  freePath(stem: string, extension: string): string {
    for (let n = 1; ; n++)
      if (!this.has(`${stem}${n}.${extension}`)) return `${stem}${n}.${extension}`;
  }

  /** The same bytes where nothing was changed. */
  save(): Uint8Array {
    return this.changed.size === 0
      ? this.bytes
      : zipSync(this.parts, { mtime: "1980-01-01T00:00:00" });
  }
}

/** What belongs to one sheet or drawing alone. */
const OWN =
  "comments vmlDrawing threadedComment drawing chart table pivotTable printerSettings".split(" ");

/**
 * Every element of a name, with or without a prefix: its mark, its attributes, what stands in it.
 */
export function elementsOf(name: string): RegExp {
  return new RegExp(`<((?:\\w+:)?(?:${name}))(?=[\\s/>])([^>]*?)(?:/>|>([\\s\\S]*?)</\\1>)`, "g");
}

/** Changes the text in every element of a name. */
export function mapTexts(xml: string, name: string, change: (text: string) => string): string {
  return xml.replace(
    new RegExp(`(<((?:\\w+:)?(?:${name}))(?=[\\s>])[^>]*[^/>]?>)([^<]+)(</\\2>)`, "g"),
    (_, open: string, __, text: string, close: string) => {
      const now = unescaped(text);
      const then = change(now);
      return open + (then === now ? text : escaped(then)) + close;
    },
  );
}

/** Changes the attributes of a mark: undefined takes one out. */
export function withAttributes(
  attributes: string,
  changes: Record<string, string | undefined>,
): string {
  return Object.entries(changes).reduce((all, [name, value]) => {
    const known = new RegExp(`\\s${name}=(?:"[^"]*"|'[^']*')`);
    const made = value === undefined ? "" : ` ${name}="${escaped(value)}"`;
    if (known.test(all)) return all.replace(known, () => made);
    return made ? all.trimEnd() + made : all;
  }, attributes);
}
