/**
 * The engine's sentences in plain words, each with a mend. They pass through its translation hook, so
 * that tooltips, notices and refusals all speak them. Of a sentence that is not here, the engine's own
 * is shown. %s and %(name)s are the engine's places, in its order.
 */
import { engine } from "./engine";

const NUMBER = "A number is needed here, and '%s' is words: type a number, or empty that cell.";

const NO_DIVISOR = "This divides by zero or by an empty cell: put a number there.";

export const WORDS: Record<string, string> = {
  "The function [[FUNCTION_NAME]] expects a number value, but '%s' is a string, and cannot be coerced to a number.":
    NUMBER,
  "The function [[FUNCTION_NAME]] expects a boolean value, but '%s' is a text, and cannot be coerced to a boolean.":
    "TRUE or FALSE is needed here, and '%s' is neither: type one of the two.",
  "The function [[FUNCTION_NAME]] expects a number value to be greater than or equal to 1, but receives %s.":
    "A number of 1 or more is needed here, not %s.",
  "The function [[FUNCTION_NAME]] expects a number value between %s and %s inclusive, but receives %s.":
    "A number from %s to %s is needed here, not %s.",
  "The function [[FUNCTION_NAME]] has an argument with value '%s'. It should be one of: %s.":
    "'%s' is not known here. Type one of: %s.",
  "The function [[FUNCTION_NAME]] expects a reference to a cell or range.":
    "The name of a cell is needed here, such as A1.",
  "In this context, the function [[FUNCTION_NAME]] needs to have a cell or range in parameter.":
    "The name of a cell is needed here, such as A1.",
  "Array arguments to [[FUNCTION_NAME]] are of different size.":
    "The ranges in this formula are not of one length: give each the same number of cells.",
  "Function %s expects the parameter '%s' to be reference to a cell or range.":
    "%s needs the name of a cell, such as A1, as its input %s.",
  "Invalid number of arguments for the %(functionName)s function. Expected %(minArgRequired)s minimum, but got %(nbrArgSupplied)s instead.":
    "%(functionName)s needs at least %(minArgRequired)s inputs, and has %(nbrArgSupplied)s: add what is missing. Commas part them.",
  "Invalid number of arguments for the %(functionName)s function. Expected %(maxArgPossible)s maximum, but got %(nbrArgSupplied)s instead.":
    "%(functionName)s takes at most %(maxArgPossible)s inputs, and has %(nbrArgSupplied)s. Commas part them: 5,5 is two.",
  'Unknown function: "%s"':
    'There is no function "%s": look at its spelling, or search under Functions in the pane.',
  "Unknown function":
    "There is no such function: look at its spelling, or search under Functions in the pane.",
  "Invalid expression":
    "This formula cannot be read: look for a missing bracket, sign or quotation mark.",
  "Invalid formula":
    "This formula cannot be read: look for a missing bracket, sign or quotation mark.",
  "Unexpected token: %s": 'This formula cannot be read at "%s": look just before it.',
  "Missing closing brace": "A } is missing: each { needs one.",
  "Missing closing parenthesis": "A ) is missing: each ( needs one.",
  "Wrong function call": "This formula cannot be read: a function is written NAME(input, input).",
  "Invalid reference":
    "This formula points at cells that are not there any more: point it at others.",
  "Invalid sheet name: %s": "There is no sheet %s: look at its name below the grid.",
  "Circular reference": "This formula leads back to its own cell: point it at other cells.",
  "Division by zero": NO_DIVISOR,
  "The divisor must be different from zero.": NO_DIVISOR,
  "The divisor must be different from 0.": NO_DIVISOR,
  "Result couldn't be automatically expanded.":
    "The answer fills more cells than there is room for: empty the cells beside and below.",
  "Array result was not expanded because it would overwrite data.":
    "The answer fills more cells than there is room for: empty the cells beside and below.",
  "Merged cells found in the spill zone. Please unmerge cells before using array formulas.":
    "The answer needs cells that are merged: unmerge them first.",
  "Cannot sort a zone with array formulas.":
    "These cells cannot be sorted: one of them holds an answer that fills several cells. Sort the rows that you typed, without it.",
  "Cannot sort. To sort, select only cells or only merges that have the same size.":
    "These cells cannot be sorted: some are merged. Unmerge them first.",
  "Merged cells are preventing this operation. Unmerge those cells and try again.":
    "Merged cells are in the way: unmerge them first.",
  "This operation is not allowed with multiple selections.":
    "Select one block of cells for this, not several.",
  "This operation is not allowed due to an overlapping frozen pane.":
    "Frozen rows or columns are in the way: unfreeze them first, under View.",
  "The data you entered in %s violates the data validation rule set on the cell:\n%s":
    "%s does not take that: %s.",
  "Pasting from the context menu is not supported in this browser. Use keyboard shortcuts ctrl+c / ctrl+v instead.":
    "This browser pastes by keyboard only: Ctrl+V.",
  "Access to the clipboard denied by the browser. Please enable clipboard permission for this page in your browser settings.":
    "This browser does not let the page read what was copied: paste by Ctrl+V.",
  "You cannot create overlapping tables.": "A table stands there already: choose other cells.",
  "Readonly Access": "Reads only",
};

// The codes of two errors, which stand in the cell itself, are Excel's for the same faults.
Object.assign(engine.CellErrorType, { BadExpression: "#NAME?", GenericError: "#VALUE!" });
engine.setTranslationMethod(((text: string) => WORDS[text] ?? text) as never);
