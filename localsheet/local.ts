/** The local sheet: the engine, the functions, the pane, and the work kept in this browser. */
import "./words.ts";
import "./menus.ts";
import { register } from "../functions/bind/register.ts";
import { Refusal } from "../functions/files/refusal.ts";
import { found } from "../taskpane/pane/elements.ts";
import { mountPane } from "../taskpane/pane/pane.ts";
import { drawingOf } from "../taskpane/sheets/drawing.ts";
import { goAround } from "./around.ts";
import { composing } from "./composing.ts";
import { languageOf } from "./language.ts";
import { functionsHost } from "./custom-functions.ts";
import { ask } from "./dialog.ts";
import { giveText, giveWorkbook } from "../taskpane/host/give.ts";
import { type Message, type Model, engine } from "./engine.ts";
import { keepPage } from "./kept-page.ts";
import { Keeper, Transport, rememberGood, replaceKept } from "./keep.ts";
import { LocalWorkbook } from "./local-workbook.ts";
import { doubt, notice } from "./notices.ts";
import { bound, openModel } from "./open.ts";
import { type Opening, openKept } from "./opening.ts";
import { keepOriginal, recallOriginal } from "./original.ts";
import { finishTyping, focusSheet, mountSheet } from "./page.ts";
import { broughtBack, keepReplaced, wasReplaced } from "./replaced.ts";
import { type Original, originOf, saveBook, warningOf } from "./save.ts";
import { startHere } from "./start-here.ts";
import { claim, takeOver } from "./tabs.ts";

register(functionsHost);

const EMPTY = { sheets: [{ id: "sheet1", name: "Sheet1" }] };

/** The workbook of a first visit. */
async function demoData(): Promise<object> {
  const model = newModel({
    sheets: [{ id: "start", name: startHere.title }],
    // One page wide, numbered.
    mistwrightPages: { start: {} },
  });
  const spot = { sheet: startHere.title, row: 0, column: 0 };
  await new LocalWorkbook(model).drawAt(spot, drawingOf(startHere, true));
  // Made anew from its data, so that undo does not reach behind the first sight of it.
  return model.exportData();
}

function newModel(
  data?: object,
  changes: Message[] = [],
  transportService = new Transport(),
): Model {
  return new engine.Model(data, { mode: "normal", transportService }, changes);
}

async function showModel(model: Model) {
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  await mountSheet(byId("sheet"), {
    model,
    colorScheme: dark ? "dark" : "light",
    // The engine's texts are objects until they are shown.
    notifyUser: ({ text }: { text: unknown }) => notice(String(text)),
    raiseError: (text: unknown, done?: () => void) => void tellThen(String(text), done),
    askConfirmation: (text: string, yes: () => void, no?: () => void) =>
      void ask(text, ["Yes", "No"]).then((answer) => (answer === "Yes" ? yes() : no?.())),
  });
}

async function tellThen(text: string, done?: () => void) {
  await ask(text, ["Close"]);
  done?.();
  focusSheet();
}

function byId(id: string): HTMLElement {
  return found(`#${id}`, HTMLElement);
}

function say(text: string, failed = false) {
  byId("kept").textContent = text;
  byId("kept").classList.toggle("failed", failed);
}

const NOT_KEPT =
  "This browser cannot keep the work: its store is full, or switched off. Save it as a file before you close the page.";

function tellKept(sheet: OnScreen, isKept: boolean) {
  say(isKept ? "Kept in this browser" : "Not kept: save it as a file", !isKept);
  if (!isKept) notice(NOT_KEPT, [{ text: "Save .xlsx", then: () => save(sheet) }]);
}

/** Saves into the file that was opened, where there is one; false when the person thought better of it. */
async function save({ model, opened }: OnScreen): Promise<boolean> {
  const original = await opened;
  const { bytes, lost } = await saveBook(model, original);
  if (lost.length > 0 && (await ask(warningOf(lost), ["Save", "Cancel"])) === "Cancel")
    return false;
  const isOurs = original !== null && original.key === originOf(model)?.file;
  const name = isOurs ? original.name : "mistwright.xlsx";
  giveWorkbook(bytes, name);
  say(`Saved as ${name}`);
  return true;
}

const ONLY_READS = "This tab only reads. Take over first: then it can be replaced.";

/** A workbook to put in place of the one on the screen, or null for the demo. */
type Next = () => object | null | Promise<object | null>;

/** Puts another workbook in place of this one, after asking; the page then starts from it. */
async function replace(sheet: OnScreen, question: string, choices: Record<string, Next>) {
  if (!sheet.keeper) throw new Error(ONLY_READS);
  const saving = "Save this one first";
  const [first, ...more] = [...Object.keys(choices), saving, "Cancel"];
  const answer = await ask(question, [first, ...more]);
  if (answer === saving) {
    if (await save(sheet)) return replace(sheet, question, choices);
    return;
  }
  const next = choices[answer];
  if (next) await putInPlace(sheet, next);
}

/** The page starts from the next workbook; the one on the screen is kept beside it. */
async function putInPlace({ keeper, model, opened }: OnScreen, next: Next) {
  if (!keeper) throw new Error(ONLY_READS);
  const original = await opened;
  const data = await next();
  await keeper.flush();
  keeper.stop();
  try {
    await replaceKept(data);
  } catch {
    keeper.start();
    throw new Error("This browser cannot hold that workbook. The one on the screen stays.");
  }
  await keepReplaced({ data: model.exportData(), original });
  location.reload();
}

