/** Tables, paper and panes of the small Excel's sheets. */
import { parseA1Ref } from "@borgar/fx/xlsx";
import { type FakeSheet, type FakeTable, Refusal, type Thing, settable } from "./fake-excel";

/** The tables of sheets; of one that was not made here, as far as its columns go. */
export function tablesOf(
  sheets: FakeSheet[],
  columnsOf: (table: string) => Thing,
  rangeOf: (sheet: FakeSheet, address: string) => Thing,
): Thing {
  const thing = (sheet: FakeSheet, table: FakeTable) =>
    tableOf(sheet, table, () => rangeOf(sheet, table.over));
  const all = () => sheets.flatMap((sheet) => sheet.tables.map((table) => thing(sheet, table)));
  return {
    get items() {
      return all();
    },
    getItem: (asked: string) =>
      all().find(({ id, name }) => id === asked || name === asked) ?? columnsOf(asked),
    add: (over: string, hasHeaders: boolean) => {
      const [sheet] = sheets;
      if (!sheet || !hasHeaders || !parseA1Ref(over))
        throw new Refusal(`${over} is no list with headings`);
      const table: FakeTable = { id: crypto.randomUUID(), over };
      sheet.tables.push(table);
      return thing(sheet, table);
    },
  };
}

function tableOf(sheet: FakeSheet, table: FakeTable, getRange: () => Thing): Thing {
  const set = (name: string) => [name, (value: unknown) => void (table[name] = value)];
  const convertToRange = () => {
    sheet.tables = sheet.tables.filter(({ id }) => id !== table.id);
    // Gives the range of its cells, of which nobody asks anything here.
    return {};
  };
  const resize = (over: string) => void (table.over = over);
  const settables = ["name", "style", "showBandedRows"].map(set);
  return settable({ ...table, convertToRange, getRange, resize }, Object.fromEntries(settables));
}

export function paperOf(sheet: FakeSheet): Thing {
  const set = (name: string) => (value: unknown) => void (sheet.page[name] = value);
  const setters = (...names: string[]) =>
    Object.fromEntries(names.map((name) => [name, set(name)]));
  const texts = settable({}, setters("leftHeader", "centerFooter"));
  const area = (range: unknown) => JSON.parse(JSON.stringify(range)) as string;
  return {
    pageLayout: settable(
      {
        headersFooters: { defaultForAllPages: texts },
        setPrintArea: (range: unknown) => set("area")(area(range)),
        setPrintMargins: (unit: string, margins: object) => set("margins")([unit, margins]),
        setPrintTitleRows: set("titleRows"),
        setPrintTitleColumns: set("titleColumns"),
      },
      setters("orientation", "zoom"),
    ),
    horizontalPageBreaks: {
      add: (cell: unknown) => {
        sheet.page.breaks = [sheet.page.breaks ?? [], cell].flat();
        return settable({}, {});
      },
    },
    freezePanes: {
      freezeAt: (range: unknown) => void (sheet.frozen = area(range)),
      freezeRows: (count: number) => void (sheet.frozen = `${count} rows`),
      freezeColumns: (count: number) => void (sheet.frozen = `${count} columns`),
    },
  };
}
