/** Texts that a sheet would read as a number, a date or a formula. */
const READ_OTHERWISE =
  /^[=+@-]|^[^a-z]+$|^\d[\d.]*e\d+$|^(true|false)$|\b(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)/i;

/** A text as one types it so that it stays one: a lot 5-3 is no third of May. */
export function asTyped(text: string): string {
  return READ_OTHERWISE.test(text) ? `'${text}` : text;
}
