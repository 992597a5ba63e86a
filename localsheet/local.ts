/** The local sheet: the engine, the functions, the pane, and the work kept in this browser. */
import { Refusal } from "../functions/files/refusal";
import { register } from "../functions/bind/register";
import { mountPane } from "../taskpane/pane/pane";
import { drawingOf } from "../taskpane/sheets/template";
import { functionsHost } from "./custom-functions";
import { ask } from "./dialog";
import { download } from "./download";
import { type Model, engine } from "./engine";
import { forget, keep, recall } from "./keep";
import { LocalWorkbook } from "./local-workbook";
import { bound, openModel } from "./open";
import { keepOriginal, recallOriginal } from "./original";
import { type Original, originOf, saveBook, warningOf } from "./save";
import { startHere } from "./start-here";

declare const owl: {
  mount(component: unknown, target: Element, config: object): Promise<unknown>;
};

/** Wait this long after a change before the work is kept; leaving the page keeps it at once. */
const KEEP_AFTER_MS = 250;

register(functionsHost);

/** The workbook of a first visit. */
async function demoModel(): Promise<Model> {
  const model = newModel({ sheets: [{ id: "start", name: startHere.title }] });
  const spot = { sheet: startHere.title, row: 0, column: 0 };
  await new LocalWorkbook(model).drawAt(spot, drawingOf(startHere, true));
  // Made anew from its data, so that undo does not reach behind the first sight of it.
  return newModel(model.exportData());
}

function newModel(data?: object): Model {
  return new engine.Model(data, { mode: "normal" });
}

async function showModel(model: Model) {
  const templates = await (await fetch("engine/o_spreadsheet.xml")).text();
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  const props = {
    model,
    colorScheme: dark ? "dark" : "light",
    notifyUser: ({ text }: { text: string }) => say(text),
    raiseError: (text: string, done?: () => void) => void ask(text, ["Close"]).then(done),
    askConfirmation: (text: string, yes: () => void, no?: () => void) =>
      void ask(text, ["Yes", "No"]).then((answer) => (answer === "Yes" ? yes() : no?.())),
  };
  await owl.mount(engine.Spreadsheet, byId("sheet"), {
    props,
    templates,
    env: {},
    warnIfNoStaticProps: false,
  });
}

function byId(id: string): HTMLElement {
  return document.getElementById(id) as HTMLElement;
}

function say(text: string, failed = false) {
  byId("kept").textContent = text;
  byId("kept").classList.toggle("failed", failed);
}

/** Keeps every change, a moment after it and when the page goes. */
function keepWork(model: Model): () => void {
  const now = () => {
    window.clearTimeout(timer);
    timer = 0;
    if (keep(model.exportData())) say("Kept in this browser");
    else say("This browser cannot keep the work: save it as a file", true);
  };
  let timer = 0;
  model.on("update", byId("sheet"), () => {
    // Not put off by the next change, so that busy hands are kept too.
    timer ||= window.setTimeout(now, KEEP_AFTER_MS);
  });
  const leave = () => {
    if (timer) now();
  };
  window.addEventListener("pagehide", leave);
  return () => {
    window.clearTimeout(timer);
    window.removeEventListener("pagehide", leave);
  };
}

/** Saves the workbook, into the file that it was opened from where there is one; false when that was refused. */
async function save(model: Model, original: Original | null): Promise<boolean> {
  const { bytes, lost } = await saveBook(model, original);
  if (lost.length > 0 && (await ask(warningOf(lost), ["Save", "Cancel"])) === "Cancel")
    return false;
  const name = original?.key === originOf(model)?.file ? original?.name : undefined;
  download(bytes, name ?? "mistwright.xlsx");
  say(`Saved as ${name ?? "mistwright.xlsx"}`);
  return true;
}

/** Opens a file that was chosen; why it cannot be read stays on the page until it is closed. */
async function open(chosen: File, model: Model, original: Original | null, stop: () => void) {
  try {
    if (chosen.size > LARGEST)
      throw new Refusal(`${chosen.name} is larger than the local sheet can hold (100 MB).`);
    const bytes = new Uint8Array(await chosen.arrayBuffer());
    const opened = openModel(bytes);
    const key = opened.model.uuidGenerator.uuidv4();
    const what = [
      chosen.name,
      ...opened.hidden.map((each) => `(${each} not shown, but kept in the file)`),
    ];
    await replace(model, original, stop, what.join(" "), async () => {
      const data = bound(opened.model, key);
      // Where the browser cannot keep the file, saving tells what the new one lacks.
      await keepOriginal({ key, name: chosen.name, bytes, data });
      return data;
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await ask(error.message, ["Close"]);
  }
}

/** Bytes of a file: a page that is handed a larger one may not come back. */
const LARGEST = 100 * 2 ** 20;

/** Puts another workbook in place of this one, after asking; the page then starts from it. */
async function replace(
  model: Model,
  original: Original | null,
  stop: () => void,
  what: string,
  next: () => Promise<object | null>,
) {
  const question = `${what} takes the place of the workbook on the screen.`;
  const answer = await ask(question, ["Save this one first", "Go on", "Cancel"]);
  if (answer === "Cancel") return;
  if (answer === "Save this one first" && !(await save(model, original))) return;
  const data = await next();
  stop();
  if (!data) forget();
  else if (!keep(data)) return say("This browser cannot hold that workbook", true);
  location.reload();
}

async function start() {
  const kept = recall();
  const original = await recallOriginal();
  const model = kept ? newModel(kept) : await demoModel();
  await showModel(model);
  // For the browser tests, and for whoever wants to look inside from the console.
  Object.assign(globalThis, { localSheet: { model } });
  const stop = keepWork(model);
  const bytes = async () => (await saveBook(model, original)).bytes;
  mountPane(byId("pane"), new LocalWorkbook(model, bytes));
  const file = byId("file") as HTMLInputElement;
  const guard = (action: () => Promise<unknown>) => async () => {
    try {
      await action();
    } catch (error) {
      say(error instanceof Error ? error.message : String(error), true);
    }
  };
  byId("save").addEventListener(
    "click",
    guard(() => save(model, original)),
  );
  byId("open").addEventListener("click", () => file.click());
  byId("anew").addEventListener(
    "click",
    guard(() => replace(model, original, stop, "The first sheet of the demo", async () => null)),
  );
  file.addEventListener(
    "change",
    guard(async () => {
      const chosen = file.files?.[0];
      file.value = "";
      if (!chosen) return;
      await open(chosen, model, original, stop);
    }),
  );
}

void start();
