/** Opens the kept workbook as well as it can be, and says what could not be opened. */
import type { Message, Model } from "./engine.ts";
import {
  type Kept,
  type Recalled,
  isNewer,
  isWhole,
  recall,
  replaceKept,
  setAside,
} from "./keep.ts";

export interface Opening {
  model: Model;
  /** Whether changes may be kept: not over a workbook that a newer version wrote, nor without a store. */
  isKept: boolean;
  /** What opened, to fall back on another time. */
  good?: Kept;
  /** The changes after it that opened with it. */
  changes?: Message[];
  /** What the person should know. */
  trouble?: string;
  /** What did not open, to be saved as a file. */
  unread?: unknown;
}

type Make = (data: object, changes: Message[]) => Model;

const BLOCKED =
  "This browser does not let the page keep work (a private window, or its store is switched off). What you do here is gone when you close it: save it as a file.";
const NEWER =
  "The workbook in this browser was kept by a newer Mistwright, and is left as it is. Update Mistwright to open it. What you see is the demo, and is not kept.";
const DAMAGED =
  "The workbook in this browser is damaged and does not open. It was set aside, and can be saved as a file for someone to mend.";

export async function openKept(
  demo: () => Promise<object>,
  make: Make,
  writes: boolean,
): Promise<Opening> {
  let recalled: Recalled;
  try {
    recalled = await recall();
  } catch {
    return { model: make(await demo(), []), isKept: false, trouble: BLOCKED };
  }
  const { kept } = recalled;
  if (!kept) return { model: make(await firstKept(demo, writes), []), isKept: true };
  if (isNewer(kept))
    return { model: make(await demo(), []), isKept: false, trouble: NEWER, unread: kept };
  return opened(kept, recalled.changes, make) ?? damaged({ ...recalled, kept }, demo, make, writes);
}

/** The demo, kept before it is seen: the first change is put aside as what follows it. */
async function firstKept(demo: () => Promise<object>, writes: boolean): Promise<object> {
  const data = await demo();
  // A store that is full says so at the first change.
  if (writes) await replaceKept(data).catch(() => undefined);
  return data;
}

/** The workbook with the changes after it; without them where they do not fit. */
function opened(kept: Kept, changes: Message[], make: Make): Opening | undefined {
  if (!isWhole(kept)) return undefined;
  try {
    return { model: make(kept.data, changes), isKept: true, good: kept, changes };
  } catch {
    if (changes.length === 0) return undefined;
  }
  const trouble = `The last ${changes.length} changes before the page was closed could not be read. All before them is here.`;
  const whole = opened(kept, [], make);
  return whole && { ...whole, trouble, unread: changes };
}

async function damaged(
  { kept, before }: Recalled & { kept: Kept },
  demo: () => Promise<object>,
  make: Make,
  writes: boolean,
): Promise<Opening> {
  await setAside(kept).catch(() => undefined);
  const last = before && !isNewer(before) ? opened(before, [], make) : undefined;
  if (last) {
    if (writes) await replaceKept(last.good?.data ?? null).catch(() => undefined);
    const trouble = `${DAMAGED} What you see is the workbook as it was when it last opened.`;
    return { ...last, trouble, unread: kept };
  }
  const trouble = `${DAMAGED} What you see is the demo.`;
  // The changes that are still aside followed the damaged one.
  return { model: make(await firstKept(demo, writes), []), isKept: true, trouble, unread: kept };
}
