/** Every entry of the engine's menus that is left means something in this sheet; the rest is out of sight. */
import { expect, test } from "vitest";
import "./load-engine";

await import("../../localsheet/menus");

const LEFT: Record<string, string> = {
  file: "print",
  edit: "undo redo copy cut paste paste_special edit_table find_and_replace delete edit_unhide_columns edit_unhide_rows",
  view: "show zoom unfreeze_panes freeze_panes group_headers",
  insert:
    "insert_row insert_column insert_cell insert_sheet insert_chart insert_table insert_function insert_link insert_checkbox insert_dropdown",
  format:
    "format_number format_bold format_italic format_underline format_strikethrough format_font_size format_alignment format_wrapping format_cf format_clearFormat",
  data: "sort_range data_cleanup split_to_columns column_statistics data_validation named_range add_remove_data_filter",
};

/** What the entries ask of the page: it has nothing yet, so one that asks for more is one that is left. */
const env = {} as never;

function isLeft({ isVisible }: { isVisible: (env: never) => boolean }): boolean {
  try {
    return isVisible(env);
  } catch {
    return true;
  }
}

test("the menus hold what is listed here, and no more", () => {
  const menus = globalThis.o_spreadsheet.registries.topbarMenuRegistry.getMenuItems();
  const left = menus.map((menu) => {
    const entries = menu.children(env).filter(isLeft);
    return [menu.id, entries.map(({ id }) => id).join(" ")];
  });
  expect(Object.fromEntries(left)).toEqual(LEFT);
});
