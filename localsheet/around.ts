/**
 * F6 goes around the parts of the page, Shift+F6 the other way, as in Excel: the sheet keeps Tab to itself, so that
 * no other key leads out of it.
 */
import { focusSheet } from "./page.ts";

const PARTS = ["header", "#notices", "#sheet", "#pane"];

/** Where the keyboard was last in each part. */
const last = new Map<Element, HTMLElement>();

/** `show` brings the sheet or the pane into sight where only one of them is. */
export function goAround(show: (side: "sheet" | "pane") => void): void {
  document.addEventListener("focusin", ({ target }) => {
    const part = target instanceof Element && target.closest(PARTS.join());
    if (part && target instanceof HTMLElement) last.set(part, target);
  });
  // Before the engine sees the key.
  const options = { capture: true };
  document.addEventListener("keydown", (event) => goOn(event, show), options);
}

function goOn(event: KeyboardEvent, show: (side: "sheet" | "pane") => void) {
  const { key, ctrlKey, altKey, metaKey, shiftKey } = event;
  if (key !== "F6" || ctrlKey || altKey || metaKey) return;
  event.preventDefault();
  event.stopPropagation();
  if (document.querySelector("dialog[open]")) return;
  const now = PARTS.findIndex((part) => document.activeElement?.closest(part));
  const others = [...PARTS.slice(now + 1), ...PARTS.slice(0, Math.max(now, 0))];
  if (shiftKey) others.reverse();
  others.some((part) => {
    if (part === "#sheet") show("sheet");
    if (part === "#pane") show("pane");
    return enter(part);
  });
}

/** After what had the keyboard has left the page: the next message, else what is in sight. */
export function stayInSight(): void {
  ["#notices", "#sheet", "#pane"].some(enter);
}

/** Gives the keyboard to a part, where it was before or else to its first control; false where it has none. */
function enter(name: string): boolean {
  const part = document.querySelector(name);
  if (!part) return false;
  const controls = part.querySelectorAll<HTMLElement>('button:not([tabindex="-1"])');
  if (name === "#sheet") focusSheet();
  else
    [last.get(part), ...controls].find((control) => {
      control?.focus();
      return document.activeElement === control;
    });
  return part.contains(document.activeElement);
}
