/** The engine's menus, without what means nothing here: pivots, carousels, pictures, its settings. */
import { engine } from "./engine.ts";

const HIDDEN: [menu: string, id: string][] = [
  // Pictures cannot be saved, pivots and carousels are no part of a costing sheet.
  ["insert", "insert_pivot"],
  ["insert", "insert_carousel"],
  ["insert", "insert_image"],
  // The language is the browser's; the keyboard follows it (see typed.ts).
  ["file", "settings"],
  ["view", "view_irregularity_map"],
  ["view", "toggle_pin_panel"],
  ["data", "pivot_data_sources"],
  ["data", "reinsert_dynamic_pivot"],
  ["data", "reinsert_static_pivot"],
];

const { topbarMenuRegistry } = engine.registries;
for (const [menu, id] of HIDDEN) {
  topbarMenuRegistry.replaceChild(id, [menu], { id, name: id, isVisible: () => false });
}
