/** The Working part: the selected cell explained step by step, with its own numbers. */
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { element } from "./elements.ts";
import type { Workbook } from "../host/workbook.ts";
import type { Explained, ExplainedCall, ExplainedLine } from "../working/explain.ts";
import type { ShownInput } from "../working/inputs.ts";
import type { Problem } from "../working/problems.ts";

/** The part that does the explaining, and the library behind it, are loaded when they are first wanted. */
const explaining = () => import("../working/explain.ts");
const showing = () => import("../working/shown.ts");

type Shown = Awaited<ReturnType<typeof showing>>;

/** A moment after the last change, so that a hand that goes through cells is not run after. */
const PAUSE_MS = 120;

export function workingPart(workbook: Workbook): { content: HTMLElement; onShow: () => void } {
  const headline = element("p", { class: "headline", role: "status" });
  const body = element("div", { class: "explained" });
  // It has nothing else to stop at, and scrolls: the keyboard must reach it.
  const content = element("section", { tabindex: "0" }, headline, body);
  let asked = 0;
  const refresh = async () => {
    const turn = ++asked;
    const { spot, explained, why, shown } = await look(workbook);
    // Another cell may have been selected while this one was looked at.
    if (turn !== asked) return;
    headline.textContent = explained ? headlineOf(explained, shown) : why;
    content.dataset.cell = spot;
    body.replaceChildren(...(explained ? explanation(explained, shown) : [hint()]));
  };
  let timer = 0;
  const later = () => {
    if (content.hidden) return;
    window.clearTimeout(timer);
    timer = window.setTimeout(() => void refresh(), PAUSE_MS);
  };
  let isListening = false;
  const onShow = () => {
    void refresh();
    if (isListening) return;
    isListening = true;
    void workbook.onChange(later);
  };
  return { content, onShow };
}

interface Look {
  spot: string;
  explained?: Explained;
  why: string;
  shown: Shown;
}

async function look(workbook: Workbook): Promise<Look> {
  const [{ explain }, shown] = await Promise.all([explaining(), showing()]);
  const selected = await workbook.selection();
  const spot = `${selected.sheet}!${selected.row},${selected.column}`;
  try {
    return { spot, explained: await explain(workbook, selected), why: "", shown };
  } catch (error) {
    return { spot, why: error instanceof Error ? error.message : String(error), shown };
  }
}

function hint(): HTMLElement {
  const text = `Select any cell with a ${NAMESPACE} function in it. What went in, each step and the result are shown here with the cell's own numbers.`;
  return element("p", { class: "kind" }, text);
}

function headlineOf({ place, value }: Explained, { shown }: Shown): string {
  return `${place} shows ${shown(value, "number")}`;
}

function explanation(explained: Explained, shown: Shown): HTMLElement[] {
  const { calls, formula, rest, problem } = explained;
  const many = calls.length > 1;
  return [
    element("code", { class: "call" }, formula),
    ...(problem ? [problemShown(problem)] : []),
    ...(many ? [element("p", {}, `${calls.length} functions, from the inside out:`)] : []),
    ...calls.map((call, i) => callShown(call, many ? `${i + 1}. ` : "", shown)),
    ...(rest
      ? [
          element("p", {}, "With these answers the cell reads:"),
          element("code", { class: "call" }, rest),
        ]
      : []),
  ];
}

function callShown(call: ExplainedCall, number: string, shown: Shown): HTMLElement {
  const { entry, lines, line, at } = call;
  const place = element("div", {});
  const show = (index: number) => {
    const chosen = { row: Math.floor(index / lines.columns), column: index % lines.columns };
    place.replaceChildren(...lineShown(call, at(chosen), shown));
  };
  const count = lines.rows * lines.columns;
  const chooser = count > 1 ? lineChooser(count, line.row * lines.columns + line.column, show) : "";
  show(line.row * lines.columns + line.column);
  return element(
    "article",
    { class: "call-card" },
    element("h2", {}, `${number}${NAMESPACE}.${entry.id}`),
    element("p", {}, entry.summary),
    number ? element("code", { class: "call" }, call.text) : "",
    chooser,
    place,
    element("h3", {}, "The method"),
    element("p", {}, entry.remarks),
    element("p", { class: "kind" }, `Source: ${entry.source}`),
    element("h3", {}, "Keep in mind"),
    element("p", { class: "caution" }, call.caution),
  );
}

