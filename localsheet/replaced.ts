/** Keeps the workbook that another took the place of, with the file that it came from: it can be had back. */
import { type UseStore, createStore, del, get, set } from "idb-keyval";
import { keepOriginal } from "./original.ts";
import type { Original } from "./save.ts";

interface Replaced {
  data: object;
  original: Original | null;
}

const KEY = "workbook";
/** Whether the person has yet to be told of it. */
const NEWS = "news";

let opened: UseStore | undefined;
function store(): UseStore {
  return (opened ??= createStore("mistwright.replaced", "workbook"));
}

/** Keeps it in place of the one before; where there is no room, there is none to be had back. */
export async function keepReplaced(replaced: Replaced): Promise<void> {
  try {
    await set(KEY, replaced, store());
    await set(NEWS, true, store());
  } catch {
    await del(KEY, store()).catch(() => undefined);
  }
}

/** The data of the replaced workbook, its file kept again. */
export async function broughtBack(): Promise<object> {
  const replaced = await get<Replaced>(KEY, store()).catch(() => undefined);
  if (!replaced) throw new Error("The workbook that stood here before is not kept any more.");
  if (replaced.original) await keepOriginal(replaced.original);
  return replaced.data;
}

/** Whether a workbook was replaced since this was last asked. */
export async function wasReplaced(): Promise<boolean> {
  try {
    const isNews = (await get<boolean>(NEWS, store())) ?? false;
    if (isNews) await del(NEWS, store());
    return isNews;
  } catch {
    return false;
  }
}
