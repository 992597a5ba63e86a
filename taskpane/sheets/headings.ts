/** How headings are broken into lines, by the widths of their letters: what a column needs, and a row of them. */

/** Pixels of a bold letter as wide as screens have it, by its kind: m, W; i, l; and all others. */
const WIDE = { letters: /[mwMWN@%]/g, width: 12 };
const NARROW = { letters: /[ijlrtfI1 .,:;'()/-]/g, width: 5.2 };
const LETTER = 8;

/** Pixels that are free at both ends of a line, and those of a filter's button. */
const ENDS = 10;
const BUTTON = 20;

/** More lines are hard to read, and push the lines of a list off the screen. */
export const MOST_LINES = 3;

function pixelsOf(text: string): number {
  const [wide, narrow] = [WIDE, NARROW].map(({ letters }) => text.match(letters)?.length ?? 0);
  return (
    text.length * LETTER +
    (wide ?? 0) * (WIDE.width - LETTER) -
    (narrow ?? 0) * (LETTER - NARROW.width)
  );
}

/** The lines of a heading in a column as wide as that, beside a filter's button or not. */
export function linesOf(heading: string, width: number, isBeside: boolean): number {
  const room = width - ENDS - (isBeside ? BUTTON : 0);
  let lines = 0;
  let line = "";
  for (const word of heading.split(" ")) {
    const longer = `${line} ${word}`;
    const fits = lines > 0 && pixelsOf(longer) <= room;
    line = fits ? longer : word;
    if (!fits) lines += Math.max(1, Math.ceil(pixelsOf(word) / room));
  }
  return lines;
}

/** The least width, from the one given, at which no word is broken and the lines are not too many. */
export function widthFor(heading: string, least: number, isBeside: boolean): number {
  const words = heading.split(" ").map(pixelsOf);
  let width = Math.max(least, Math.ceil(Math.max(...words) + ENDS + (isBeside ? BUTTON : 0)));
  while (linesOf(heading, width, isBeside) > MOST_LINES) width += 2;
  return width;
}
