/** The texts of a file, as its cells call them by number. */

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

/** What the local sheet's engine would take for a number, a formula, an error or a link. */
const LOOKS_OTHERWISE = /^\s*[-+=(#.,$€£¥]|^\s*\d|^\s*(true|false)\s*$|^'|^\[[^\]]*\]\(.*\)$/i;

/**
 * Texts in XML's own spelling; one that looks like anything else is held as a text, by an
 * apostrophe.
 */
export class SharedTexts {
  private readonly texts: string[] = [];

  add(text: string): number {
    return this.texts.push(LOOKS_OTHERWISE.test(text) ? `'${text}` : text) - 1;
  }

  /** The number of the same text, typed with an apostrophe before it. */
  quoted(number: number): number {
    const text = this.texts[number] ?? "";
    return text.startsWith("'") ? number : this.texts.push(`'${text}`) - 1;
  }

  written(): string {
    const items = this.texts.map((text) => `<si><t xml:space="preserve">${text}</t></si>`);
    return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<sst xmlns="${MAIN}" count="${items.length}" uniqueCount="${items.length}">${items.join("")}</sst>`;
  }
}

/** The text of a string, its runs together, without the reading aids of Asian scripts. */
export function textOf(inside: string): string {
  const plain = inside.includes("<rPh") ? inside.replace(/<rPh\b[\s\S]*?<\/rPh>/g, "") : inside;
  return [...plain.matchAll(/<t\b[^>]*?(?:\/>|>([\s\S]*?)<\/t>)/g)]
    .map(([, text = ""]) => text)
    .join("");
}
