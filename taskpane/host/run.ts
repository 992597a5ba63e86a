/** Batches of orders for Excel: those that only read, and those that change something. */

/** True where Excel has a set of its own API. */
export function isSupported(version: string): boolean {
  return Office.context.requirements.isSetSupported("ExcelApi", version);
}

type Batch<T> = (context: Excel.RequestContext) => Promise<T>;

/** Orders that change nothing, and so leave the steps of undo alone. */
export function read<T>(batch: Batch<T>): Promise<T> {
  return Excel.run(batch);
}

/**
 * Orders that change something, as one step of undo where Excel can do that (ExcelApi 1.20). Excel refuses
 * it for much at once and for what it cannot take back (UndoNotSupported): then they are given once more
 * without. So a batch that fails must put back what it changed.
 */
export async function write<T>(batch: Batch<T>): Promise<T> {
  if (!isSupported("1.20")) return Excel.run(batch);
  try {
    return await Excel.run({ mergeUndoGroup: true }, batch);
  } catch (error) {
    if (!(error instanceof OfficeExtension.Error)) throw error;
    return Excel.run(batch);
  }
}

/** What Excel said, for a sentence. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
