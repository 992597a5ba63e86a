/** Links that were typed or taken away, written into the file that was opened. */
import { escaped } from "../functions/files/package.ts";
import { putElement } from "../functions/files/patch-sheet.ts";
import { attributesOf } from "../functions/files/source.ts";
import { type Texts, elementsOf } from "../functions/files/texts.ts";
import type { SheetState } from "./state.ts";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** A cell with a link, as the engine holds it: [its text](where it leads). */
const LINK = /^\[.+\]\(.+\)$/;

/** A sheet in the file, the same one in a fresh file, and what it held and holds. */
interface Sides {
  path: string;
  freshPath: string;
  was: SheetState;
  is: SheetState;
}

export function followLinks(texts: Texts, fresh: Texts, { path, freshPath, was, is }: Sides): void {
  const linkIn = ({ cells }: SheetState, name: string) => {
    const { content = "" } = cells.get(name) ?? {};
    return LINK.test(content) ? content : "";
  };
  const names = new Set([...was.cells.keys(), ...is.cells.keys()]);
  const changed = [...names].filter((name) => linkIn(was, name) !== linkIn(is, name));
  if (changed.length === 0) return;
  const added = changed.flatMap((name) => (linkIn(is, name) ? [name] : []));
  const prefix = /<((?:\w+:)?)worksheet\b/.exec(texts.text(path))?.[1] ?? "";
  const marks = linksOf(fresh, freshPath, added).map(({ ref, target, location }) => {
    const leads =
      target === undefined
        ? `location="${escaped(location)}"`
        : `xmlns:r="${OFFICE}" r:id="${texts.relate(path, "hyperlink", target, true)}"`;
    return `<${prefix}hyperlink ref="${ref}" ${leads}/>`;
  });
  texts.change(path, (xml) => {
    const kept = [...xml.matchAll(elementsOf("hyperlink"))].flatMap(([mark, , attributes = ""]) =>
      changed.includes(attributesOf(attributes).ref ?? "") ? [] : [mark],
    );
    const inside = [...kept, ...marks].join("");
    const list = inside ? `<${prefix}hyperlinks>${inside}</${prefix}hyperlinks>` : "";
    return putElement(xml, "hyperlinks", list, true);
  });
}

/** Where the links of a fresh sheet lead: out of the workbook, or to a place in it. */
function linksOf(fresh: Texts, path: string, names: readonly string[]) {
  const targets = new Map(fresh.relations(path).map(({ id, target }) => [id, target]));
  return [...fresh.text(path).matchAll(elementsOf("hyperlink"))].flatMap(
    ([, , attributes = ""]) => {
      const { ref = "", location = "", "r:id": id = "" } = attributesOf(attributes);
      return names.includes(ref) ? [{ ref, location, target: targets.get(id) }] : [];
    },
  );
}
