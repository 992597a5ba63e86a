/**
 * Keeps the work in the browser over a reload.
 *
 * localStorage, because it has written when the call returns: a reload the moment after a keystroke
 * loses nothing. (idb-keyval was looked at; IndexedDB may not finish while a page is closing.)
 */
const KEY = "mistwright.workbook";

/** The kept workbook, or null. A damaged one is set aside under another key, never thrown away. */
export function recall(): object | null {
  const text = localStorage.getItem(KEY);
  if (text === null) return null;
  try {
    return JSON.parse(text) as object;
  } catch {
    localStorage.setItem(`${KEY}.damaged`, text);
    return null;
  }
}

/** Keeps the workbook; false when the browser has no room or refuses. */
export function keep(workbook: object): boolean {
  try {
    localStorage.setItem(KEY, JSON.stringify(workbook));
    return true;
  } catch {
    return false;
  }
}

export function forget(): void {
  localStorage.removeItem(KEY);
}
