/** The runs of the Sheets part: make one, book it, take one back. */
import { element } from "./elements.ts";
import { makeRun } from "./make-run.ts";
import { bookRun, takeBack } from "./runs.ts";
import type { Tell } from "./tell.ts";
import type { Workbook } from "../host/workbook.ts";

export function runsPart(workbook: Workbook, tell: Tell): HTMLElement {
  const button = (text: string, action: () => Promise<string>, field?: HTMLElement) => {
    const made = element("button", { type: "button" }, text);
    made.addEventListener("click", () => tell(action, field));
    return made;
  };
  const batch = element("input", { type: "text", name: "batch" });
  return element(
    "fieldset",
    {},
    element("legend", {}, "Runs"),
    element(
      "p",
      {},
      "A bench sheet for the next batch, with what Size run has; print it, weigh, type the readings, book it.",
    ),
    button("Make this run", () => makeRun(workbook, new Date())),
    button("Book this run", () => bookRun(workbook)),
    element("label", { class: "apart" }, "Batch to take back ", batch),
    button("Take a run back", () => takeBack(workbook, batch.value), batch),
  );
}
