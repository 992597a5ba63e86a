/** How long a base lasts, of all lines of the log that were sprayed there: a formula for any sheet. */

/** The log's columns, here or as another sheet names them. */
const LOG = { here: "log", there: "Spray trial log!log" };

/** Longer than every number there is. */
const longest = (log: string, hours: string) => `(MAX({${hours}},{${log}.counts})+1)`;

/** What is counted of a base: its lines, those that have hours, those that outlast the hours scored. */
export function linesOf(base: string, where: string, from: keyof typeof LOG = "here") {
  const log = LOG[from];
  const hours = log.replace("!log", "!hours").replace(/^log$/, "hours");
  const these = `{${log}.base},${base},{${log}.where},"${where}"`;
  const all = `COUNTIFS(${these})`;
  const over = `COUNTIFS(${these},{${log}.counts},"over*")`;
  const counted = `(COUNTIFS(${these},{${log}.counts},">=0")+${over})`;
  const sum = `(SUMIFS({${log}.counts},${these})+${over}*${longest(log, hours)})`;
  return { all, over, counted, mean: `${sum}/${all}` };
}

/** Hours that a base lasts: the mean of its lines, or in words that there is none. */
export function hoursOf(base: string, where: string, from: keyof typeof LOG = "here"): string {
  const { all, counted, mean } = linesOf(base, where, from);
  return `IF(${base}="","",IF(${all}=0,"no line",IF(${counted}<${all},"no hours",${mean})))`;
}
