/** The catalog of worksheet functions, generated from the doc comments. */
import type { CatalogEntry } from "./entry.ts";
import generated from "./catalog.json";

export const catalog = generated as CatalogEntry[];
