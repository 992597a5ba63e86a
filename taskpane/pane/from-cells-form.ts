/**
 * A function over the cells that a person has: a field for each input, filled by clicking on the sheet or by typing;
 * the first answers and what lines lack, before anything is written; then the formulas.
 */
import {
  type CatalogEntry,
  NAMESPACE,
  type Param,
  shownName,
} from "../../functions/catalog/entry.ts";
import type { Spot, Workbook } from "../host/workbook.ts";
import { blockText, choicesOf, spotIn } from "../from-cells/cells.ts";
import { type FoundList, listAround } from "../from-cells/list.ts";
import { fill, freeBeside } from "../from-cells/fill.ts";
import { proposals } from "../from-cells/proposal.ts";
import { type Trial, tryOut } from "../from-cells/trial.ts";
import { stepShown } from "./step-shown.ts";
import { element } from "./elements.ts";
import type { Tell } from "./tell.ts";

/** Answers that are shown before they are written. */
const FIRST = 5;

/** A moment after the last change, so that a hand that types is not run after. */
const PAUSE_MS = 150;

export function fromCellsForm(workbook: Workbook, entry: CatalogEntry, tell: Tell): HTMLElement {
  let list: FoundList | null = null;
  let sheet = "";
  let trial: Trial | null = null;
  let turn = 0;
  let timer = 0;
  /** Out of sight nothing is worked out, however often the workbook changes. */
  let isInSight = false;
  let isStale = false;

  const found = element("p", { class: "kind" }, "Looking at the sheet ...");
  const fields = new Map(entry.params.map((param) => [param.name, fieldFor(entry.id, param)]));
  const where = element("input", { type: "text", spellcheck: "false" });
  const heading = element("input", { type: "text" });
  const spills = element("input", { type: "checkbox" });
  const shows = element("div", { role: "status", id: `trial-${entry.id}` });
  const working = element("div", {});
  const write = element("button", { type: "button", disabled: true }, "Write");
  const picked = pickInto([...fields.values(), where]);

  const read = () => new Map([...fields].map(([name, { value }]) => [name, value]));
  const home = (): Spot => spotIn(where.value, sheet) ?? { sheet, row: 0, column: 0 };
  const look = async () => {
    const mine = ++turn;
    const [tried, said] = await attempt(() => tryOut(workbook, entry, read(), home(), list));
    if (mine !== turn) return;
    trial = tried;
    write.disabled = !tried || tried.answered === 0;
    write.textContent = tried ? buttonText(tried, spills.checked) : "Write";
    shows.replaceChildren(...(tried ? trialShown(tried) : [element("p", {}, said)]));
    working.replaceChildren(...(tried ? workingShown(tried) : []));
    // What is still needed is told at the fields, too.
    for (const field of fields.values()) {
      if (tried) field.removeAttribute("aria-describedby");
      else field.setAttribute("aria-describedby", shows.id);
    }
  };
  const later = () => {
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void look(), PAUSE_MS);
  };
  const start = async () => {
    const at = await workbook.selection();
    sheet = at.sheet;
    list = await listAround(workbook, at);
    found.textContent = list ? foundText(list) : NO_LIST;
    for (const [name, cells] of list ? proposals(entry, list) : []) {
      const field = fields.get(name);
      if (field) field.value = cells;
    }
    const beside = list ? await freeBeside(workbook, list) : at;
    where.value = blockText({ ...beside, rows: 1, columns: 1 }, sheet);
    heading.value = entry.returns.text.replace(/[.,;:(].*$/s, "");
    await look();
    await workbook.onChange(() => void pick());
  };
  const changed = () => {
    if (isInSight) later();
    else isStale = true;
  };
  const pick = async () => {
    if (!found.isConnected) return;
    const field = picked.now();
    // What stands in the cells may have changed.
    if (!field) {
      changed();
      return;
    }
    const block = await attempt(() => workbook.selectedBlock());
    if (!block[0] || picked.now() !== field) return;
    field.value =
      field === where
        ? blockText({ ...block[0], rows: 1, columns: 1 }, sheet)
        : blockText(block[0], sheet);
    later();
  };
  for (const field of [...fields.values(), where]) field.addEventListener("input", later);
  spills.addEventListener("change", later);
  write.addEventListener("click", () =>
    tell(async () => {
      if (!trial) throw new Error("Nothing was written: fill in what is still needed.");
      const at = spotIn(where.value, sheet);
      if (!at) throw new Error(`Nothing was written: "${where.value}" is no cell.`);
      picked.stop();
      const filling = { at, heading: heading.value, spilled: spills.checked };
      return fill(workbook, trial, filling, moneyAt(entry, fields, list));
    }, where),
  );
  void start();

  const inputs = entry.params.map((param) =>
    element(
      "label",
      { title: param.text },
      shownName(param),
      fields.get(param.name) ?? "",
      wordsFor(entry.id, param),
      element("small", {}, param.text.replace(/\.$/, "")),
    ),
  );
  const form = element(
    "div",
    {
      class: "from-cells",
      role: "group",
      "aria-label": `My cells: ${NAMESPACE}.${entry.id}`,
      tabindex: "-1",
    },
    found,
    ...inputs,
    element("div", { class: "trial" }, shows, working),
    element("label", {}, "First answer in", where),
    element("label", {}, "Heading above it", heading),
    element("label", { class: "check" }, spills, "One formula for all lines, which spills"),
    write,
  );
  new IntersectionObserver(([seen]) => {
    isInSight = seen?.isIntersecting ?? false;
    if (!isInSight || !isStale) return;
    isStale = false;
    later();
  }).observe(form);
  return form;
}

