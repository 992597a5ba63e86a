/**
 * The looks of a file's cells. A changed look is a copy of the cell's own with the changed things
 * changed, so that what the local sheet does not know (the font's name, a pattern, protection)
 * stays.
 */
import { DOMParser, XMLSerializer } from "@xmldom/xmldom";
import {
  type Element,
  appendStyle,
  childNamed,
  childrenNamed,
  documentOf,
  drop,
  elementLike,
  elements,
  rootOf,
  styleLike,
  styleList,
} from "./package.ts";
import { PLAIN_STYLES } from "./plain-styles.ts";
import type { Texts } from "./texts.ts";

/** A look as the local sheet has it. */
export interface CellStyle {
  style: Readonly<Record<string, unknown>>;
  format?: string;
  border: Readonly<Record<string, { style?: string; color?: string } | undefined>>;
}

const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";

const FONT =
  "b i strike condense extend outline shadow u vertAlign sz color name family charset scheme".split(
    " ",
  );
/** What the local sheet says of a font, and the mark that files have for it. */
const FONT_MARKS = {
  bold: "b",
  italic: "i",
  strikethrough: "strike",
  underline: "u",
  fontSize: "sz",
  textColor: "color",
};
const SIDES = ["left", "right", "top", "bottom"];
/** The formats that files know by a number alone, as far as they are certain in every language. */
const KNOWN_FORMATS: Record<string, number> = {
  General: 0,
  "0": 1,
  "0.00": 2,
  "#,##0": 3,
  "#,##0.00": 4,
  "0%": 9,
  "0.00%": 10,
  "@": 49,
};

export class StyleBook {
  private part: { path: string; root: Element } | undefined;
  private isChanged = false;
  private readonly made = new Map<string, string>();

  constructor(private readonly texts: Texts) {}

  /** The style of a cell with the difference of two looks put on it. */
  changed(style: string, from: CellStyle, to: CellStyle): string {
    const key = JSON.stringify([style, from, to]);
    const known = this.made.get(key);
    if (known) return known;
    const xf = styleLike(this.styles(), "cellXfs", style);
    if (to.format !== from.format) this.format(xf, to.format);
    this.font(xf, from.style, to.style);
    this.fill(xf, from.style.fillColor, to.style.fillColor);
    if (JSON.stringify(from.border) !== JSON.stringify(to.border)) this.border(xf, to.border);
    this.align(xf, from.style, to.style);
    const made = this.append("cellXfs", xf);
    this.made.set(key, made);
    return made;
  }

  /**
   * The style of a cell whose text was typed with an apostrophe before it, or of one that was not.
   */
  quoted(style: string, isQuoted: boolean): string {
    if (!isQuoted && this.path() === undefined) return style;
    const xf = styleLike(this.styles(), "cellXfs", style);
    if (/^(1|true)$/.test(xf.getAttribute("quotePrefix") ?? "") === isQuoted) return style;
    const key = `${style} ${isQuoted}`;
    const known = this.made.get(key);
    if (known) return known;
    if (isQuoted) xf.setAttribute("quotePrefix", "1");
    else xf.removeAttribute("quotePrefix");
    const made = this.append("cellXfs", xf);
    this.made.set(key, made);
    return made;
  }

  /** A conditional look of another file; gives its number here. */
  conditional(xml: string): string {
    const document = new DOMParser().parseFromString(xml, "text/xml");
    const root = this.styles();
    let dxfs = childNamed(root, "dxfs");
    if (!dxfs) {
      dxfs = elementLike(root, "dxfs", { count: "0" });
      const after = elements(root).find(({ localName }) =>
        ["tableStyles", "colors", "extLst"].includes(localName ?? ""),
      );
      root.insertBefore(dxfs, after ?? null);
    }
    return this.append("dxfs", documentOf(root).importNode(rootOf(document), true));
  }

  save(): void {
    if (!this.part || !this.isChanged) return;
    const { path, root } = this.part;
    this.texts.write(path, new XMLSerializer().serializeToString(documentOf(root)));
  }

  private styles(): Element {
    this.part ??= this.read();
    return this.part.root;
  }

  private read() {
    const path = this.path() ?? this.added();
    const text = this.texts.text(path).trimStart();
    const document = new DOMParser().parseFromString(text, "text/xml");
    return { path, root: rootOf(document) };
  }

  private path(): string | undefined {
    return this.texts.beside(this.texts.workbook, "styles")[0];
  }

  private added(): string {
    const path = this.texts.freePath("xl/styles", "xml");
    this.texts.add(path, TYPE, PLAIN_STYLES);
    this.texts.relate(this.texts.workbook, "styles", path);
    return path;
  }

  private list(name: string): Element {
    return styleList(this.styles(), name);
  }

