/** The Functions part: finds a function or a sheet by what is needed, and puts it into the workbook. */
import { catalog } from "../../functions/catalog/catalog.ts";
import {
  type CatalogEntry,
  NAMESPACE,
  meaning,
  shownName,
  signature,
} from "../../functions/catalog/entry.ts";
import { readResult } from "../../functions/catalog/examples.ts";
import { KINDS } from "../../functions/catalog/kinds.ts";
import { TOPICS, TOPIC_TITLES } from "../../functions/catalog/topics.ts";
import { element } from "./elements.ts";
import { find } from "./search.ts";
import { insertExample, insertTemplate } from "../sheets/insert.ts";
import type { Template } from "../sheets/template.ts";
import { templates } from "../templates/index.ts";
import type { Tell } from "./tell.ts";
import type { Workbook } from "../host/workbook.ts";

interface Group {
  title: string;
  /** Ids of functions, and titles of sheets. */
  hits: string[];
}

export function functionsPart(workbook: Workbook, tell: Tell): HTMLElement {
  const search = element("input", {
    type: "search",
    id: "need",
    placeholder: "what to charge, drops, shipping ...",
  });
  const count = element("p", { class: "count", role: "status" });
  const found = element("div", {});
  const items = new Map([
    ...catalog.map((entry) => [entry.id, item(entry, workbook, tell)] as const),
    ...templates.map((each) => [each.title, sheetItem(each, workbook, tell)] as const),
  ]);
  const list = (hits: string[]) =>
    element("ul", { class: "functions" }, ...hits.flatMap((hit) => items.get(hit) ?? []));
  const show = () => {
    const isAsked = search.value.trim() !== "";
    const hits = isAsked ? find(search.value) : [];
    count.textContent = !isAsked
      ? `${catalog.length} functions and ${templates.length} sheets`
      : hits.length > 0
        ? `${hits.length} found, the likeliest first`
        : "None fits. Try one plain word: oil, drops, cost, density.";
    found.replaceChildren(
      ...(isAsked
        ? [list(hits)]
        : all().flatMap(({ title, hits }) => [element("h2", {}, title), list(hits)])),
    );
  };
  search.addEventListener("input", show);
  show();
  return element(
    "section",
    {},
    element("label", { for: "need" }, "What do you need?"),
    search,
    count,
    found,
  );
}

/** All of it, by topic. */
function all(): Group[] {
  const byTopic = TOPICS.map((topic) => ({
    title: TOPIC_TITLES[topic],
    hits: catalog.filter((entry) => entry.topic === topic).map(({ id }) => id),
  }));
  return [...byTopic, { title: "Whole sheets", hits: templates.map(({ title }) => title) }];
}

function sheetItem(template: Template, workbook: Workbook, tell: Tell): HTMLElement {
  const label = `Insert ${template.title} on a new sheet, with the invented demo`;
  const insert = element("button", { type: "button" }, label);
  const options = { where: "new sheet", filled: true } as const;
  insert.addEventListener("click", () =>
    tell(() => insertTemplate(workbook, template, options, templates)),
  );
  return element(
    "li",
    {},
    element(
      "details",
      {},
      element(
        "summary",
        {},
        element("span", { class: "need" }, template.title),
        element("span", { class: "kind" }, "a whole sheet"),
      ),
      element("p", {}, template.use),
      insert,
    ),
  );
}

function item(entry: CatalogEntry, workbook: Workbook, tell: Tell): HTMLElement {
  const [example = { formula: "", result: "" }] = entry.examples;
  const formula = `=${NAMESPACE}.${example.formula}`;
  const result = readResult(example.result);
  const size = { rows: result.length, columns: result[0]?.length ?? 1 };
  // Of several functions that are opened, each button says whose it is.
  const button = (text: string, look: string | false = false) =>
    element(
      "button",
      { type: "button", class: look, "aria-label": `${text}: ${NAMESPACE}.${entry.id}` },
      text,
    );
  const put = button("Put the example in the selected cell");
  put.addEventListener("click", () => tell(() => insertExample(workbook, formula, size)));
  const cells = button("Use my cells", "main");
  cells.addEventListener("click", () => void showForm(cells, workbook, entry, tell));
  const params = entry.params.flatMap((param) => [
    element("dt", {}, shownName(param)),
    element("dd", {}, `${param.text} `, element("span", { class: "kind" }, KINDS[param.kind])),
  ]);
  const lines = entry.working.map((line) => {
    const says = `${line.name}: ${meaning(line)}`;
    return element("li", {}, says, element("code", {}, `= ${line.how}`));
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

/** The form for a person's own cells, loaded when it is first asked for, in place of its button. */
async function showForm(button: HTMLElement, workbook: Workbook, entry: CatalogEntry, tell: Tell) {
  const { fromCellsForm } = await import("./from-cells-form.ts");
  const hasKeyboard = document.activeElement === button;
  const form = fromCellsForm(workbook, entry, tell);
  button.replaceWith(form);
  if (hasKeyboard) form.focus({ preventScroll: true });
}
