/**
 * Sheets of an earlier version, and sheets that a column was taken out of. What others draw from such a sheet and
 * it works out by itself is added right of its list; where anything else is lacking, it is not drawn from, and it
 * is said why.
 */
import type { Redrawn, Workbook } from "../host/workbook.ts";
import { partsThere } from "./lay.ts";
import type { Others } from "./names.ts";
import { OldSheet } from "./old-sheet.ts";
import { type Template, drawnBy } from "./template.ts";

/** Why a sheet cannot be drawn from. */
export interface Lack {
  /** The title of its template. */
  title: string;
  /** Its name in the workbook. */
  without: string;
  /** The sheet at fault, which it draws from or is itself, and the heading or label of what is wrong there. */
  sheet: string;
  what: string;
  why: "not there" | "lost" | "no room";
}

export interface Completed {
  /** The sheets that a template can draw from, with the columns that are added to them. */
  of: (template: Template) => Others;
  /** Why it cannot draw from others. */
  lacks: (template: Template) => Lack[];
  /** What is added to sheets that were there. */
  redrawn: Redrawn[];
}

/** What these templates, all to be drawn now, can draw from the sheets that are there. */
export async function completed(
  workbook: Workbook,
  templates: readonly Template[],
  others: Others,
  known: readonly Template[],
): Promise<Completed> {
  const sheets = new Map<string, OldSheet>();
  for (const { title, parts } of known) {
    const other = others.get(title);
    if (other) sheets.set(title, new OldSheet(partsThere(parts, others), other));
  }
  if (![...sheets.values()].some((sheet) => sheet.lacksAny()))
    return { of: () => others, lacks: () => [], redrawn: [] };
  // What was taken out of one sheet is missed on others, too.
  const formulas = await workbook.formulas();
  for (const sheet of sheets.values()) await sheet.look(workbook, formulas);
  const lacks = new Map(
    templates.map((template) => [template, lacksOf(template, sheets, others)] as const),
  );
  const whole = new Map(others);
  for (const [title, { sheet, places }] of sheets) whole.set(title, { sheet, places });
  return {
    of: (template) => {
      const without = new Set(lacks.get(template)?.map(({ title }) => title));
      return new Map([...whole].filter(([title]) => !without.has(title)));
    },
    lacks: (template) => lacks.get(template) ?? [],
    redrawn: [...sheets.values()].flatMap((each) => {
      const drawing = each.drawing(whole);
      return drawing ? [{ sheet: each.sheet, drawing }] : [];
    }),
  };
}

type Sheets = ReadonlyMap<string, OldSheet>;

/** What sheets lack that a template draws from; where it is only what can be added, that is added. */
function lacksOf(template: Template, sheets: Sheets, others: Others): Lack[] {
  return drawnBy(template).flatMap(({ title = "", name, which }) => {
    const [list] = name.split(".");
    const until = `${list}.${which ?? ""}`;
    const names = sheets.get(title)?.isKnown(until) ? [name, until] : [name];
    return names.flatMap((each) => {
      const wanted = new Map<string, () => void>();
      const asked = { sheets, others, wanted, seen: new Set<string>() };
      const faults = faultsIn({ title, name: each }, true, asked);
      if (faults.length === 0) for (const add of wanted.values()) add();
      return faults.map((fault) => ({
        ...fault,
        title,
        without: others.get(title)?.sheet ?? title,
      }));
    });
  });
}

type Fault = Pick<Lack, "sheet" | "what" | "why">;

interface Asked {
  sheets: Sheets;
  others: Others;
  /** What is to be added, by its title and name. */
  wanted: Map<string, () => void>;
  /** Names that were asked already: sheets draw from each other in circles. */
  seen: Set<string>;
}

/** What a name and all behind it lack. One that nobody asks for may be absent: an older formula does without it. */
function faultsIn(named: { title: string; name: string }, isAsked: boolean, asked: Asked): Fault[] {
  const { sheets, others, wanted, seen } = asked;
  const { title, name } = named;
  const key = `${title}!${name} ${isAsked}`;
  const sheet = sheets.get(title);
  if (!sheet || seen.has(key)) return [];
  seen.add(key);
  const fault = (why: Lack["why"]) => [{ sheet: sheet.sheet, what: sheet.whatOf(name), why }];
  const isThere = sheet.has(name);
  if (isThere && sheet.isLost(name)) return fault("lost");
  if (!isThere) {
    if (!isAsked) return [];
    if (!sheet.canBeAdded(name)) return fault("not there");
    if (!sheet.hasRoom(name)) return fault("no room");
    wanted.set(key, () => sheet.add(name));
  }
  return sheet
    .namesOf(name, others)
    .flatMap((each) => faultsIn({ title: each.title ?? title, name: each.name }, !isThere, asked));
}

/** What is said of columns that were added to sheets, and of sheets that templates were drawn without. */
export function toldOf({ redrawn, lacks }: Completed, templates: readonly Template[]): string {
  const added = redrawn.map(({ sheet }) => `"${sheet}"`).join(", ");
  const found = new Map<string, Set<string>>();
  for (const template of templates)
    for (const { without, sheet, what, why } of lacks(template)) {
      const it = sheet === without ? "it" : `"${sheet}"`;
      const key = ` "${without}" is not drawn from: ${it} ${WHY[why]}, then insert ${template.title} anew.`;
      found.set(key, (found.get(key) ?? new Set()).add(`"${what}"`));
    }
  return [
    added && ` Columns for look-ups were added right of the list of ${added}.`,
    ...[...found].map(([said, what]) => said.replace("{}", () => [...what].join(", "))),
  ].join("");
}

/** What is wrong, and what to do; {} stands for headings. */
const WHY: Record<Lack["why"], string> = {
  "not there": "has no {}. Put the heading back, or type it right of the other headings",
  lost: "shows #REF! under {}, as a column was taken out. Undo that, or insert that sheet anew",
  "no room": "has no {}, and the cells right of its list are filled. Empty these",
};
