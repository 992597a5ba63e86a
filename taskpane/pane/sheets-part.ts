/** The Sheets part: inserts a template on a new sheet, or at the selection where the cells are empty. */
import { element } from "./elements.ts";
import { runsPart } from "./runs-part.ts";
import { ownListPart } from "./own-list.ts";
import { type InsertOptions, insertSet, insertTemplate } from "../sheets/insert.ts";
import type { Tell } from "./tell.ts";
import { templates } from "../templates/index.ts";
import type { Workbook } from "../host/workbook.ts";

export function sheetsPart(workbook: Workbook, tell: Tell): HTMLElement {
  const newSheet = radio("where", "new sheet", true);
  const selection = radio("where", "selection", false);
  const demo = element("input", { type: "checkbox", checked: wantsDemo() });
  demo.addEventListener("change", () => rememberDemo(demo.checked));
  const options = (): InsertOptions => ({
    where: selection.checked ? "selection" : "new sheet",
    filled: demo.checked,
  });
  const inOrder = [...templates].sort((a, b) => a.step - b.step);
  const cards = inOrder.map((template) => {
    const label = `Insert ${template.title}`;
    const button = element("button", { type: "button", class: "main" }, label);
    button.addEventListener("click", () =>
      tell(() => insertTemplate(workbook, template, options(), templates)),
    );
    return element(
      "li",
      {},
      element("h2", {}, template.title),
      element("p", {}, template.use),
      button,
    );
  });
  const all = element("button", { type: "button", class: "main" }, "Insert the whole workbook");
  all.addEventListener("click", () =>
    tell(() => insertSet(workbook, inOrder, options().filled, templates)),
  );
  return element(
    "section",
    {},
    element(
      "p",
      {},
      "All sheets at once, each on its own: materials and recipes are typed once, and every other sheet draws from them.",
    ),
    all,
    runsPart(workbook, tell),
    ownListPart(workbook, tell),
    element(
      "fieldset",
      {},
      element("legend", {}, "Where it goes"),
      element("label", {}, newSheet, "On a new sheet"),
      element("label", {}, selection, "At the selected cell, if the cells there are empty"),
      element("label", { class: "apart" }, demo, "Filled with the invented demo"),
    ),
    element("ul", { class: "cards" }, ...cards),
  );
}

function radio(name: string, value: string, checked: boolean): HTMLInputElement {
  return element("input", { type: "radio", name, value, checked });
}

/** Where it is remembered that someone does not want the demo. */
const EMPTY = "mistwright.empty";

/** A browser that keeps nothing starts with the demo each time. */
function wantsDemo(): boolean {
  try {
    return localStorage.getItem(EMPTY) === null;
  } catch {
    return true;
  }
}

function rememberDemo(isWanted: boolean) {
  try {
    if (isWanted) localStorage.removeItem(EMPTY);
    else localStorage.setItem(EMPTY, "yes");
  } catch {
    // Then it is asked again.
  }
}
