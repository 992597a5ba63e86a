/** The Working part: the selected cell explained step by step, with its own numbers. */
import { NAMESPACE } from "../../functions/catalog/entry.ts";
import { element } from "./elements.ts";
import type { Workbook } from "../host/workbook.ts";
import { stepShown } from "./step-shown.ts";
import type { Said } from "../working/answer.ts";
import type { Explained, ExplainedCall, ExplainedLine, InWords } from "../working/explain.ts";
import type { ShownInput } from "../working/inputs.ts";
import type { CellProblem } from "../working/problems.ts";

/** The part that does the explaining, and the library behind it, are loaded when they are first wanted. */
const explaining = () => import("../working/explain.ts");

/** How many digits a person wants to see. */
type Digits = "six" | "all";

/** A moment after the last change, so that a hand that goes through cells is not run after. */
const PAUSE_MS = 120;

export function workingPart(workbook: Workbook): { content: HTMLElement; onShow: () => void } {
  const headline = element("p", { class: "headline", role: "status" });
  const body = element("div", { class: "explained" });
  const all = element("input", { type: "checkbox" });
  const choice = element("label", { class: "digits" }, all, " All digits");
  // It has nothing else to stop at, and scrolls: the keyboard must reach it.
  const content = element("section", { tabindex: "0" }, headline, choice, body);
  let asked = 0;
  const refresh = async () => {
    const turn = ++asked;
    const digits = all.checked ? "all" : "six";
    const { spot, explained, inWords, why } = await look(workbook, digits);
    // Another cell may have been selected while this one was looked at.
    if (turn !== asked) return;
    headline.textContent = explained ? `${explained.place} shows ${explained.shows(digits)}` : why;
    choice.hidden = !explained;
    content.dataset.cell = spot;
    body.replaceChildren(
      ...(explained && inWords ? explanation(explained, inWords, digits) : [hint()]),
    );
  };
  all.addEventListener("change", () => void refresh());
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

interface Seen {
  spot: string;
  explained?: Explained;
  inWords?: InWords;
  why: string;
}

async function look(workbook: Workbook, digits: Digits): Promise<Seen> {
  const { explain } = await explaining();
  const selected = await workbook.selection();
  const spot = `${selected.sheet}!${selected.row},${selected.column}`;
  try {
    const explained = await explain(workbook, selected);
    return { spot, explained, inWords: await explained.inWords(digits), why: "" };
  } catch (error) {
    return { spot, why: error instanceof Error ? error.message : String(error) };
  }
}

function hint(): HTMLElement {
  const text = `Select any cell with a formula. What went in, each step and the result are shown here with the cell's own numbers.`;
  return element("p", { class: "kind" }, text);
}

function explanation(explained: Explained, inWords: InWords, digits: Digits): HTMLElement[] {
  const { calls, formula, problem, isAlone } = explained;
  const many = calls.length > 1;
  const told = wordsShown(inWords, isAlone ? "What the cell makes of it" : "In words");
  return [
    ...(problem ? [problemShown(problem, "h2")] : []),
    ...(isAlone ? [] : told),
    ...(many ? [element("p", {}, `${calls.length} functions, from the inside out:`)] : []),
    ...calls.map((call, i) => callShown(call, many ? `${i + 1}. ` : "", digits)),
    ...(isAlone ? told : []),
    itself(formula),
  ];
}

/** A value told in sentences, with the cells that it comes from. */
function wordsShown({ sentences, how, goesIn }: InWords, title: string): HTMLElement[] {
  if (sentences.length === 0) return [];
  return [
    element(
      "article",
      { class: "call-card in-words" },
      element("h2", {}, title),
      ...sentences.map((sentence) => element("p", {}, sentence)),
      ...how.map((line) => element("code", {}, line)),
      ...(goesIn.length > 0
        ? [
            element("h3", {}, "What goes in"),
            element("dl", { class: "inputs" }, ...goesIn.flatMap(cellShown)),
          ]
        : []),
    ),
  ];
}

function cellShown({ label, value, place }: InWords["goesIn"][number]): HTMLElement[] {
  return [
    element("dt", { class: "label" }, label),
    element(
      "dd",
      {},
      element("strong", {}, value),
      element("span", { class: "from" }, ` from ${place}`),
    ),
  ];
}

/** The formula as it stands, for those who want it. */
function itself(formula: string): HTMLElement {
  return element(
    "details",
    { class: "itself" },
    element("summary", {}, "The formula itself"),
    element("code", { class: "call" }, formula),
  );
}

function callShown(call: ExplainedCall, number: string, digits: Digits): HTMLElement {
  const { entry, lines, line, at } = call;
  const place = element("div", {});
  const show = (index: number) => {
    const chosen = { row: Math.floor(index / lines.columns), column: index % lines.columns };
    place.replaceChildren(...lineShown(call, at(chosen, digits)));
  };
  const count = lines.rows * lines.columns;
  const title = `${number}${NAMESPACE}.${entry.id}`;
  const now = line.row * lines.columns + line.column;
  const chooser = count > 1 ? lineChooser(`Line of ${title}`, count, now, show) : "";
  show(now);
  return element(
    "article",
    { class: "call-card" },
    element("h2", {}, title),
    element("p", {}, entry.summary),
    chooser,
    place,
    element("h3", {}, "The method"),
    element("p", {}, entry.remarks),
    element("p", { class: "kind" }, `Source: ${entry.source}`),
    element("h3", {}, "Keep in mind"),
    element("p", { class: "caution" }, call.caution),
  );
}

function lineChooser(
  name: string,
  count: number,
  now: number,
  show: (index: number) => void,
): HTMLElement {
  const choice = element("select", { "aria-label": name });
  for (let i = 0; i < count; i++) {
    choice.append(element("option", { value: String(i), selected: i === now }, String(i + 1)));
  }
  choice.addEventListener("change", () => show(Number(choice.value)));
  return element("label", { class: "line" }, "Line ", choice, ` of ${count}`);
}

function lineShown(call: ExplainedCall, line: ExplainedLine): HTMLElement[] {
  const parts = [
    element("h3", {}, "What goes in"),
    element("dl", { class: "inputs" }, ...line.inputs.flatMap(inputShown)),
  ];
  if (line.problem) return [...parts, problemShown(line.problem, "h3")];
  return [
    element("p", { class: "answer" }, answerShown(line.said)),
    element("p", { class: "kind" }, call.entry.returns.text),
    ...parts,
    element("h3", {}, "How it comes about"),
    element("ol", { class: "working" }, ...line.steps.map(stepShown)),
  ];
}

function answerShown({ all, cell }: Said): string {
  return `Answer: ${all}.${cell?.label ? ` This cell, ${cell.label}: ${cell.says}.` : ""}`;
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

function problemShown(
  { reason, mend, title = "Why there is no number" }: CellProblem,
  heading: "h2" | "h3",
): HTMLElement {
  return element(
    "div",
    { class: "problem" },
    element(heading, {}, title),
    element("p", {}, reason),
    element(heading, {}, "How to mend it"),
    element("p", {}, mend),
  );
}
