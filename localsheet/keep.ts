/**
 * Keeps the work in this browser: the whole workbook in IndexedDB (through idb-keyval), and each change
 * since then in localStorage, which has written when the call returns. So a page that is closed or
 * killed the moment after a keystroke loses nothing, and a long workbook is not written at every key.
 *
 * The changes are the engine's own messages to the others at a shared sheet; it replays them on opening.
 */
import { type UseStore, createStore, del, get, set } from "idb-keyval";
import { type Message, type Model, engine } from "./engine.ts";

/** How this page writes a kept workbook down. A higher number was written by a newer Mistwright. */
const FORMAT = 1;

/** The whole is written this long after the last change, or after the first of many. */
const QUIET_MS = 700;
const AT_LATEST_MS = 5000;

/**
 * A long workbook takes seconds to write, and the page stands still meanwhile: it is written when the
 * page is out of sight, or after a longer rest. The changes beside it hold the work until then.
 */
const SLOW_MS = 150;
/** So many cells take longer than that; which is known before the first write, that it stops no one at a key. */
const MANY_CELLS = 10_000;
const LONG_REST_MS = 60_000;

/** Changes that take more room than this are not put aside one by one: the whole is written at once. */
const ROOM_FOR_CHANGES = 1_000_000;

const CHANGES = "mistwright.changes";
/** The whole after an undo of what the last whole held, until it is written: a change cannot say that. */
const WHOLE = "mistwright.whole";
/** Where versions before this one kept all. */
const OLD_KEY = "mistwright.workbook";

export interface Kept {
  format: number;
  revision: string;
  data: object;
}

export interface Recalled {
  kept?: Kept | undefined;
  changes: Message[];
  /** The workbook that opened last, should the kept one not. */
  before?: Kept | undefined;
}

/** The browser's store, opened once; a promise that fails where the browser blocks it. */
let opened: UseStore | undefined;
function store(): UseStore {
  return (opened ??= createStore("mistwright", "workbook"));
}

export async function recall(): Promise<Recalled> {
  const kept = wholeAside() ?? (await get<Kept>("workbook", store())) ?? oldKept();
  const before = await get<Kept>("before", store());
  return { kept, before, changes: kept ? changesSince(kept.revision) : [] };
}

function wholeAside(): Kept | undefined {
  try {
    // This page wrote it down; whether it is a workbook is seen when it is opened.
    return (JSON.parse(localStorage.getItem(WHOLE) ?? "null") as Kept | null) ?? undefined;
  } catch {
    return undefined;
  }
}

/** A workbook that an older version kept; a text that is no workbook is left for whoever looks at it. */
function oldKept(): Kept | undefined {
  const text = localStorage.getItem(OLD_KEY);
  if (text === null) return undefined;
  try {
    // Whether it is a workbook is seen when it is opened.
    return keptOf(JSON.parse(text) as object);
  } catch {
    return { format: FORMAT, revision: "", data: { damaged: text } };
  }
}

/** The changes that follow a revision; none of them where the chain is broken. */
function changesSince(revision: string): Message[] {
  try {
    // This page wrote them down.
    const all = JSON.parse(localStorage.getItem(CHANGES) ?? "[]") as Message[];
    const first = all.findIndex((change) => change.serverRevisionId === revision);
    return first < 0 ? [] : all.slice(first);
  } catch {
    return [];
  }
}

export function isNewer({ format }: Kept): boolean {
  return format > FORMAT;
}

/** Whether it has what every workbook has: the engine makes an empty one of anything else. */
export function isWhole({ data }: { data: unknown }): boolean {
  const isSheet = (sheet: { id?: unknown; name?: unknown } | null) =>
    typeof sheet?.id === "string" && typeof sheet.name === "string";
  return (
    typeof data === "object" &&
    data !== null &&
    "sheets" in data &&
    Array.isArray(data.sheets) &&
    data.sheets.length > 0 &&
    data.sheets.every(isSheet)
  );
}

/** Sets a workbook that does not open aside, and keeps the one that does as the last good one. */
export async function setAside(kept: Kept): Promise<void> {
  await set("damaged", kept, store());
}

export async function rememberGood(kept: Kept): Promise<void> {
  await set("before", kept, store());
}

/** Puts another workbook in place of the kept one; null for none, which starts from the demo. */
export async function replaceKept(data: object | null): Promise<void> {
  if (data) await set("workbook", keptOf(data), store());
  else await del("workbook", store());
  localStorage.removeItem(WHOLE);
  localStorage.removeItem(CHANGES);
  localStorage.removeItem(OLD_KEY);
}

function keptOf(data: object): Kept {
  const { revisionId = "" }: { revisionId?: string } = data;
  return { format: FORMAT, revision: revisionId, data };
}

type Local = InstanceType<typeof engine.LocalTransportService>;

/** Hears every change of the workbook, as one who shares the sheet would. */
export class Transport extends engine.LocalTransportService {
  heard: (message: Message) => void = () => undefined;

