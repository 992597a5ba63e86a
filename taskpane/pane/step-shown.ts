/** A step of a working: the sentence first, how it is worked out beneath, and its table. */
import type { WorkingTable, Told } from "../working/explain.ts";
import { element } from "./elements.ts";

export function stepShown({ sentence, how, table }: Told): HTMLElement {
  return element(
    "li",
    {},
    element("p", {}, sentence),
    ...(table ? [tableShown(table)] : []),
    ...how.map((line) => element("code", {}, line)),
  );
}

function tableShown({ heads, lines, foot, more }: WorkingTable): HTMLElement {
  const head = heads.map((text) => element("th", { scope: "col" }, text));
  const row = ([place = "", ...cells]: string[]) =>
    element(
      "tr",
      {},
      element("th", { scope: "row" }, place),
      ...cells.map((cell) => element("td", {}, cell)),
    );
  const rest = element("td", { colspan: String(heads.length) }, `and ${more} more`);
  return element(
    "table",
    {},
    element("thead", {}, element("tr", {}, ...head)),
    element("tbody", {}, ...lines.map(row), ...(more > 0 ? [element("tr", {}, rest)] : [])),
    ...(foot ? [element("tfoot", {}, row(foot))] : []),
  );
}
