/** Reads the values and formulas of a workbook's file, as it stands there. */
import { Book } from "../../functions/files/book";
import { Package, allNamed, childNamed, childrenNamed } from "../../functions/files/package";

export interface FileCell {
  value: number | string | boolean | undefined;
  isError: boolean;
  formula?: string;
}

/** By sheet, by cell. */
export function readBook(bytes: Uint8Array): Map<string, Map<string, FileCell>> {
  const file = Package.open(bytes);
  const book = new Book(file);
  const strings = file
    .relations(book.path)
    .filter(({ type }) => type === "sharedStrings")
    .flatMap(({ path }) => childrenNamed(file.root(path), "si"))
    .map((item) =>
      allNamed(item, "t")
        .map(({ textContent }) => textContent)
        .join(""),
    );
  return new Map(
    book.sheets.map(({ name, path }) => {
      const cells = allNamed(file.root(path), "c").map((cell): [string, FileCell] => {
        const type = cell.getAttribute("t");
        const text = childNamed(cell, "v")?.textContent ?? undefined;
        const inline = allNamed(cell, "t")
          .map(({ textContent }) => textContent)
          .join("");
        const formula = childNamed(cell, "f")?.textContent ?? undefined;
        const value = () => {
          if (type === "inlineStr") return inline;
          if (type === "s") return strings[Number(text)];
          if (type === "str") return text ?? "";
          if (text === undefined || text === "") return undefined;
          if (type === "b") return text === "1";
          return type === "e" ? text : Number(text);
        };
        return [cell.getAttribute("r") ?? "", { value: value(), isError: type === "e", formula }];
      });
      return [name, new Map(cells)];
    }),
  );
}

/** Other numbers, or nothing, for the cells of a workbook's file: by sheet, by cell. */
export type Changes = Map<string, Map<string, number | null>>;

export function writeInto(bytes: Uint8Array, changes: Changes): Uint8Array {
  const file = Package.open(bytes);
  for (const { name, path } of new Book(file).sheets) {
    const ofSheet = new Map(changes.get(name));
    for (const cell of ofSheet.size > 0 ? allNamed(file.root(path), "c") : []) {
      const number = ofSheet.get(cell.getAttribute("r") ?? "");
      const value = childNamed(cell, "v");
      if (number === undefined || !value) continue;
      ofSheet.delete(cell.getAttribute("r") ?? "");
      cell.removeAttribute("t");
      if (number === null) cell.removeChild(value);
      else value.textContent = String(number);
    }
    if (ofSheet.size > 0)
      throw new Error(`${[...ofSheet.keys()].join(" ")} of ${name}: nothing to change`);
  }
  return file.save();
}
