/** The most of what is read off each; 0 of none. Math.max takes no more arguments than a call has room for. */
export function most<T>(all: readonly T[], of: (each: T) => number): number {
  return all.reduce((high, each) => Math.max(high, of(each)), 0);
}
