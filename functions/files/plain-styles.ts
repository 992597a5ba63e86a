/**
 * The looks of a file as the local sheet's engine reads them right, and those of a file that brings
 * none.
 */

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** Colours that programs write with no alpha, or with one that they do not mean, are solid. */
export function plainStyles(xml: string): string {
  // The engine leaves out a fill that says nothing, and then takes each for the one before it.
  const filled = solid(xml).replace(/<fill\s*(\/>|>\s*<\/fill>)/g, NO_FILL);
  // In a rule's look, a fill without its kind is a solid one.
  const looks = filled.replace(/<dxfs\b[\s\S]*<\/dxfs>/, (all) =>
    all.replace(/<patternFill>/g, '<patternFill patternType="solid">'),
  );
  return /<cellXfs\b[^>]*>\s*<xf\b/.test(looks) ? looks : PLAIN_STYLES;
}

export interface Looks {
  count: number;
  /** Those of texts that were typed with an apostrophe before them. */
  quoted: ReadonlySet<number>;
}

export function looksOf(styles: string): Looks {
  const list = /<cellXfs\b[\s\S]*?<\/cellXfs>/.exec(styles)?.[0] ?? "";
  const looks = list.match(/<xf\b[^>]*>/g) ?? [];
  const quoted = looks.flatMap((xf, i) => (/\squotePrefix="(1|true)"/.test(xf) ? [i] : []));
  return { count: looks.length, quoted: new Set(quoted) };
}

export function solid(xml: string): string {
  return xml.replace(
    /\brgb="(?:[0-9A-Fa-f]{2})?([0-9A-Fa-f]{6})"/g,
    (_, color: string) => `rgb="FF${color}"`,
  );
}

const NO_FILL = '<fill><patternFill patternType="none"/></fill>';

/** The styles of a file that brings none. */
export const PLAIN_STYLES = `${HEAD}<styleSheet xmlns="${MAIN}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;

/** The colours that a file means by number when it brings no theme: Office's, of 2013. */
const THEME_COLORS = {
  dk1: "000000",
  lt1: "FFFFFF",
  dk2: "44546A",
  lt2: "E7E6E6",
  accent1: "4472C4",
  accent2: "ED7D31",
  accent3: "A5A5A5",
  accent4: "FFC000",
  accent5: "5B9BD5",
  accent6: "70AD47",
  hlink: "0563C1",
  folHlink: "954F72",
};
export const PLAIN_THEME = `${HEAD}<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" name="Office"><a:themeElements><a:clrScheme name="Office">${Object.entries(
  THEME_COLORS,
)
  .map(([name, color]) => `<a:${name}><a:srgbClr val="${color}"/></a:${name}>`)
  .join("")}</a:clrScheme></a:themeElements></a:theme>`;
