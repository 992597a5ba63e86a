/**
 * How a sheet is shown, as its part of a file has it: what is frozen, its grid lines, the colour of
 * its tab, whether it is locked.
 */
import { cellName } from "../formula/addresses.ts";
import { putElement } from "./patch-sheet.ts";
import { elementsOf, withAttributes } from "./texts.ts";

export interface View {
  /** How many stay in sight. */
  rows: number;
  columns: number;
  gridLines: boolean;
  /** #RRGGBB, or "" for none. */
  color: string;
  /** Against typing. */
  isLocked: boolean;
}

/** Writes what is other than it was; the rest of the view stays as it stands. */
export function withView(xml: string, was: View, is: View): string {
  const prefix = /<((?:\w+:)?)worksheet\b/.exec(xml)?.[1] ?? "";
  const locked = was.isLocked === is.isLocked ? xml : withLock(xml, is.isLocked, prefix);
  const colored = was.color === is.color ? locked : withTabColor(locked, is.color, prefix);
  const isFrozenSo = was.rows === is.rows && was.columns === is.columns;
  if (isFrozenSo && was.gridLines === is.gridLines) return colored;
  return withViews(colored, prefix).replace(
    elementsOf("sheetView"),
    (_, mark: string, attributes: string, inside: string = "") => {
      const showGridLines = is.gridLines ? undefined : "0";
      const shown = isFrozenSo
        ? inside
        : pane(is, prefix) + inside.replace(elementsOf("pane|selection"), "");
      return `<${mark}${withAttributes(attributes, { showGridLines })}>${shown}</${mark}>`;
    },
  );
}

function pane({ rows, columns }: View, prefix: string): string {
  if (rows === 0 && columns === 0) return "";
  const active = rows === 0 ? "topRight" : columns === 0 ? "bottomLeft" : "bottomRight";
  const split = (columns > 0 ? ` xSplit="${columns}"` : "") + (rows > 0 ? ` ySplit="${rows}"` : "");
  return `<${prefix}pane${split} topLeftCell="${cellName(rows, columns)}" activePane="${active}" state="frozen"/>`;
}

/** Whether a sheet is locked by a password, which only its program can take off. */
export function hasPassword(xml: string): boolean {
  const [, , attributes = ""] = elementsOf("sheetProtection").exec(xml) ?? [];
  return /\s(?:password|hashValue)=/.test(attributes);
}

function withLock(xml: string, isLocked: boolean, prefix: string): string {
  if (hasPassword(xml)) return xml;
  const lock = `<${prefix}sheetProtection sheet="1" objects="1" scenarios="1"/>`;
  return putElement(xml, "sheetProtection", isLocked ? lock : "", true);
}

/** The sheet with an element for its views, where it has none. */
function withViews(xml: string, prefix: string): string {
  if (elementsOf("sheetViews").test(xml)) return xml;
  const view = `<${prefix}sheetViews><${prefix}sheetView workbookViewId="0"/></${prefix}sheetViews>`;
  return xml.replace(/<(?:\w+:)?(?:sheetFormatPr|cols|sheetData)(?=[\s/>])/, (next) => view + next);
}

function withTabColor(xml: string, color: string, prefix: string): string {
  const tab = color && `<${prefix}tabColor rgb="FF${color.slice(1, 7).toUpperCase()}"/>`;
  if (!elementsOf("sheetPr").test(xml))
    return xml.replace(
      /<(?:\w+:)?worksheet\b[^>]*>/,
      (open) => `${open}<${prefix}sheetPr>${tab}</${prefix}sheetPr>`,
    );
  return xml.replace(
    elementsOf("sheetPr"),
    (_, mark: string, attributes: string, inside: string = "") =>
      `<${mark}${attributes}>${tab}${inside.replace(elementsOf("tabColor"), "")}</${mark}>`,
  );
}
