/** The catalog of worksheet functions, generated from the doc comments. */
import type { CatalogEntry } from "./entry";
import generated from "./catalog.json";

export const catalog = generated as CatalogEntry[];
