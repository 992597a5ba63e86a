/** How long a base lasts, of all lines of the log that were sprayed there: a formula for any sheet. */

/** The log's columns as this sheet names them, and as another does. */
export const HERE = "";
export const THERE = "Spray trial log!";

/** What is counted of a base: its lines, those that have hours, those that outlast the hours scored. */
export function linesOf(base: string, where: string, sheet: string) {
  const these = `{${sheet}log.base},${base},{${sheet}log.where},"${where}"`;
  const all = `COUNTIFS(${these})`;
  const over = `COUNTIFS(${these},{${sheet}log.counts},"over*")`;
  const counted = `(COUNTIFS(${these},{${sheet}log.counts},">=0")+${over})`;
  const sum = `(SUMIFS({${sheet}log.counts},${these})+${over}*{${sheet}longest})`;
  return { all, over, counted, mean: `${sum}/${all}` };
}

/** Hours that a base lasts: the mean of its lines, or in words that there is none. */
export function hoursOf(base: string, where: string, sheet: string): string {
  const { all, counted, mean } = linesOf(base, where, sheet);
  return `IF(${base}="","",IF(${all}=0,"no line",IF(${counted}<${all},"no hours",${mean})))`;
}
