/** Keeps the file that the workbook was opened from, so that saving can write into it after a reload, too. */
import { type UseStore, createStore, get, set } from "idb-keyval";
import type { Original } from "./save.ts";

const KEY = "file";

let opened: UseStore | undefined;
function store(): UseStore {
  return (opened ??= createStore("mistwright.original", "file"));
}

/** Keeps a file in place of the one before, where the browser has room and does not refuse. */
export async function keepOriginal(original: Original): Promise<void> {
  try {
    await set(KEY, original, store());
  } catch {
    // Saving finds it missing, and says so.
  }
}

export async function recallOriginal(): Promise<Original | null> {
  try {
    return (await get<Original>(KEY, store())) ?? null;
  } catch {
    return null;
  }
}
