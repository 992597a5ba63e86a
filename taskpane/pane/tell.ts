/** The pane's status line. */

/** Runs something a button asks for and tells the outcome, good or bad, in the pane's status line. */
export type Tell = (action: () => Promise<string>) => Promise<void>;

export function tellIn(status: HTMLElement): Tell {
  return async (action) => {
    status.className = "status";
    status.textContent = "Working...";
    try {
      status.textContent = await action();
      status.classList.add("done");
    } catch (error) {
      status.textContent = error instanceof Error ? error.message : String(error);
      status.classList.add("failed");
    }
  };
}