async function offerBack(sheet: OnScreen) {
  if (!(await wasReplaced())) return;
  const back = () =>
    putInPlace(sheet, broughtBack).catch((error: unknown) => notice(String(error)));
  notice("This workbook took the place of another, which can be had back.", [
    { text: "Bring back", then: back },
  ]);
}

/** The workbook on the screen; without a keeper, this tab only reads. */
interface OnScreen {
  model: Model;
  keeper?: Keeper | undefined;
  /** The file that it was opened from; only saving waits for it. */
  opened: Promise<Original | null>;
}

/** Bytes of a file: a page that is handed a larger one may not come back. */
const LARGEST = 100 * 2 ** 20;

/** Opens a file that was chosen; why it cannot be read stays on the page until it is closed. */
async function open(chosen: File, sheet: OnScreen) {
  try {
    if (chosen.size > LARGEST)
      throw new Refusal(`${chosen.name} is larger than the local sheet can hold (100 MB).`);
    const bytes = new Uint8Array(await chosen.arrayBuffer());
    const opened = openModel(bytes);
    const question = [
      `${chosen.name} takes the place of the workbook on the screen.`,
      ...opened.hidden,
    ].join(" ");
    await replace(sheet, question, {
      "Go on": async () => {
        const key = opened.model.uuidGenerator.uuidv4();
        const data = bound(opened, key);
        // Where the browser cannot keep the file, saving tells what the new one lacks.
        await keepOriginal({ key, name: chosen.name, bytes, data });
        return data;
      },
    });
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    await ask(error.message, ["Close"]);
  }
}

/** The newer version opens the workbook as it is now. */
function offerNewer(sheet: OnScreen, take: () => void) {
  const flush = async () => {
    finishTyping();
    await sheet.keeper?.flush();
    take();
  };
  notice("A newer Mistwright is there.", [{ text: "Use it now", then: () => void flush() }]);
}

/** Another tab writes: this one shows, and can take over. */
function onlyRead(model: Model) {
  model.updateMode("readonly");
  say("Reads only: open in another tab");
  notice(
    "This workbook is open in another tab, which keeps it. This tab only reads, so that no edit is lost.",
    [{ text: "Take over here", then: () => void takeOver().then(() => location.reload()) }],
  );
}

/** Says what was wrong with the kept workbook, and gives it as a file to whoever can mend it. */
function tellOpening({ trouble, unread }: Opening) {
  if (!trouble) return;
  const give = () => giveText(JSON.stringify(unread), "application/json", "mistwright-kept.json");
  notice(trouble, unread ? [{ text: "Save it as a file", then: give }] : []);
}

async function start() {
  composing.language = languageOf(navigator.language);
  composing.doubt = doubt;
  const opened = recallOriginal();
  let sheet: OnScreen | null = null;
  const { writes } = await claim(async () => {
    finishTyping();
    if (!sheet) return;
    await sheet.keeper?.flush();
    sheet.keeper?.stop();
    sheet.keeper = undefined;
    onlyRead(sheet.model);
  });
  const transport = new Transport();
  const make = (data: object, changes: Message[]) => newModel(data, changes, transport);
  const opening = await openKept(demoData, make, writes);
  const { model } = opening;
  sheet = { model, opened };
  await showModel(model);
  // For the browser tests, and for whoever wants to look inside from the console.
  Object.assign(globalThis, { localSheet: { model } });
  const bytes = async () => (await saveBook(model, await opened)).bytes;
  mountPane(byId("pane"), new LocalWorkbook(model, showSheet, bytes));
  tellOpening(opening);
  if (!writes) onlyRead(model);
  else if (opening.isKept) {
    const told = (isKept: boolean) => tellKept(sheet, isKept);
    sheet.keeper = new Keeper(model, transport, told, opening.changes ?? []);
    void offerBack(sheet);
    if (opening.good) void rememberGood(opening.good).catch(() => undefined);
  } else say("Not kept", true);
  bindButtons(sheet);
  // A browser that refuses it shows the page all the same.
  void keepPage((take) => offerNewer(sheet, take)).catch(() => undefined);
}

/** On a narrow screen the sheet comes into sight; on any, it has the keyboard. */
function showSheet() {
  turn("sheet");
  focusSheet();
}

function turn(side: "sheet" | "pane") {
  document.body.dataset.shows = side;
  byId("turn").textContent = side === "sheet" ? "Pane" : "Sheet";
}

function bindButtons(sheet: OnScreen) {
  const file = found("#file", HTMLInputElement);
  const on = (id: string, event: string, action: () => Promise<unknown>) =>
    byId(id).addEventListener(event, () =>
      action().catch((error: unknown) =>
        notice(error instanceof Error ? error.message : String(error)),
      ),
    );
  on("save", "click", () => save(sheet));
  on("open", "click", async () => file.click());
  on("turn", "click", async () => turn(document.body.dataset.shows === "pane" ? "sheet" : "pane"));
  on("anew", "click", () =>
    replace(sheet, "Another workbook takes the place of the one on the screen. Which?", {
      "The demo": () => null,
      "An empty workbook": () => newModel(EMPTY).exportData(),
    }),
  );
  on("file", "change", async () => {
    const chosen = file.files?.[0];
    file.value = "";
    if (!chosen) return;
    await open(chosen, sheet);
  });
}

turn("sheet");
goAround(turn);
void start();
