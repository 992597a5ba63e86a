/** Sheets get only names that their file can hold and Excel opens: the engine sees to its own signs alone. */
import { LONGEST_NAME, freeName } from "../functions/formula/sheet-names.ts";
import { sheets } from "./engine-parts.ts";

const { checkSheetName } = sheets;

sheets.checkSheetName = function (command) {
  const answer = checkSheetName.call(this, command);
  const name = command.newName ?? command.name ?? "";
  return answer === "Success" && !isHeld(name) ? "ForbiddenCharactersInSheetName" : answer;
};

/** Excel keeps History for itself; names of what every object has do not open here again. */
function isHeld(name: string): boolean {
  return name.length <= LONGEST_NAME && !/^history$/i.test(name) && !(name in Object.prototype);
}

sheets.getDuplicateSheetName = function (name) {
  return freeName(
    `Copy of ${name}`,
    this.orderedSheetIds.map((id) => this.getSheetName(id)),
  );
};
