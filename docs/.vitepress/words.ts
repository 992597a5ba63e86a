/** Lets the site's search find a function or a sheet by the everyday words that the pane's search knows. */
import { catalog } from "../../functions/catalog/catalog.ts";
import { templates } from "../../taskpane/templates/index.ts";

const words = new Map([
  ...catalog.map((entry): [string, string] => [`MIST.${entry.id}`, entry.words]),
  ...templates.map((template): [string, string] => [template.title, template.words ?? ""]),
]);

/** The text of a page as it is searched: with the words below its title. */
export function withWords(source: string): string {
  return source.replace(/^# (.+)$/m, (heading, title: string) => {
    return `${heading}\n\n${words.get(title) ?? ""}`;
  });
}
