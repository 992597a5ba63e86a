/** Formulas entered again, and names that an older version left taken away. */
import { lengthen } from "./lists.ts";
import { reasonOf, write } from "./run.ts";
import type { Placed, TypedCell } from "./workbook.ts";

/** Enters formulas in one go; gives why they were refused, or null. */
async function entered(formulas: readonly Placed[]): Promise<string | null> {
  try {
    await write(async (context) => {
      for (const { spot, formula } of formulas) {
        const sheet = context.workbook.worksheets.getItem(spot.sheet);
        sheet.getRangeByIndexes(spot.row, spot.column, 1, 1).formulas = [[formula]];
      }
      await context.sync();
    });
    return null;
  } catch (error) {
    return reasonOf(error);
  }
}

/** Types into cells and empties them, in one step; lists grow by what is typed right below them. */
export function type(cells: readonly TypedCell[]): Promise<void> {
  return write(async (context) => {
    await lengthen(context, cells);
    for (const { spot, content, format } of cells) {
      const sheet = context.workbook.worksheets.getItem(spot.sheet);
      const cell = sheet.getRangeByIndexes(spot.row, spot.column, 1, 1);
      cell.formulas = [[content ?? ""]];
      if (format !== undefined) cell.numberFormat = [[format]];
    }
    await context.sync();
  });
}

/** All of a sheet at once; where it refuses, one by one, so that each is told of its own. */
export async function enter(formulas: readonly Placed[]): Promise<(string | null)[]> {
  const refused = new Map<Placed, string | null>();
  for (const sheet of new Set(formulas.map(({ spot }) => spot.sheet))) {
    const ofSheet = formulas.filter(({ spot }) => spot.sheet === sheet);
    if ((await entered(ofSheet)) === null) continue;
    for (const each of ofSheet) refused.set(each, await entered([each]));
  }
  return formulas.map((each) => refused.get(each) ?? null);
}

/** As an older version named what it worked out by: hidden, and gone again unless Excel had refused something. */
const LEFT_OVER = /^Mistwright(_[0-9a-f]+){5}$/;

/** Takes those names away; gives how many there were. */
export function sweep(): Promise<number> {
  return write(async (context) => {
    const { names } = context.workbook;
    names.load("items/name,items/visible");
    await context.sync();
    const left = names.items.filter(({ name, visible }) => !visible && LEFT_OVER.test(name));
    if (left.length === 0) return 0;
    for (const name of left) name.delete();
    await context.sync();
    return left.length;
  });
}
