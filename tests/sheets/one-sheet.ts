/** One template alone on a new sheet of the local engine, its cells by the names that its parts have. */
import { cellName } from "../../functions/formula/addresses";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { partsThere, placesOf } from "../../taskpane/sheets/lay";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";

export async function oneSheet(title: string, filled = true) {
  const template = templates.find((each) => each.title === title);
  if (!template) throw new Error(`${title} is no template`);
  const model = newModel();
  await insertTemplate(new LocalWorkbook(model), template, { where: "new sheet", filled });
  const places = placesOf(partsThere(template.parts));
  const cell = (name: string, line = 0, across = 0) => {
    const place = places.get(name);
    if (!place) throw new Error(`${name} is not on ${title}`);
    return cellName(place.row + line, place.column + across);
  };
  return {
    model,
    cell,
    at: (name: string, line = 0, across = 0) => read(model, cell(name, line, across)),
    put: (name: string, content: unknown, line = 0, across = 0) =>
      write(model, cell(name, line, across), content === null ? "" : String(content)),
  };
}
