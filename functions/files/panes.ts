/**
 * The pane that Excel remembers in a workbook: a partner without the add-in would be shown an empty
 * one. Its parts are as [MS-OWEXML] has them (from memory): a list of panes, each leading to the
 * add-in it shows.
 */
import { relationId } from "./book.ts";
import { type Package, allNamed, drop, elements } from "./package.ts";

/** The add-in's id, as in manifest.xml. */
export const ADD_IN_ID = "5d0c6f0e-7a51-4a0f-9c43-6b1de2f0a7c4";

/** Takes our own pane out of the file; other add-ins keep theirs. */
export function dropOurPane(file: Package): void {
  const list = file.relations("").find(({ type }) => type === "webextensiontaskpanes");
  if (!list || !file.has(list.path)) return;
  for (const pane of elements(file.root(list.path))) {
    const reference = allNamed(pane, "webextensionref")[0];
    const leads = file
      .relations(list.path)
      .find(({ id }) => reference && id === relationId(reference));
    if (!leads || !isOurs(file, leads.path)) continue;
    drop(pane);
    file.remove(leads.path, list.path);
  }
  if (elements(file.root(list.path)).length === 0) file.remove(list.path, "");
}

function isOurs(file: Package, path: string): boolean {
  if (!file.has(path)) return false;
  const ids = allNamed(file.root(path), "reference").map((each) => each.getAttribute("id") ?? "");
  return ids.some((id) => id.replace(/[{}]/g, "").toLowerCase() === ADD_IN_ID);
}
