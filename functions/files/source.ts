/** A file's parts, found as other programs find them: by relationships, in upper or lower case. */
import { plainXml } from "./plain-xml.ts";
import { Refusal } from "./refusal.ts";
import { type Parts, refuseOther } from "./unpack.ts";

export interface SourceRelation {
  id: string;
  type: string;
  /** The path of a part of the file, or the address of something outside. */
  target: string;
  isOutside: boolean;
}

/** A file's parts, looked up as other programs look: by relationships, in whatever case. */
export class Source {
  private readonly paths: Map<string, string>;

  constructor(readonly parts: Parts) {
    this.paths = new Map(Object.keys(parts).map((path) => [path.toLowerCase(), path]));
  }

  has(path: string): boolean {
    return this.paths.has(path.toLowerCase());
  }

  know(path: string): void {
    this.paths.set(path.toLowerCase(), path);
  }

  forget(path: string): void {
    this.paths.delete(path.toLowerCase());
  }

  plain(path: string): string {
    const known = this.paths.get(path.toLowerCase());
    const part = known === undefined ? undefined : this.parts[known];
    if (known === undefined || !part)
      throw new Refusal(
        `This file is damaged (it lacks its part ${path}): open it in the program that made it and save a copy.`,
      );
    return plainXml(known, part);
  }

  relations(path: string): SourceRelation[] {
    const cut = path.lastIndexOf("/") + 1;
    const file = `${path.slice(0, cut)}_rels/${path.slice(cut)}.rels`;
    if (!this.has(file)) return [];
    return [...this.plain(file).matchAll(/<Relationship\b([^>]*)>/g)].map(([, attributes = ""]) => {
      const { Id = "", Type = "", Target = "", TargetMode } = attributesOf(attributes);
      const isOutside = TargetMode === "External";
      const type = Type.split("/").at(-1) ?? "";
      return { id: Id, type, target: isOutside ? Target : resolved(path, Target), isOutside };
    });
  }

  /** The path of the workbook's own part. */
  workbook(): string {
    const start = this.relations("").find(({ type }) => type === "officeDocument")?.target;
    const known = start && this.paths.get(start.toLowerCase());
    if (known) return known;
    if (this.has("xl/workbook.xml")) return "xl/workbook.xml";
    refuseOther(this.parts);
    throw new Refusal(
      "This is a zip file, but not an .xlsx workbook: it has no sheets. Choose the .xlsx itself.",
    );
  }
}

function resolved(from: string, target: string): string {
  try {
    const plain = target.replaceAll("\\", "/");
    return decodeURIComponent(new URL(plain, `file:///${from}`).pathname.slice(1));
  } catch {
    return target;
  }
}

export function attributesOf(text: string): Record<string, string> {
  const found = [...text.matchAll(/([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)];
  return Object.fromEntries(
    found.map(([, name = "", a, b]): [string, string] => [name, unescaped(a ?? b ?? "")]),
  );
}

export function unescaped(text: string): string {
  if (!text.includes("&")) return text;
  return text
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&apos;", "'")
    .replace(/&#(?:(\d+)|x([0-9a-fA-F]+));/g, (_, decimal?: string, hex?: string) =>
      String.fromCodePoint(decimal ? Number(decimal) : parseInt(hex ?? "", 16)),
    )
    .replaceAll("&amp;", "&");
}

export interface SheetOf {
  name: string;
  path: string;
  state: string;
  /** Its place among all tabs, those of charts counted. */
  tab: number;
}

/** The sheets of cells, in the order of their tabs. */
export function sheetsOf(source: Source): SheetOf[] {
  const workbook = source.workbook();
  const targets = new Map(source.relations(workbook).map((each) => [each.id, each]));
  const listed = [...source.plain(workbook).matchAll(/<sheet\b([^>]*)>/g)].map(
    ([, attributes = ""]) => attributesOf(attributes),
  );
  const sheets = listed.flatMap((sheet, tab): SheetOf[] => {
    const relation = targets.get(sheet["r:id"] ?? "");
    if (relation?.type !== "worksheet") return [];
    const { name = "", state = "visible" } = sheet;
    return [{ name, path: relation.target, state, tab }];
  });
  if (sheets.length === 0)
    throw new Refusal(
      "This workbook has no sheet of cells (only charts or macros): there is nothing to open.",
    );
  return sheets;
}
