/** What drawn sheets have on paper: kept with the workbook, followed by undo, and written when it is saved. */
import { type PageSetup, withPageSetup } from "../functions/files/page-setup.ts";
import { PAGE_NUMBER, cautionOf } from "../taskpane/sheets/page.ts";
import type { DrawnPage } from "../taskpane/sheets/drawing.ts";
import { type Model, engine } from "./engine.ts";

type Pages = Record<string, DrawnPage>;

interface Change {
  type: string;
  sheetId: string;
  sheetIdTo: string;
  page: DrawnPage;
  dimension: "ROW" | "COL";
  base: number;
  quantity: number;
  position: "before" | "after";
  elements: number[];
}

const SET_PAGE = "MISTWRIGHT_PAGE";

export function pageCommand(sheetId: string, page: DrawnPage) {
  return { type: SET_PAGE, sheetId, page };
}

class PagesPlugin extends engine.CorePlugin {
  static override getters = ["getPages"] as never[];
  private readonly kept: { pages: Pages } = { pages: {} };

  override import(data: never) {
    this.kept.pages = (data as { mistwrightPages?: Pages }).mistwrightPages ?? {};
  }

  override export(data: never) {
    const isThere = Object.keys(this.kept.pages).length > 0;
    if (isThere) (data as { mistwrightPages?: Pages }).mistwrightPages = this.kept.pages;
  }

  override handle(command: never) {
    const change = command as Change;
    const known = this.kept.pages[change.sheetId];
    if (change.type === SET_PAGE) this.set(change.sheetId, change.page);
    if (!known) return;
    if (change.type === "DUPLICATE_SHEET") this.set(change.sheetIdTo, known);
    const titleRows = moved(known.titleRows, "ROW", change);
    const titleColumns = moved(known.titleColumns, "COL", change);
    if (titleRows !== known.titleRows || titleColumns !== known.titleColumns)
      this.set(change.sheetId, {
        ...known,
        ...(titleRows && { titleRows }),
        ...(titleColumns && { titleColumns }),
      });
  }

  getPages(): Pages {
    return this.kept.pages;
  }

  private set(sheetId: string, page: DrawnPage) {
    const update = this.history.update.bind(this.history) as (...path: unknown[]) => void;
    update("kept", "pages", { ...this.kept.pages, [sheetId]: page });
  }
}

/** What each page repeats, after rows or columns before it were put in or taken out. */
function moved(
  titles: [number, number] | undefined,
  dimension: Change["dimension"],
  change: Change,
): [number, number] | undefined {
  const { type, base, quantity, position, elements } = change;
  if (!titles || change.dimension !== dimension) return titles;
  const to = (place: number): number => {
    if (type === "ADD_COLUMNS_ROWS")
      return place >= (position === "before" ? base : base + 1) ? place + quantity : place;
    return place - elements.filter((each) => each < place).length;
  };
  const [first, last] = titles;
  return /^(ADD|REMOVE)_COLUMNS_ROWS$/.test(type) ? [to(first), to(last)] : titles;
}

engine.registries.corePluginRegistry.add("mistwright_pages", PagesPlugin);
// So that it is kept and taken back like the engine's own changes.
(engine.coreTypes as Set<string>).add(SET_PAGE);
engine.registries.inverseCommandRegistry.add(SET_PAGE, (command) => [command]);

/** The pages of a workbook, by the ids of its sheets. */
export function pagesOf({ getters }: Model): Pages {
  return (getters as unknown as { getPages(): Pages }).getPages();
}

/** A sheet's part of a file with its page, where it has one. */
export function withPage(xml: string, page: DrawnPage | undefined): string {
  if (!page) return xml;
  const caution = cautionOf(page);
  const setup: PageSetup = {
    landscape: page.landscape ?? false,
    wide: page.wide ?? 1,
    top: caution && `&L${caution}`,
    foot: `&C${PAGE_NUMBER}`,
  };
  return withPageSetup(xml, setup);
}