function lineChooser(count: number, now: number, show: (index: number) => void): HTMLElement {
  const choice = element("select", {});
  for (let i = 0; i < count; i++) {
    choice.append(element("option", { value: String(i), selected: i === now }, String(i + 1)));
  }
  choice.addEventListener("change", () => show(Number(choice.value)));
  return element("label", { class: "line" }, "Line ", choice, ` of ${count}`);
}

function lineShown(call: ExplainedCall, line: ExplainedLine, shown: Shown): HTMLElement[] {
  const parts = [
    element("h3", {}, "What goes in"),
    element("dl", { class: "inputs" }, ...line.inputs.flatMap(inputShown)),
  ];
  if (line.problem) return [...parts, problemShown(line.problem)];
  const steps = line.steps.map((step) => {
    const { name, what, expression } = step.line;
    const value = valueShown(step.value, shown);
    const written = [expression, step.numbers].filter(
      (text, i, all) => text !== value && all.indexOf(text) === i,
    );
    return element(
      "li",
      {},
      `${name}: ${what}`,
      ...written.map((text) => element("code", {}, `= ${text}`)),
      element("strong", {}, `= ${value}`),
    );
  });
  return [
    ...parts,
    element("h3", {}, "How it comes about"),
    element("ol", { class: "working" }, ...steps),
    ...wordsShown(line),
    element("p", { class: "answer" }, answerShown(call, line, shown)),
    element("p", { class: "kind" }, call.entry.returns.text),
  ];
}

/** What the names in the expressions mean that are not those of arguments and steps. */
function wordsShown({ words }: ExplainedLine): HTMLElement[] {
  if (words.length === 0) return [];
  const list = words.map(({ word, means }) =>
    element("li", {}, element("code", {}, word), `: ${means}`),
  );
  return [
    element("p", { class: "kind" }, "In these lines:"),
    element("ul", { class: "words kind" }, ...list),
  ];
}

function inputShown({ name, text, value, from }: ShownInput): HTMLElement[] {
  return [
    element("dt", {}, name),
    element(
      "dd",
      {},
      element("strong", {}, value),
      element("span", { class: "from" }, ` ${from}`),
      element("span", { class: "kind" }, text),
    ),
  ];
}

function problemShown({ reason, mend, title = "Why there is no number" }: Problem): HTMLElement {
  return element(
    "div",
    { class: "problem" },
    element("h3", {}, title),
    element("p", {}, reason),
    element("h3", {}, "How to mend it"),
    element("p", {}, mend),
  );
}

function answerShown(
  { entry }: ExplainedCall,
  { answer, part }: ExplainedLine,
  { shown }: Shown,
): string {
  const { kind } = entry.returns;
  const [rows, columns] = [answer.length, answer[0]?.length ?? 0];
  if (rows * columns === 1) return `Answer: ${shown(answer[0]?.[0] ?? null, kind)}`;
  const all =
    rows > 1 && columns > 1
      ? `Answer: ${rows} x ${columns} cells`
      : `Answer: ${answer
          .flat()
          .map((cell) => shown(cell, kind))
          .join(", ")}`;
  if (!part) return all;
  const where = [
    ...(rows > 1 ? [`row ${part.row + 1}`] : []),
    ...(columns > 1 ? [`column ${part.column + 1}`] : []),
  ];
  return `${all}. This cell, ${where.join(", ")}: ${shown(answer[part.row]?.[part.column] ?? null, kind)}`;
}

/** A step's value: a number to nine figures, a list of them, a word. */
function valueShown(value: unknown, { plain }: Pick<Shown, "plain">): string {
  if (typeof value === "number") return plain(value);
  if (Array.isArray(value))
    return `[${value.map((each) => valueShown(each, { plain })).join(", ")}]`;
  return typeof value === "boolean" ? (value ? "yes" : "no") : String(value);
}
