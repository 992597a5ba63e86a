/**
 * Notes on cells. A note is its text in the comments of a sheet, and a shape in an old drawing
 * beside it; that drawing need not be well-formed XML, so it is added to as text.
 */
import { readCellName } from "../formula/addresses.ts";
import { relationId } from "./book.ts";
import {
  type Element,
  type Package,
  allNamed,
  childNamed,
  childrenNamed,
  elementLike,
  elements,
  escaped,
  keptText,
  link,
  theChild,
} from "./package.ts";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const AUTHOR = "Mistwright";

/** What stands after the drawing of the notes in a sheet's file. */
const AFTER = new Set(
  "legacyDrawingHF drawingHF picture oleObjects controls webPublishItems tableParts extLst".split(
    " ",
  ),
);

export class Notes {
  private readonly comments: Element;
  private readonly author: string;
  /** The drawing of the notes, and what is to be added to it. */
  private readonly drawing: string;
  private readonly shapes: string[] = [];
  private readonly known: Map<string, Element>;

  constructor(
    private readonly file: Package,
    sheet: string,
  ) {
    this.comments = this.commentsOf(sheet);
    this.author = this.authorId();
    this.drawing = this.drawingOf(sheet);
    const list = childrenNamed(theChild(this.comments, "commentList"), "comment");
    this.known = new Map(list.map((note) => [note.getAttribute("ref") ?? "", note]));
  }

  /**
   * Adds a note to a cell; to one that it has, below its own text. False where that is a
   * conversation.
   */
  add(cell: string, text: string): boolean {
    const list = theChild(this.comments, "commentList");
    const note = this.known.get(cell);
    if (note && this.isConversation(note)) return false;
    const run = elementLike(list, "r");
    run.appendChild(keptText(list, note ? `\n\n${text}` : text));
    if (note) {
      const body = theChild(note, "text");
      // A plain text and runs do not stand together.
      for (const plain of childrenNamed(body, "t")) {
        const own = elementLike(list, "r");
        body.replaceChild(own, plain);
        own.appendChild(plain);
      }
      body.appendChild(run);
      return true;
    }
    const made = elementLike(list, "comment", { ref: cell, authorId: this.author });
    const body = elementLike(list, "text");
    body.appendChild(run);
    made.appendChild(body);
    list.appendChild(made);
    this.known.set(cell, made);
    this.shapes.push(cell);
    return true;
  }

  /**
   * Comments in a thread leave a placeholder among the notes, by an author that is the thread's id.
   */
  private isConversation(note: Element): boolean {
    const authors = allNamed(this.comments, "author");
    return /^tc=/.test(authors[Number(note.getAttribute("authorId"))]?.textContent ?? "");
  }

  private authorId(): string {
    const authors = theChild(this.comments, "authors");
    const known = elements(authors).findIndex(({ textContent }) => textContent === AUTHOR);
    if (known >= 0) return String(known);
    authors.appendChild(elementLike(authors, "author", {}, AUTHOR));
    return String(elements(authors).length - 1);
  }

  private commentsOf(sheet: string): Element {
    const known = this.file.relations(sheet).find(({ type }) => type === "comments");
    if (known) return this.file.root(known.path);
    const path = this.file.freePath("xl/comments", "xml");
    const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml";
    this.file.add(
      path,
      type,
      `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<comments xmlns="${MAIN}"><authors/><commentList/></comments>`,
    );
    this.file.relate(sheet, "comments", path);
    return this.file.root(path);
  }

  private drawingOf(sheet: string): string {
    const root = this.file.root(sheet);
    const known = childNamed(root, "legacyDrawing");
    const relation = known && this.file.relations(sheet).find(({ id }) => id === relationId(known));
    if (relation) return relation.path;
    const path = this.file.freePath("xl/drawings/vmlDrawing", "vml");
    this.file.addEnding("vml", "application/vnd.openxmlformats-officedocument.vmlDrawing");
    this.file.write(path, EMPTY_DRAWING);
    const drawing = elementLike(root, "legacyDrawing");
    link(drawing, this.file.relate(sheet, "vmlDrawing", path));
    root.insertBefore(
      drawing,
      elements(root).find(({ localName }) => AFTER.has(localName ?? "")) ?? null,
    );
    return path;
  }

  /** Draws the notes that were added. */
  draw(): void {
    const text = this.file.text(this.drawing);
    const numbers = [...text.matchAll(/_x0000_s(\d+)/g)].map((match) => Number(match[1]));
    const first = numbers.reduce((a, b) => Math.max(a, b), 1024) + 1;
    const shapes = this.shapes.map((cell, i) => noteShape(cell, first + i)).join("");
    const end = text.lastIndexOf("</xml>");
    this.file.write(this.drawing, text.slice(0, end) + shapes + text.slice(end));
  }
}

const EMPTY_DRAWING =
  '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">' +
  '<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="1"/></o:shapelayout>' +
  '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe">' +
  '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype></xml>';

function noteShape(cell: string, number: number): string {
  const { row, column } = readCellName(cell);
  const anchor = [column + 1, 12, row, 4, column + 5, 12, row + 6, 4].join(", ");
  return (
    `<v:shape id="_x0000_s${number}" type="#_x0000_t202" style="position:absolute;width:260pt;height:110pt;visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto">` +
    '<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>' +
    '<v:textbox><div style="text-align:left"></div></v:textbox>' +
    `<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>${escaped(anchor)}</x:Anchor>` +
    `<x:AutoFill>False</x:AutoFill><x:Row>${row}</x:Row><x:Column>${column}</x:Column></x:ClientData></v:shape>`
  );
}
