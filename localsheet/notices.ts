/** Sentences to the person, over the foot of the sheet. They stay until they are closed. */
import { element, found } from "../taskpane/pane/elements.ts";
import { stayInSight } from "./around.ts";

/** More would cover the sheet. */
const AT_MOST = 3;

export interface Answer {
  text: string;
  then: () => unknown;
}

let count = 0;

const box = () => found("#notices", HTMLElement);

/** Shows a sentence, with buttons for what can be done about it. */
export function notice(text: string, answers: Answer[] = []): void {
  const same = [...box().children].find((old) => old.querySelector("p")?.textContent === text);
  same?.remove();
  show(text, answers);
}

/** A doubt about what was typed: the next entry takes it away, with its own doubt or without one. */
export function doubt(text: string | undefined): void {
  box().querySelector(".doubt")?.remove();
  if (text) show(text, []).classList.add("doubt");
}

function show(text: string, answers: Answer[]): HTMLElement {
  const id = `notice-${++count}`;
  const shown = element("div", { class: "notice" }, element("p", { id }, text));
  const close = () => {
    shown.remove();
    stayInSight();
  };
  for (const { text: label, then } of [...answers, { text: "Close", then: close }]) {
    // Several messages may be there: each button says which it is of.
    const look = { type: "button", class: "page-button", "aria-describedby": id } as const;
    const button = element("button", look, label);
    button.addEventListener("click", then);
    shown.append(button);
  }
  box().prepend(shown);
  for (const old of [...box().children].slice(AT_MOST)) old.remove();
  return shown;
}
