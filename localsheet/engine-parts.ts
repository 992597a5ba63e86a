/**
 * Parts of the engine that its types keep private: what knows ranges and what shortens the changes of a step, which no
 * registry holds, and what knows sheets. What is put into them holds for every workbook that is made later.
 */
import { type Model, engine } from "./engine.ts";

/** A workbook's getters with some of our own before them. */
export function gettersWith(
  getters: Model["getters"],
  own: Partial<Model["getters"]>,
): Model["getters"] {
  // What is made from getters has all of theirs.
  return Object.assign(Object.create(getters) as Model["getters"], own);
}

export interface Getters {
  getSheetIds: () => string[];
  tryGetSheetName: (sheetId: string) => string | undefined;
}

/** Whether rows and columns of a range's corner are held by dollars. */
export interface RangeEnd {
  colFixed: boolean;
  rowFixed: boolean;
}

interface Ranges {
  getters: Getters;
  getRangeFromSheetXC: (this: Ranges, sheetId: string, xc: string) => { parts: RangeEnd[] };
  getRangeString: (this: Ranges, range?: { sheetId: string }, ...others: unknown[]) => string;
}

interface Shortener {
  getters: Getters;
  squish: (this: Shortener, commands: unknown[]) => unknown[];
}

interface Sheets {
  orderedSheetIds: string[];
  getSheetName: (sheetId: string) => string;
  getSheetIdByName: (this: Sheets, name?: string) => string | undefined;
  checkSheetName: (this: Sheets, command: { name?: string; newName?: string }) => string;
  getDuplicateSheetName: (this: Sheets, name: string) => string;
}

// They are found through a workbook that has them, in what its types keep private.
const { range, session } = new engine.Model() as unknown as {
  range: Ranges;
  session: { commandSquisher: Shortener };
};

function prototypeOf<T extends object>(made: T): T {
  // A prototype has the methods of what is made after it, and only these are used.
  return Object.getPrototypeOf(made) as T;
}

export const ranges = prototypeOf(range);
export const shortener = prototypeOf(session.commandSquisher);
// Its types name none of this.
export const sheets = engine.registries.corePluginRegistry.get("sheet")
  .prototype as unknown as Sheets;