  private append(name: string, element: Element): string {
    this.isChanged = true;
    return appendStyle(this.styles(), name, element);
  }

  private format(xf: Element, format = "General") {
    xf.setAttribute("numFmtId", String(KNOWN_FORMATS[format] ?? this.ownFormat(format)));
    xf.setAttribute("applyNumberFormat", "1");
  }

  private ownFormat(format: string): string {
    const root = this.styles();
    let list = childNamed(root, "numFmts");
    if (!list) {
      list = elementLike(root, "numFmts", { count: "0" });
      root.insertBefore(list, root.firstChild);
    }
    const all = childrenNamed(list, "numFmt");
    const known = all.find((each) => each.getAttribute("formatCode") === format);
    if (known) return known.getAttribute("numFmtId") ?? "0";
    const id = String(
      Math.max(163, ...all.map((each) => Number(each.getAttribute("numFmtId")))) + 1,
    );
    this.append("numFmts", elementLike(list, "numFmt", { numFmtId: id, formatCode: format }));
    return id;
  }

  private font(xf: Element, from: CellStyle["style"], to: CellStyle["style"]) {
    const changed = Object.entries(FONT_MARKS).filter(
      ([key]) => (from[key] || undefined) !== (to[key] || undefined),
    );
    if (changed.length === 0) return;
    const font = styleLike(this.styles(), "fonts", xf.getAttribute("fontId"));
    for (const [key, mark] of changed) setFont(font, mark, to[key]);
    // Not every program keeps the order that some insist on.
    const place = ({ localName }: Element) => FONT.indexOf(localName ?? "");
    for (const each of elements(font).sort((a, b) => place(a) - place(b))) font.appendChild(each);
    xf.setAttribute("fontId", this.append("fonts", font));
    xf.setAttribute("applyFont", "1");
  }

  private fill(xf: Element, from: unknown, to: unknown) {
    if ((from || undefined) === (to || undefined)) return;
    xf.setAttribute("applyFill", "1");
    if (!to) {
      xf.setAttribute("fillId", "0");
      return;
    }
    const fills = this.list("fills");
    const fill = elementLike(fills, "fill");
    const pattern = elementLike(fills, "patternFill", { patternType: "solid" });
    pattern.appendChild(elementLike(fills, "fgColor", { rgb: argb(to) }));
    fill.appendChild(pattern);
    xf.setAttribute("fillId", this.append("fills", fill));
  }

  private border(xf: Element, to: CellStyle["border"]) {
    const borders = this.list("borders");
    const border = elementLike(borders, "border");
    for (const side of SIDES) {
      const line = elementLike(borders, side, to[side] ? { style: to[side].style ?? "thin" } : {});
      if (to[side])
        line.appendChild(elementLike(borders, "color", { rgb: argb(to[side].color ?? "#000000") }));
      border.appendChild(line);
    }
    border.appendChild(elementLike(borders, "diagonal"));
    xf.setAttribute("borderId", this.append("borders", border));
    xf.setAttribute("applyBorder", "1");
  }

  private align(xf: Element, from: CellStyle["style"], to: CellStyle["style"]) {
    const changes: Record<string, string | undefined> = {};
    if (from.align !== to.align) changes.horizontal = word(to.align);
    if (from.verticalAlign !== to.verticalAlign)
      changes.vertical = to.verticalAlign === "middle" ? "center" : word(to.verticalAlign);
    if ((from.wrapping === "wrap") !== (to.wrapping === "wrap"))
      changes.wrapText = to.wrapping === "wrap" ? "1" : "0";
    if (Object.keys(changes).length === 0) return;
    let alignment = childNamed(xf, "alignment");
    if (!alignment) {
      alignment = elementLike(xf, "alignment");
      xf.insertBefore(alignment, xf.firstChild);
    }
    for (const [name, value] of Object.entries(changes)) {
      if (value === undefined) alignment.removeAttribute(name);
      else alignment.setAttribute(name, value);
    }
    xf.setAttribute("applyAlignment", "1");
  }
}

function setFont(font: Element, mark: string, value: unknown) {
  childrenNamed(font, mark).forEach(drop);
  if (value) font.appendChild(elementLike(font, mark, attributesOfMark(mark, value)));
}

function attributesOfMark(mark: string, value: unknown): Record<string, string> {
  if (mark === "color") return { rgb: argb(value) };
  return mark === "sz" ? { val: String(value) } : {};
}

/** A word of a look, where it says one. */
function word(value: unknown): string | undefined {
  return typeof value === "string" ? value : undefined;
}

function argb(color: unknown): string {
  return `FF${String(color).replace("#", "").slice(0, 6).toUpperCase()}`;
}
