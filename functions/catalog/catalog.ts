/** The catalog of worksheet functions, generated from the doc comments. */
import type { CatalogEntry } from "./entry.ts";
import generated from "./catalog.json";

// What JSON holds is no more than text to the compiler; it is written from a list of CatalogEntry.
export const catalog = generated as CatalogEntry[];
