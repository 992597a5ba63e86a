/** A day as a sheet counts days, from the end of 1899; `utc` are the milliseconds at which it begins. */
export function serialOf(utc: number): number {
  return utc / 86_400_000 + 25_569;
}