const NO_LIST =
  "No list with headings was found on this sheet. Click into a field, then on a cell, or type a value.";

function foundText({ columns, first, last }: FoundList): string {
  const names = columns.map((column) => column.heading).join(", ");
  return `Found ${last - first + 1} lines under ${names}. To change a field, click into it, then on a cell of the column or a cell of your own; or type a value.`;
}

/** A field, with the words to choose from where there are such. */
function fieldFor(id: string, param: Param): HTMLInputElement {
  const field = element("input", { type: "text", spellcheck: "false", autocomplete: "off" });
  if (choicesOf(param).length > 0) field.setAttribute("list", wordsId(id, param));
  return field;
}

/** Forms of several functions may be open. */
const wordsId = (id: string, { name }: Param) => `words-${id}-${name}`;

function wordsFor(id: string, param: Param): HTMLElement | "" {
  const options = choicesOf(param).map((word) => element("option", { value: word }));
  return options.length > 0 ? element("datalist", { id: wordsId(id, param) }, ...options) : "";
}

/** The field that the next selection goes into: the one that was clicked into last. */
function pickInto(fields: readonly HTMLInputElement[]) {
  let now: HTMLInputElement | null = null;
  const take = (field: HTMLInputElement | null) => {
    now?.classList.remove("picking");
    now = field;
    now?.classList.add("picking");
  };
  for (const field of fields) {
    field.addEventListener("focus", () => take(field));
    // What is typed is meant: a later click on the sheet does not write over it.
    field.addEventListener("input", () => take(null));
    field.addEventListener("click", () => take(field));
  }
  return { now: () => now, stop: () => take(null) };
}

/** The first cell of the first column of money that goes in. */
function moneyAt(
  entry: CatalogEntry,
  fields: ReadonlyMap<string, HTMLInputElement>,
  list: FoundList | null,
): Spot | null {
  const money = entry.params.filter(({ kind }) => kind === "money");
  const cells = money.map(({ name }) => fields.get(name)?.value.split(":")[0] ?? "");
  for (const cell of cells) {
    const spot = list && spotIn(cell, list.sheet);
    if (spot) return spot;
  }
  return null;
}

async function attempt<T>(work: () => Promise<T | string>): Promise<[T | null, string]> {
  try {
    const result = await work();
    return typeof result === "string" ? [null, result] : [result, ""];
  } catch (error) {
    return [null, error instanceof Error ? error.message : String(error)];
  }
}

function buttonText({ answers }: Trial, isSpilled: boolean): string {
  return isSpilled || answers.length === 1
    ? "Write the formula"
    : `Write ${answers.length} formulas`;
}

function trialShown(trial: Trial): HTMLElement[] {
  const { answers, rows, answered, gaps } = trial;
  const told =
    rows.length > 1
      ? [element("p", {}, `${answered} of ${rows.length} lines have an answer.`)]
      : [];
  const lines = answers.slice(0, FIRST).map((answer, i) =>
    element(
      "tr",
      {},
      ...(rows.length > 0 ? [element("th", { scope: "row" }, `Row ${rows[i] ?? ""}`)] : []),
      ...answer
        .flat()
        .slice(0, FIRST)
        .map((cell) => element("td", {}, trial.shown(cell))),
    ),
  );
  const lacks = gaps.map(({ says, rows: at }) =>
    element("li", {}, at.length > 0 ? `${rowsText(at)}: ${says}` : says),
  );
  return [
    ...told,
    element("table", {}, element("tbody", {}, ...lines)),
    ...(lacks.length > 0 ? [element("ul", { class: "gaps" }, ...lacks)] : []),
  ];
}

/** How the first answer comes about. */
function workingShown({ answers, rows, steps }: Trial): HTMLElement[] {
  const line = answers.findIndex((answer) => typeof answer[0]?.[0] === "number");
  if (line < 0) return [];
  const lines = steps(line).map(stepShown);
  const of = rows[line] === undefined ? "the answer" : `row ${rows[line]}`;
  const summary = element("summary", {}, `Working of ${of}`);
  return [element("details", {}, summary, element("ol", { class: "working" }, ...lines))];
}

const MOST_ROWS = 8;

function rowsText(rows: readonly number[]): string {
  const first = rows.slice(0, MOST_ROWS).join(", ");
  const more = rows.length > MOST_ROWS ? ` and ${rows.length - MOST_ROWS} more` : "";
  return `${rows.length === 1 ? "Row" : "Rows"} ${first}${more}`;
}
