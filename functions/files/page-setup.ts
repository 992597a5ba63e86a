/** A sheet on paper, as its part of a file has it: fitted to some pages across, as many long as it takes. */
import { escaped } from "./package.ts";
import { putElement } from "./patch-sheet.ts";
import { elementsOf } from "./texts.ts";

export interface PageSetup {
  landscape: boolean;
  /** In inches. */
  margins: Readonly<Record<"left" | "right" | "top" | "bottom" | "header" | "footer", number>>;
  /** Pages side by side. */
  wide: number;
  /** At the top and the foot of each page, with the codes of files: &C opens the middle, &P is the page. */
  top: string;
  foot: string;
  /** Rows at which a page begins, from zero. */
  breaks?: readonly number[] | undefined;
}

export function withPageSetup(
  xml: string,
  { landscape, margins, wide, top, foot, breaks = [] }: PageSetup,
): string {
  const orientation = landscape ? "landscape" : "portrait";
  const texts =
    (top && `<oddHeader>${escaped(top)}</oddHeader>`) +
    (foot && `<oddFooter>${escaped(foot)}</oddFooter>`);
  const free = Object.entries(margins).map(([side, inches]) => ` ${side}="${inches}"`);
  const paper = `<pageSetup orientation="${orientation}" fitToWidth="${wide}" fitToHeight="0"/>`;
  return [
    ["pageMargins", `<pageMargins${free.join("")}/>`],
    ["pageSetup", paper],
    ["headerFooter", `<headerFooter>${texts}</headerFooter>`],
    ...(breaks.length > 0 ? [["rowBreaks", breaksOf(breaks)]] : []),
  ].reduce(
    (made, [name = "", element = ""]) => putElement(made, name, element, true),
    fitting(xml),
  );
}

/** A break stands below the row that it names, counted from one. */
function breaksOf(rows: readonly number[]): string {
  const all = rows.map((row) => `<brk id="${row}" max="16383" man="1"/>`);
  return `<rowBreaks count="${rows.length}" manualBreakCount="${rows.length}">${all.join("")}</rowBreaks>`;
}

/** Says that the sheet is fitted to its pages, in the element before all others. */
function fitting(xml: string): string {
  const FIT = '<pageSetUpPr fitToPage="1"/>';
  if (elementsOf("sheetPr").test(xml))
    return xml.replace(
      elementsOf("sheetPr"),
      (_, mark: string, attributes: string, inside: string = "") => {
        return `<${mark}${attributes}>${inside}${FIT}</${mark}>`;
      },
    );
  return xml.replace(/<worksheet\b[^>]*>/, (open) => `${open}<sheetPr>${FIT}</sheetPr>`);
}
