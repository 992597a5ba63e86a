/** The pane: its parts as tabs, and one line that tells what happened. The same on both hosts. */
import { element } from "./elements.ts";
import { handOverPart } from "./hand-over-part.ts";
import { tellIn } from "./tell.ts";
import type { Workbook } from "../host/workbook.ts";
import { workingPart } from "./working-part.ts";

declare const MISTWRIGHT_VERSION: string;

interface PanePart {
  name: string;
  content: HTMLElement;
  /** Called whenever it comes into sight. */
  onShow?: () => void;
}

/** Builds the pane inside an element. */
export function mountPane(root: HTMLElement, workbook: Workbook): void {
  const status = element("p", { class: "status", role: "status", id: "told" });
  const tell = tellIn(status, workbook);
  const parts: PanePart[] = [
    {
      name: "Sheets",
      ...whenShown(async () => (await import("./sheets-part.ts")).sheetsPart(workbook, tell)),
    },
    {
      name: "Functions",
      ...whenShown(async () => (await import("./functions-part.ts")).functionsPart(workbook, tell)),
    },
    { name: "Working", ...workingPart(workbook) },
    { name: "Hand over", content: handOverPart(workbook, tell) },
  ];
  const version = element("p", { class: "version" }, `Mistwright ${MISTWRIGHT_VERSION}`);
  root.replaceChildren(...tabs(parts), element("footer", {}, status, version));
  root.classList.add("pane");
}

/** A part that is loaded, with the texts or sheets that it shows, when it is first opened. */
function whenShown(part: () => Promise<HTMLElement>): Omit<PanePart, "name"> {
  const content = element("div", {}, element("p", {}, "Loading..."));
  let asked: Promise<void> | undefined;
  const load = async () => {
    content.replaceChildren(await part());
  };
  const failed = () => {
    asked = undefined;
    content.replaceChildren(
      element(
        "p",
        { role: "alert" },
        "It could not be loaded. Open another part, then this one again.",
      ),
    );
  };
  return { content, onShow: () => void (asked ??= load().catch(failed)) };
}

function tabs(parts: PanePart[]): HTMLElement[] {
  const list = element("div", { role: "tablist", "aria-label": "Parts of the pane" });
  const buttons = parts.map(({ name, content }) => {
    const key = name.toLowerCase().replaceAll(" ", "-");
    content.id = `part-${key}`;
    content.setAttribute("role", "tabpanel");
    content.setAttribute("aria-labelledby", `tab-${key}`);
    const attributes = {
      type: "button",
      role: "tab",
      id: `tab-${key}`,
      "aria-controls": content.id,
    };
    return element("button", attributes, name);
  });
  const show = (index: number) => {
    parts.forEach(({ content }, i) => {
      content.hidden = i !== index;
    });
    buttons.forEach((button, i) => {
      button.setAttribute("aria-selected", String(i === index));
      button.tabIndex = i === index ? 0 : -1;
    });
    parts[index]?.onShow?.();
  };
  buttons.forEach((button, i) => button.addEventListener("click", () => show(i)));
  list.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (!step) return;
    const now = buttons.findIndex((button) => button === document.activeElement);
    const next = (now + step + parts.length) % parts.length;
    show(next);
    buttons[next]?.focus();
  });
  list.append(...buttons);
  show(0);
  return [list, ...parts.map((part) => part.content)];
}
