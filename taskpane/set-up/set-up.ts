/** The page that writes the add-in's two files for the address that will serve it: no tool is needed. */
import manifest from "../../manifest.xml?source";
import functions from "../../functions/functions.json?source";
import { giveText } from "../host/give.ts";
import { found } from "../pane/elements.ts";
import { at, refusalOf } from "./address.ts";

const address = found("input", HTMLInputElement);
const said = found("[role=status]", HTMLElement);

// On its host, the page knows where it is.
if (location.protocol === "https:") address.value = new URL(".", location.href).href;

const FILES = [
  ["functions.json", functions, "application/json"],
  ["manifest.xml", manifest, "application/xml"],
] as const;

for (const [name, text, type] of FILES)
  document.getElementById(name)?.addEventListener("click", () => {
    const typed = address.value.trim();
    const why = refusalOf(typed);
    said.textContent = why ?? `${name} is in your downloads.`;
    address.setAttribute("aria-invalid", String(why !== null));
    if (why === null) giveText(at(typed, text), type, name);
  });
