/** What drawn sheets have on paper: kept with the workbook, followed by undo, and written when it is saved. */
import { type PageSetup, withPageSetup } from "../functions/files/page-setup.ts";
import { MARGINS, PAGE_NUMBER, cautionOf } from "../taskpane/sheets/page.ts";
import type { DrawnPage } from "../taskpane/sheets/drawing.ts";
import { type CoreCommand, type Model, type WorkbookData, engine } from "./engine.ts";

type Pages = Record<string, DrawnPage>;

interface SetPage {
  type: "MISTWRIGHT_PAGE";
  sheetId: string;
  page: DrawnPage;
}

const SET_PAGE = "MISTWRIGHT_PAGE";

export function pageCommand(sheetId: string, page: DrawnPage) {
  return { type: SET_PAGE, sheetId, page };
}

/** A workbook's data with what we keep in it. */
type Data = WorkbookData & { mistwrightPages?: Pages };

class PagesPlugin extends engine.CorePlugin<{ kept: { pages: Pages } }> {
  static override getters = ["getPages"];
  private readonly kept: { pages: Pages } = { pages: {} };

  override import(data: Data) {
    this.kept.pages = data.mistwrightPages ?? {};
  }

  override export(data: Data) {
    const isThere = Object.keys(this.kept.pages).length > 0;
    if (isThere) data.mistwrightPages = this.kept.pages;
  }

  override handle(change: CoreCommand | SetPage) {
    if (!("sheetId" in change)) return;
    const known = this.kept.pages[change.sheetId];
    if (change.type === SET_PAGE) this.set(change.sheetId, change.page);
    if (!known) return;
    if (change.type === "DUPLICATE_SHEET") this.set(change.sheetIdTo, known);
    const page = moved(known, change);
    if (page !== known) this.set(change.sheetId, page);
  }

  getPages(): Pages {
    return this.kept.pages;
  }

  private set(sheetId: string, page: DrawnPage) {
    this.history.update("kept", "pages", { ...this.kept.pages, [sheetId]: page });
  }
}

/** A page after rows or columns were put in or taken out: what it names by row or column stays the same lines. */
function moved(page: DrawnPage, change: CoreCommand | SetPage): DrawnPage {
  if (change.type !== "ADD_COLUMNS_ROWS" && change.type !== "REMOVE_COLUMNS_ROWS") return page;
  const to = (place: number): number => {
    if (change.type === "REMOVE_COLUMNS_ROWS")
      return place - change.elements.filter((each) => each < place).length;
    const { base, quantity, position } = change;
    return place >= (position === "before" ? base : base + 1) ? place + quantity : place;
  };
  const both = ([first, last]: [number, number]): [number, number] => [to(first), to(last)];
  const { last, sections, titleRows, titleColumns, breaks, only } = page;
  if (change.dimension === "COL")
    return {
      ...page,
      ...(last !== undefined && { last: to(last) }),
      ...(sections && { sections: sections.map(to) }),
      ...(titleColumns && { titleColumns: both(titleColumns) }),
      ...(only && { only: { ...only, columns: both(only.columns) } }),
    };
  return {
    ...page,
    ...(titleRows && { titleRows: both(titleRows) }),
    ...(breaks && { breaks: breaks.map(to) }),
    ...(only?.rows && { only: { ...only, rows: both(only.rows) } }),
  };
}

engine.registries.corePluginRegistry.add("mistwright_pages", PagesPlugin);
// So that it is kept and taken back like the engine's own changes, which are all that its types name.
(engine.coreTypes as Set<string>).add(SET_PAGE);
engine.registries.inverseCommandRegistry.add(SET_PAGE, (command) => [command]);

/** The pages of a workbook, by the ids of its sheets. */
export function pagesOf({ getters }: Model): Pages {
  // The engine's types name its own getters alone.
  return (getters as unknown as { getPages(): Pages }).getPages();
}

/** A sheet's part of a file with its page, where it has one. */
export function withPage(xml: string, page: DrawnPage | undefined): string {
  if (!page) return xml;
  const caution = cautionOf(page);
  const setup: PageSetup = {
    landscape: page.landscape ?? false,
    margins: MARGINS,
    wide: page.wide ?? 1,
    top: caution && `&L${caution}`,
    foot: `&C${PAGE_NUMBER}`,
    breaks: page.breaks,
  };
  return withPageSetup(xml, setup);
}