  override async sendMessage(message: Parameters<Local["sendMessage"]>[0]): Promise<void> {
    const sent = super.sendMessage(message);
    // A move of the selection has no revision: nothing to keep.
    if ("nextRevisionId" in message) this.heard(message);
    return sent;
  }
}

const withText = (message: Message) => ({ message, text: JSON.stringify(message) });

function cellsIn({ getters }: Model): number {
  return getters.getSheetIds().reduce((sum, id) => sum + getters.getCells(id).length, 0);
}

/** Writes one workbook down, as it changes. */
export class Keeper {
  private changes: ReturnType<typeof withText>[] = [];
  private timer = 0;
  private dirtySince = 0;
  private isSlow = false;
  /** How many times the whole was put aside. */
  private asides = 0;
  private writing: Promise<void> = Promise.resolve();
  private stopped = true;

  constructor(
    private readonly model: Model,
    transport: Transport,
    private readonly told: (isKept: boolean) => void,
    /** What was recalled beside the whole: it stays there until a whole holds it. */
    recalled: readonly Message[],
  ) {
    this.changes = recalled.map(withText);
    this.isSlow = cellsIn(model) > MANY_CELLS;
    transport.heard = (message) => this.changed(message);
    this.start();
  }

  start(): void {
    this.stopped = false;
    window.addEventListener("pagehide", this.leaving);
    document.addEventListener("visibilitychange", this.leaving);
  }

  /** Writes what is not yet written. */
  async flush(): Promise<void> {
    if (this.dirtySince) await this.writeAll();
    await this.writing;
  }

  /** No more is written: another tab writes now, or another workbook takes the place. */
  stop(): void {
    this.stopped = true;
    window.clearTimeout(this.timer);
    window.removeEventListener("pagehide", this.leaving);
    document.removeEventListener("visibilitychange", this.leaving);
  }

  private readonly leaving = () => {
    if (document.visibilityState === "hidden" && this.dirtySince) void this.writeAll();
  };

  private changed(message: Message): void {
    if (this.stopped) return;
    this.changes.push(withText(message));
    this.dirtySince ||= Date.now();
    const isAside = this.isOfWhole(message) ? this.putWholeAside() : this.putAside();
    if (isAside) this.told(true);
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => void this.writeAll(), isAside ? this.rest() : 0);
  }

  private rest(): number {
    if (this.isSlow) return LONG_REST_MS;
    return Math.max(0, Math.min(QUIET_MS, this.dirtySince + AT_LATEST_MS - Date.now()));
  }

  /** Whether it takes back, or makes again, a change that the last whole holds. */
  private isOfWhole(message: Message): boolean {
    const id =
      message.type === "REVISION_UNDONE"
        ? message.undoneRevisionId
        : message.type === "REVISION_REDONE"
          ? message.redoneRevisionId
          : undefined;
    return id !== undefined && !this.changes.some(({ message }) => message.nextRevisionId === id);
  }

  private putWholeAside(): boolean {
    try {
      localStorage.setItem(WHOLE, JSON.stringify(keptOf(this.model.exportData())));
      this.asides += 1;
      this.changes = [];
      localStorage.removeItem(CHANGES);
      return true;
    } catch {
      return false;
    }
  }

  /** Puts the changes since the last whole beside it; false where there is no room. */
  private putAside(): boolean {
    const text = `[${this.changes.map((change) => change.text).join(",")}]`;
    try {
      if (text.length > ROOM_FOR_CHANGES) return false;
      localStorage.setItem(CHANGES, text);
      return true;
    } catch {
      return false;
    }
  }

  private writeAll(): Promise<void> {
    window.clearTimeout(this.timer);
    this.dirtySince = 0;
    this.writing = this.writing.then(() => this.writeWhole());
    return this.writing;
  }

  private async writeWhole(): Promise<void> {
    if (this.stopped) return;
    const began = performance.now();
    const { asides } = this;
    const kept = keptOf(this.model.exportData());
    this.isSlow = performance.now() - began > SLOW_MS;
    try {
      await set("workbook", kept, store());
    } catch {
      // The last whole still stands; the changes beside it may or may not.
      this.told(false);
      return;
    }
    // Another tab may have taken over meanwhile.
    if (this.isStopped()) return;
    const done = this.changes.findIndex(({ message }) => message.nextRevisionId === kept.revision);
    this.changes = this.changes.slice(done + 1);
    // One that was put aside meanwhile is newer than what was written.
    if (this.asides === asides) this.forgetChanges();
    this.told(true);
  }

  private isStopped(): boolean {
    return this.stopped;
  }

  private forgetChanges(): void {
    try {
      if (this.changes.length > 0) this.putAside();
      else localStorage.removeItem(CHANGES);
      localStorage.removeItem(WHOLE);
      localStorage.removeItem(OLD_KEY);
    } catch {
      // Changes that are in the whole already are passed over on opening.
    }
  }
}
