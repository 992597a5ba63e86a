/** Keeps the file that the workbook was opened from, so that saving can write into it after a reload, too. */
import type { Original } from "./save";

const NAME = "mistwright.original";
const STORE = "file";

function store(mode: IDBTransactionMode): Promise<IDBObjectStore> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onerror = () => reject(request.error ?? new Error("no store"));
    request.onsuccess = () => resolve(request.result.transaction(STORE, mode).objectStore(STORE));
  });
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("the store refused"));
  });
}

/** Keeps a file in place of the one before, as far as the browser has room. */
export async function keepOriginal(original: Original): Promise<void> {
  try {
    await done((await store("readwrite")).put(original, STORE));
  } catch {
    // An older one, of another key, is not taken for this.
    return;
  }
}

export async function recallOriginal(): Promise<Original | null> {
  try {
    return ((await done((await store("readonly")).get(STORE))) as Original | undefined) ?? null;
  } catch {
    return null;
  }
}
