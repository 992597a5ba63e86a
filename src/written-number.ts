/** Numbers as people write them: refused where a point or comma may mean two things. */

/** 3.5, 3,5, 1,250.5, 1.250,5, 1,000,000: not 10.000, which is ten here and ten thousand there. */
export function decimalOf(text: string, refuse: (why: string) => never): number {
  const point = lastOf(text);
  if (point === undefined) return Number(text);
  const [whole, part] = splitAt(text, text.lastIndexOf(point));
  const hasGroups = /^\d{1,3}(?:[.,]\d{3})+$/;
  if (whole.includes(point)) {
    if (hasGroups.test(text) && new Set(text.match(/[.,]/g)).size === 1)
      return Number(text.replaceAll(point, ""));
    return refuse(`${text} is not a number`);
  }
  if (lastOf(whole) !== undefined && !hasGroups.test(whole))
    return refuse(`${text} is not a number`);
  const plain = whole.replace(/[.,]/g, "");
  if (lastOf(whole) === undefined && /^[1-9]\d{0,2}$/.test(whole) && part.length === 3)
    return refuse(`${text} may be ${plain}${part}, or ${plain}.${part}0: write it so`);
  return Number(`${plain || "0"}.${part}`);
}

function lastOf(text: string): string | undefined {
  return text.match(/[.,]/g)?.at(-1);
}

function splitAt(text: string, place: number): [string, string] {
  return [text.slice(0, place), text.slice(place + 1)];
}

/** Halves, thirds, quarters, eighths and sixteenths: "4/1 gal" in a price list is four of a gallon. */
const PARTS = new Set([2, 3, 4, 8, 16]);

/** 1/2 or 1 1/2. */
export function fractionOf(text: string, refuse: (why: string) => never): number {
  const [above = 0, below = 0, whole = 0] =
    text.split(/[/ ]/).length === 2 ? text.split("/").map(Number) : wholeLast(text);
  const isLowest = below === 3 || above % 2 === 1;
  if (!PARTS.has(below) || above >= below || above === 0 || !isLowest)
    return refuse(`${text} is not a plain fraction: write "4 x 1 gal" for several packs`);
  return whole + above / below;
}

function wholeLast(text: string): number[] {
  const [whole = "", fraction = ""] = text.split(" ");
  return [...fraction.split("/").map(Number), Number(whole)];
}
