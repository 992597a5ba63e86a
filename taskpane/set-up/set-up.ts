/** The page that writes the add-in's two files for the address that will serve it: no tool is needed. */
import manifest from "../../manifest.xml?source";
import functions from "../../functions/functions.json?source";
import { at, refusalOf } from "./address.ts";

// The page beside this file has one field.
const address = document.querySelector("input") as HTMLInputElement;
// And one place where what was done is said.
const said = document.querySelector("[role=status]") as HTMLElement;

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
    if (why === null) give(new Blob([at(typed, text)], { type }), name);
  });

function give(blob: Blob, name: string) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
