/** Asks a question on the page, with its answers as buttons. */
import { element, found } from "../taskpane/pane/elements.ts";

/** Resolves to the answer that was pressed; Escape is the last one. */
export function ask<T extends string>(question: string, answers: readonly [T, ...T[]]): Promise<T> {
  const dialog = found("#ask", HTMLDialogElement);
  const text = found("p", HTMLElement, dialog);
  const buttons = found(".answers", HTMLElement, dialog);
  text.textContent = question;
  buttons.replaceChildren(
    ...answers.map((answer) => element("button", { value: answer, class: "page-button" }, answer)),
  );
  dialog.returnValue = "";
  dialog.showModal();
  return new Promise((resolve) => {
    const last = answers.at(-1) ?? answers[0];
    const done = () => resolve(answers.find((answer) => answer === dialog.returnValue) ?? last);
    dialog.addEventListener("close", done, { once: true });
  });
}
