/** The look of cells whose value is fixed: as they were, with a broken border. */
import {
  type Element,
  type Package,
  appendStyle,
  childNamed,
  elementLike,
  styleLike,
  styleList,
} from "./package.ts";
import { PLAIN_STYLES } from "./plain-styles.ts";

const COLOR = "FF7A3E9D";

export class Marks {
  private readonly root: Element;
  private readonly made = new Map<string, string>();
  private border: string | undefined;

  constructor(file: Package, workbook: string) {
    let path = file.relations(workbook).find(({ type }) => type === "styles")?.path;
    if (!path) {
      path = "xl/styles.xml";
      const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";
      file.add(path, type, PLAIN_STYLES);
      file.relate(workbook, "styles", path);
    }
    this.root = file.root(path);
  }

  /** The style of a cell, marked. */
  marked(style: string): string {
    const known = this.made.get(style);
    if (known) return known;
    this.border ??= this.append("borders", this.brokenBorder());
    const xf = styleLike(this.root, "cellXfs", style);
    xf.setAttribute("borderId", this.border);
    xf.setAttribute("applyBorder", "1");
    const made = this.append("cellXfs", xf);
    this.made.set(style, made);
    return made;
  }

  /** A style of the list's own: bold, or wrapped, on the first font. */
  plain({ bold = false, wrap = false }): string {
    const font = styleLike(this.root, "fonts", "0");
    const isBold = childNamed(font, "b");
    if (bold && !isBold) font.insertBefore(elementLike(font, "b"), font.firstChild);
    const fontId = bold ? this.append("fonts", font) : "0";
    const xfs = this.list("cellXfs");
    const attributes = {
      numFmtId: "0",
      fontId,
      fillId: "0",
      borderId: "0",
      applyFont: "1",
      applyAlignment: "1",
    };
    const xf = elementLike(xfs, "xf", attributes);
    if (wrap) xf.appendChild(elementLike(xfs, "alignment", { vertical: "top", wrapText: "1" }));
    return this.append("cellXfs", xf);
  }

  private brokenBorder(): Element {
    const borders = this.list("borders");
    const border = elementLike(borders, "border");
    for (const side of ["left", "right", "top", "bottom"]) {
      const line = elementLike(borders, side, { style: "mediumDashed" });
      line.appendChild(elementLike(borders, "color", { rgb: COLOR }));
      border.appendChild(line);
    }
    border.appendChild(elementLike(borders, "diagonal"));
    return border;
  }

  private list(name: string): Element {
    return styleList(this.root, name);
  }

  private append(name: string, element: Element): string {
    return appendStyle(this.root, name, element);
  }
}
