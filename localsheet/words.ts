/**
 * The engine's sentences in plain words, each with a mend. They pass through its translation hook and
 * that of its page, so that tooltips, notices, menus and refusals all speak them. Of a sentence that is not here, the engine's own
 * is shown, its inner words in plain ones. %s and %(name)s are the engine's places, in its order.
 */
import { engine } from "./engine.ts";

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
    'There is no function "%s": look at its spelling, or search under Functions in the pane. Those of Mistwright begin with MIST.',
  "Unknown function":
    "There is no such function: look at its spelling, or search under Functions in the pane.",
  "Invalid expression":
    "This formula cannot be read: look for a missing bracket, sign or quotation mark. Its decimals have a point: 5.5.",
  "Invalid formula":
    "This formula cannot be read: a name in it is not known here. Words stand between quotation marks.",
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
  "[[FUNCTION_NAME]] evaluates to an out of bounds range.":
    "[[FUNCTION_NAME]] is asked for a row or column that its cells do not have: give it more cells, or a smaller number.",
  "OFFSET evaluates to an out of bounds range.":
    "OFFSET leads off the sheet: give it smaller numbers.",
  "Index out of range.":
    "There are fewer rows or columns than the number asked for: type a smaller one.",
  "Did not find value '%s' in [[FUNCTION_NAME]] evaluation.":
    "'%s' is not among the cells that [[FUNCTION_NAME]] looks through: look at its spelling, or add it there.",
  "No match found in FILTER evaluation": "No row meets the condition of FILTER.",
  "Some used characters are not allowed in a sheet name (Forbidden characters are %s).":
    "A sheet cannot be called that: at most 31 characters, none of %s, and not History.",
  "The data you entered in %s violates the data validation rule set on the cell:\n%s":
    "%s does not take that: %s.",
  "Pasting from the context menu is not supported in this browser. Use keyboard shortcuts ctrl+c / ctrl+v instead.":
    "This browser pastes by keyboard only: Ctrl+V.",
  "Access to the clipboard denied by the browser. Please enable clipboard permission for this page in your browser settings.":
    "This browser does not let the page read what was copied: paste by Ctrl+V.",
  "You cannot create overlapping tables.": "A table stands there already: choose other cells.",
  "Readonly Access": "Reads only",
  "e.g. 'http://www.odoo.com'": "such as https://example.org",
  "Evaluation of function [[FUNCTION_NAME]] caused a divide by zero error.": NO_DIVISOR,
  "Function [[FUNCTION_NAME]] caused a divide by zero error.": NO_DIVISOR,
  "Function [[FUNCTION_NAME]] expects number values for %s, but got a string.":
    "[[FUNCTION_NAME]] needs numbers as its input %s, and words stand there.",
  "Function [[FUNCTION_NAME]] expects number values for %s, but got a boolean.":
    "[[FUNCTION_NAME]] needs numbers as its input %s, and TRUE or FALSE stands there.",
  "Function [[FUNCTION_NAME]] expects criteria_range and criterion to be in pairs.":
    "[[FUNCTION_NAME]] needs a condition after each range that it looks through.",
  "[[FUNCTION_NAME]] expects the provided values of %(argName)s to be a non-empty matrix.":
    "[[FUNCTION_NAME]] needs filled cells as its input %(argName)s.",
  "[[FUNCTION_NAME]] has mismatched dimensions for argument %s (%s vs %s).":
    "The ranges of [[FUNCTION_NAME]] are not of one size, as its input %s shows: %s and %s.",
  "[[FUNCTION_NAME]] has mismatched argument count %s vs %s.":
    "The ranges of [[FUNCTION_NAME]] are not of one length: %s and %s cells.",
  "An unexpected error occurred. Submit a support ticket at odoo.com/help.":
    "This could not be worked out. Look at each cell that it reads.",
  "Spill range is not empty":
    "The answer fills more cells than there is room for: empty the cells beside and below.",
  "Gets the spilled range of an array formula.":
    "The cells that the answer of a formula fills, all of them.",
  "The reference to get the spilled range from.": "The cell that holds the formula.",
  "Only single-cell references are allowed to get the spilled range.":
    "The name of one cell is needed here, such as A1.",
  "This sheet is locked and cannot be modified. Please unlock it first.":
    'This sheet is locked against typing: right-click its tab, then "Unlock for typing".',
  "Lock sheet": "Lock against typing",
  "Unlock sheet": "Unlock for typing",
  "Choice is undefined.": "There is nothing to choose at that place.",
  "(Undefined)": "(no name)",
  "The condition to be evaluated. It can be a boolean, a number, an array, or a reference to any of those.":
    "What must hold: TRUE or FALSE, a number, or cells with these.",
};

/** Inner words of the engine, and what a maker calls them. */
const PLAINER: [inner: RegExp, plain: string][] = [
  [/\b(the )?function \[\[FUNCTION_NAME\]\]/gi, "[[FUNCTION_NAME]]"],
  [/\bpositive or null\b/g, "zero or more"],
  [/\bcan be coerced to\b/g, "can be read as"],
  [/\b(a )?booleans?( indicating)?\b/gi, "TRUE or FALSE"],
  [/\bstring\b/g, "text"],
  [/\bString\b/g, "Text"],
  [/\bdataset\b/g, "list of values"],
  [/\bone-dimensional array\b/g, "row or column"],
  [/\bsame dimensions?\b/g, "same number of rows and columns"],
  [/\bcriterion\b/g, "condition"],
  [/\bCriterion\b/g, "Condition"],
  [/\bcriteria\b/g, "conditions"],
  [/\bCriteria\b/g, "Conditions"],
  [/\b(argument|parameter)(s?)\b/g, "input$2"],
  [/\b(Argument|Parameter)(s?)\b/g, "Input$2"],
  [/\barray formulas\b/g, "formulas that fill several cells"],
  [/\bzone\b/g, "range of cells"],
  [/ has mismatched (range )?sizes\b/g, " needs ranges of one size"],
];

export function plain(text: string): string {
  return (
    WORDS[text] ?? PLAINER.reduce((said, [inner, words]) => said.replaceAll(inner, words), text)
  );
}

// The codes of two errors, which stand in the cell itself, are Excel's for the same faults.
Object.assign(engine.CellErrorType, { BadExpression: "#NAME?", GenericError: "#VALUE!" });
engine.setTranslationMethod((text, ..._values) => plain(text));

// Not offered while one types: pivots are no part of a costing sheet, and signs are typed as signs.
const SIGNS = "ADD DIVIDE EQ GT GTE LT LTE MINUS MULTIPLY NE POW UMINUS UNARY.PERCENT UPLUS";
for (const name of ["PIVOT", "PIVOT.VALUE", "PIVOT.HEADER", ...SIGNS.split(" ")])
  engine.registries.functionRegistry.get(name).hidden = true;
