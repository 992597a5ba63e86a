/** The pane's status line. */
import type { Spot, Workbook } from "../host/workbook.ts";

/**
 * Runs something a button asks for and tells the outcome, good or bad, in the pane's status line. A refusal is
 * tied to the field that was asked about, so that a screen reader tells it there, too.
 */
export type Tell = (action: () => Promise<string>, field?: HTMLElement) => Promise<void>;

/** So long what was done may still be changing the sheet itself. */
const SETTLES_MS = 2000;

/**
 * What is told leaves when it may no longer hold: that something was done, with the next change in the workbook;
 * that something was refused, when another cell is selected.
 */
export function tellIn(
  status: HTMLElement,
  workbook: Pick<Workbook, "onChange" | "selection">,
): Tell {
  let told: { at: number; refusedAt: Spot | null } | null = null;
  let refused: HTMLElement | undefined;
  let isListening = false;
  const say = (text: string, outcome?: "done" | "failed") => {
    status.className = outcome ? `status ${outcome}` : "status";
    status.textContent = text;
    refused?.removeAttribute("aria-invalid");
    refused?.removeAttribute("aria-describedby");
    refused = undefined;
  };
  const leave = async () => {
    const now = told;
    if (!now || Date.now() - now.at < SETTLES_MS) return;
    if (now.refusedAt && isSame(now.refusedAt, await workbook.selection())) return;
    if (told !== now) return;
    told = null;
    say("");
  };
  const listen = () => {
    if (isListening) return;
    isListening = true;
    void workbook.onChange(() => void leave());
  };
  return async (action, field) => {
    told = null;
    say("Working...");
    try {
      say(await action(), "done");
      told = { at: Date.now(), refusedAt: null };
    } catch (error) {
      say(error instanceof Error ? error.message : String(error), "failed");
      field?.setAttribute("aria-invalid", "true");
      field?.setAttribute("aria-describedby", status.id);
      refused = field;
      told = { at: Date.now(), refusedAt: await workbook.selection().catch(() => null) };
    }
    listen();
  };
}

function isSame(a: Spot, b: Spot): boolean {
  return a.sheet === b.sheet && a.row === b.row && a.column === b.column;
}
