/** The Functions part: finds a function by what is needed, and puts its example into a cell. */
import MiniSearch from "minisearch";
import { catalog } from "../../functions/catalog/catalog";
import {
  type CatalogEntry,
  NAMESPACE,
  meaning,
  shownName,
  signature,
} from "../../functions/catalog/entry";
import { readResult } from "../../functions/catalog/examples";
import { KINDS } from "../../functions/catalog/kinds";
import { element } from "./elements";
import { insertExample } from "../sheets/insert";
import type { Tell } from "./tell";
import type { Workbook } from "../host/workbook";

export function functionsPart(workbook: Workbook, tell: Tell): HTMLElement {
  const search = element("input", {
    type: "search",
    id: "need",
    placeholder: "oil, drops, cheapest pack ...",
  });
  const count = element("p", { class: "count", role: "status" });
  const list = element("ul", { class: "functions" });
  const items = new Map(catalog.map((entry) => [entry.id, item(entry, workbook, tell)]));
  const show = () => {
    const found = find(search.value);
    list.replaceChildren(...found.map((id) => items.get(id) as HTMLElement));
    count.textContent =
      found.length > 0
        ? `${found.length} functions`
        : "None fits. Try one plain word: oil, drops, cost, density.";
  };
  search.addEventListener("input", show);
  show();
  return element(
    "section",
    {},
    element("label", { for: "need" }, "What do you need?"),
    search,
    count,
    list,
  );
}

const index = new MiniSearch<CatalogEntry>({
  idField: "id",
  fields: ["id", "need", "summary", "remarks", "topic", "arguments"],
  extractField: (entry, field) => {
    if (field === "arguments")
      return entry.params.map((param) => `${param.name} ${param.text}`).join(" ");
    return entry[field as "id"];
  },
  searchOptions: {
    prefix: true,
    fuzzy: 0.2,
    boost: { need: 3, id: 3, summary: 2 },
    combineWith: "AND",
  },
});
index.addAll(catalog);

/** Ids of the functions that fit the words, best first; all of them where nothing is asked. */
export function find(words: string): string[] {
  if (words.trim() === "") return catalog.map((entry) => entry.id);
  const all = index.search(words);
  // Where no function has every word, those that have any of them are better than nothing.
  return (all.length > 0 ? all : index.search(words, { combineWith: "OR" })).map((hit) =>
    String(hit.id),
  );
}

function item(entry: CatalogEntry, workbook: Workbook, tell: Tell): HTMLElement {
  const [example = { formula: "", result: "" }] = entry.examples;
  const formula = `=${NAMESPACE}.${example.formula}`;
  const result = readResult(example.result);
  const size = { rows: result.length, columns: result[0]?.length ?? 1 };
  const put = element("button", { type: "button" }, "Put the example in the selected cell");
  put.addEventListener("click", () => tell(() => insertExample(workbook, formula, size)));
  const cells = element("button", { type: "button", class: "main" }, "Use my cells");
  const form = element("div", {});
  cells.addEventListener("click", () => {
    cells.hidden = true;
    void showForm(form, workbook, entry, tell);
  });
  const params = entry.params.flatMap((param) => [
    element("dt", {}, shownName(param)),
    element("dd", {}, `${param.text} `, element("span", { class: "kind" }, KINDS[param.kind])),
  ]);
  const lines = entry.working.map((line) => {
    const says = `${line.name}: ${meaning(line)}`;
    return element("li", {}, says, element("code", {}, `= ${line.expression}`));
  });
  return element(
    "li",
    {},
    element(
      "details",
      {},
      element(
        "summary",
        {},
        element("span", { class: "need" }, entry.need),
        element("code", {}, `${NAMESPACE}.${entry.id}`),
      ),
      element("p", {}, entry.summary),
      element("code", { class: "call" }, `=${NAMESPACE}.${signature(entry)}`),
      element("p", { class: "example" }, element("code", {}, formula), ` gives ${example.result}`),
      cells,
      form,
      put,
      element("dl", {}, ...params),
      element("p", {}, `Gives: ${entry.returns.text}`),
      element("p", {}, entry.remarks),
      element("p", {}, "How it comes about, line by line:"),
      element("ol", { class: "working" }, ...lines),
      element("p", { class: "kind" }, `Source: ${entry.source}`),
    ),
  );
}

/** The form for a person's own cells, loaded when it is first asked for. */
async function showForm(place: HTMLElement, workbook: Workbook, entry: CatalogEntry, tell: Tell) {
  const { fromCellsForm } = await import("./from-cells-form");
  place.replaceChildren(fromCellsForm(workbook, entry, tell));
}
