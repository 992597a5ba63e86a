/** Hours as people write them, for a cell whose format puts an h behind its number. */
const HOURS = /^([\d.,]+)\s*h(?:ou)?(?:rs?)?$/i;
const MINUTES = /^([\d.,]+)\s*m(?:in(?:ute)?s?)?$/i;
const BOTH = /^(\d+)\s*(?::|h(?:ou)?(?:rs?)?)\s*([0-5]?\d)\s*(?:m(?:in(?:ute)?s?)?)?$/i;

/** How many hours are meant by `2 h`, `90 min` or `1:30`; undefined where the format or the text is another. */
export function hoursIn(
  typed: string,
  format: string,
  numberIn: (figures: string) => number | undefined,
): number | undefined {
  if (!/" ?h"$/.test(format)) return undefined;
  const [, hours] = HOURS.exec(typed) ?? [];
  if (hours) return numberIn(hours);
  const [, minutes] = MINUTES.exec(typed) ?? [];
  if (minutes) return sixtieth(numberIn(minutes));
  const [, whole, rest] = BOTH.exec(typed) ?? [];
  return whole && rest ? Number(whole) + Number(rest) / 60 : undefined;
}

const sixtieth = (minutes: number | undefined) => minutes && minutes / 60;
