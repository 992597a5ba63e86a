/** Functions that few workbooks ask for, loaded after the others. */
import { type FunctionsHost, type HostCell, type Run, runOf } from "./host.ts";
import type { Listed } from "./listed.ts";

/** A host that waits for an answer: Excel shows #BUSY! until then. */
export interface WaitingHost<E> extends FunctionsHost<E> {
  associate(
    id: string,
    run: (...args: unknown[]) => HostCell<E>[][] | Promise<HostCell<E>[][]>,
  ): void;
}

const NOT_LOADED =
  "this function could not be loaded: when the network is back, enter the formula again, or press " +
  "Ctrl+Alt+F9 for all formulas; where that does not help, close Excel and open the workbook again";

/**
 * Registers functions that are still to be loaded, and begins to load them. A call before they are
 * there is answered when they are; where they cannot be loaded the cell says so, and the next call
 * tries again.
 */
export function associateLate<E>(
  host: WaitingHost<E>,
  ids: readonly string[],
  load: () => Promise<readonly Listed[]>,
): void {
  const runs = new Map<string, Run<E>>();
  const keep = (list: readonly Listed[]) => {
    for (const listed of list) runs.set(listed[0], runOf(host, listed));
  };
  let loading: Promise<void> | undefined;
  const loaded = () =>
    (loading ??= load()
      .then(keep, () => {})
      .finally(() => (loading = undefined)));
  for (const id of ids) {
    const answer = (args: unknown[]) => runs.get(id)?.(...args);
    // The code is the text that the cell shows.
    const notLoaded = () => [[new host.Error("#N/A" as never, NOT_LOADED)]];
    host.associate(
      id,
      (...args) => answer(args) ?? loaded().then(() => answer(args) ?? notLoaded()),
    );
  }
  void loaded();
}
