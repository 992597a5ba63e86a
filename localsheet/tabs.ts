/**
 * One tab writes the kept workbook, any other reads: two that wrote would each undo the other's work.
 * Web Locks say which; where the page is served without https from another machine there are none, and
 * the tabs ask each other instead.
 */
const NAME = "mistwright.workbook";

/** A page that is being left holds its lock a moment longer than its successor takes to ask. */
const PATIENCE_MS = 800;
/** A tab that sleeps does not answer: then the lock is taken from it. */
const TAKE_AFTER_MS = 3000;

const channel = new BroadcastChannel(NAME);

export interface Writer {
  /** Whether this tab is the one that writes. */
  writes: boolean;
}

/** Missing where the page is not secure, whatever the types say. */
function locks(): LockManager | undefined {
  const { locks }: Partial<Navigator> = navigator;
  return locks;
}

let release: () => void = () => undefined;

/** Asks to be the tab that writes. `lost` is called once when another tab takes over. */
export async function claim(lost: () => Promise<void>): Promise<Writer> {
  const writes = locks() ? await hold({ signal: after(PATIENCE_MS) }, lost) : await noneAnswers();
  if (writes) answerOthers(lost);
  return { writes };
}

/** Takes the writing over from the other tab, which writes what it has first. */
export async function takeOver(): Promise<void> {
  channel.postMessage("hand over");
  if (!locks()) return handedOver();
  const waited = await hold({ signal: after(TAKE_AFTER_MS) }, async () => undefined);
  if (!waited) await hold({ steal: true }, async () => undefined);
}

/** Holds the lock until it is released or taken; false when it was not had in time. */
function hold(options: LockOptions, lost: () => Promise<void>): Promise<boolean> {
  return new Promise((resolve) => {
    const held = navigator.locks.request(NAME, options, () => {
      resolve(true);
      return new Promise<void>((done) => (release = done));
    });
    held.catch((error: unknown) => {
      resolve(false);
      // Taken from us; a wait that ran out is a TimeoutError.
      if (error instanceof Error && error.name === "AbortError") void lost();
    });
  });
}

function after(ms: number): AbortSignal {
  return AbortSignal.timeout(ms);
}

function answerOthers(lost: () => Promise<void>) {
  let writes = true;
  channel.addEventListener("message", async ({ data }) => {
    if (!writes) return;
    if (data === "who writes?") channel.postMessage("I do");
    if (data !== "hand over") return;
    writes = false;
    await lost();
    release();
    channel.postMessage("handed over");
  });
}

function noneAnswers(): Promise<boolean> {
  channel.postMessage("who writes?");
  return heard("I do", PATIENCE_MS).then((answered) => !answered);
}

async function handedOver(): Promise<void> {
  await heard("handed over", TAKE_AFTER_MS);
}

function heard(word: string, ms: number): Promise<boolean> {
  return new Promise((resolve) => {
    const listen = ({ data }: MessageEvent) => data === word && finish(true);
    const finish = (answer: boolean) => {
      channel.removeEventListener("message", listen);
      resolve(answer);
    };
    channel.addEventListener("message", listen);
    window.setTimeout(() => finish(false), ms);
  });
}
