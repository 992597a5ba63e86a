/** The maker's own price list: which sheet, which column is what, and Materials draws from it. */
import type { Workbook } from "../host/workbook.ts";
import { findSheets } from "../sheets/find.ts";
import { type FoundColumn, type FoundList, mainList } from "../from-cells/list.ts";
import { OWN_COLUMNS, proposed } from "../from-cells/own-columns.ts";
import { type DrawnBefore, drawFromOwnList, drawnBefore } from "../from-cells/own-list.ts";
import { templates } from "../templates/index.ts";
import { element } from "./elements.ts";
import type { Tell } from "./tell.ts";

export function ownListPart(workbook: Workbook, tell: Tell): HTMLElement {
  const sheets = element("select", {
    "aria-label": "Sheet with your price list",
    "aria-describedby": "own-list-said",
  });
  const columns = element("div", {});
  const said = element("p", { role: "status", id: "own-list-said" });
  let list: FoundList | null = null;
  let selects = new Map<string, HTMLSelectElement>();
  let before: DrawnBefore | null = null;

  const look = async () => {
    const ours = await findSheets(workbook, templates);
    const materials = ours.get("Materials");
    before = materials ? await drawnBefore(workbook, materials) : null;
    const own = new Set([...ours.values()].map(({ sheet }) => sheet));
    const names = (await workbook.sheetNames()).filter((name) => !own.has(name));
    const was = [sheets.value, before?.sheet].find((name) => name && names.includes(name));
    sheets.replaceChildren(...names.map((name) => element("option", { value: name }, name)));
    if (was) sheets.value = was;
    await read();
  };
  const read = async () => {
    list = sheets.value ? await mainList(workbook, sheets.value) : null;
    selects = new Map();
    columns.replaceChildren();
    said.textContent = list ? "" : "No list with headings was found on that sheet.";
    if (!list) return;
    const guess = chosenBefore(list, before) ?? proposed(list);
    const rows = Object.entries(OWN_COLUMNS).map(([key, { label }]) => {
      const select = choices(list?.columns ?? [], guess.get(key));
      selects.set(key, select);
      return element("label", {}, `${label}: `, select);
    });
    columns.replaceChildren(...rows);
  };
  sheets.addEventListener("change", () => void read());
  const draw = element("button", { type: "button" }, "Draw Materials from this list");
  draw.addEventListener("click", () =>
    tell(async () => {
      const materials = (await findSheets(workbook, templates)).get("Materials");
      if (!materials) throw new Error("Insert Materials empty first: it is not in the workbook.");
      if (!list) throw new Error("Choose a sheet with a list first.");
      // Read anew: lines may have been added since.
      const now = await mainList(workbook, list.sheet);
      if (!now) throw new Error(`No list with headings is on "${list.sheet}" any more.`);
      const picked = chosen(selects, now.columns);
      const said = await drawFromOwnList(workbook, materials, now, picked);
      const columns = [...picked].map(([key, { column }]): [string, number] => [key, column]);
      before = { sheet: now.sheet, columns: new Map(columns) };
      return said;
    }),
  );
  const details = element(
    "details",
    { class: "own-list" },
    element("summary", {}, "I have a price list already"),
    element(
      "p",
      {},
      "Choose its columns once; Materials then draws from it, and prices are typed there only. Draw again for lines that you add.",
    ),
    element("label", {}, "Sheet: ", sheets),
    said,
    columns,
    draw,
  );
  details.addEventListener("toggle", () => {
    if (details instanceof HTMLDetailsElement && details.open) void look();
  });
  return details;
}

function choices(
  columns: readonly FoundColumn[],
  guess: FoundColumn | undefined,
): HTMLSelectElement {
  const select = element(
    "select",
    {},
    element("option", { value: "" }, "not in the list"),
    ...columns.map(({ column, heading }) => element("option", { value: String(column) }, heading)),
  );
  if (guess) select.value = String(guess.column);
  return select;
}

/** The columns as they were chosen before, where Materials draws from this list already. */
function chosenBefore(list: FoundList, before: DrawnBefore | null) {
  if (before?.sheet !== list.sheet) return null;
  const found = [...before.columns].flatMap(([key, at]): [string, FoundColumn][] => {
    const column = list.columns.find((each) => each.column === at);
    return column ? [[key, column]] : [];
  });
  return new Map(found);
}

function chosen(selects: ReadonlyMap<string, HTMLSelectElement>, columns: readonly FoundColumn[]) {
  const found = new Map<string, FoundColumn>();
  for (const [key, { value }] of selects) {
    const column = columns.find((each) => String(each.column) === value);
    if (value !== "" && column) found.set(key, column);
  }
  return found;
}
