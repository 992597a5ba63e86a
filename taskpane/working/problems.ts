/** Why a line has no number, and how to mend it. */
import { type CatalogEntry, NAMESPACE } from "../../functions/catalog/entry.ts";
import type { Fault } from "../../functions/bind/cell.ts";
import type { ShownInput } from "./inputs.ts";

export interface CellProblem {
  reason: string;
  mend: string;
  /** Where it is not the number that is missing. */
  title?: string;
}

/** The error text of an argument of which the workbook cannot say what it holds. */
export const COULD_NOT_BE_READ = "what it holds could not be read here";

/**
 * What is wrong with a line of a call, or with a formula around calls that are right; a blank line
 * has no fault.
 */
export function problemOf(
  entry: CatalogEntry | null,
  inputs: ShownInput[],
  fault?: Fault,
): CellProblem {
  if (!fault) {
    return {
      reason: "Nothing is filled in on this line, so it shows blank.",
      mend: `Fill in ${placesOf(inputs)}.`,
    };
  }
  if (fault.text === COULD_NOT_BE_READ) {
    const unread = inputs.filter((input) => input.fault !== undefined).map(({ name }) => name);
    const what = unread.join(" and ");
    return {
      reason: `What ${what} holds is worked out within the formula, where it cannot be read.`,
      mend: "To see the working, put that part into a cell of its own and refer to it.",
      title: "Why there is no working",
    };
  }
  // An error that came in goes out as it is, in whatever words its own cause was told.
  const passed = inputs.find((input) => input.fault !== undefined && input.says === fault.text);
  if (passed) {
    const where = passed.place ? `, from ${passed.place},` : "";
    const text = fault.text ? `: ${fault.text}` : "";
    const cause = passed.place ?? `what ${passed.name} is worked out from`;
    return {
      reason: `The argument ${passed.name}${where} is the error ${passed.fault}${text}.`,
      mend: `Mend ${cause} first; this one then follows.`,
    };
  }
  if (fault.text && entry)
    return { reason: sentence(fault.text), mend: mendOf(fault.text, inputs) };
  return OF_THE_SHEET[fault.fault] ?? { reason: `The formula gives ${fault.fault}.`, mend: LOOK };
}

/** The same of a part that the formula does without. */
export function notNeeded(problem: CellProblem): CellProblem {
  if (problem.title) return problem;
  return {
    reason: problem.reason,
    mend: "Nothing needs mending here: the formula has an answer without this part.",
    title: "Why this part gives no number",
  };
}

/** An error that a cell has from another one. */
export function cameFrom(noun: string, place: string, { fault }: Fault): CellProblem {
  return {
    reason: `${noun} holds the error ${fault}.`,
    mend: `Mend ${place} first; this one then follows.`,
  };
}

/** An error of a formula without functions of ours. */
export function nativeProblem({ fault }: Fault): CellProblem {
  if (fault === "#DIV/0!")
    return {
      reason: "The formula divides by zero or by a blank.",
      mend: "Fill in what is divided by: the cells are named below.",
    };
  if (fault === "#N/A")
    return {
      reason: "Something that the formula looks for is not there.",
      mend: "Look at the cells below: is a name written otherwise, or missing from the list?",
    };
  return {
    reason: `The formula gives the error ${fault}.`,
    mend: "Look at the cells below: is there a word where a number belongs, or a sheet that is gone?",
  };
}

const LOOK =
  "Our functions in it have answers, as shown: " +
  "look at what the rest of the formula does with them.";

/** Errors that the sheet itself makes. */
const OF_THE_SHEET: Record<string, CellProblem> = {
  "#SPILL!": {
    reason: "The answer fills several cells, and one of them is not empty.",
    mend: "Empty the cells below or to the right, or move the formula to where there is room.",
  },
  "#NAME?": {
    reason: "The sheet does not know a name in this formula.",
    mend:
      `Check the spelling. Where it is a ${NAMESPACE} function that came with the file, ` +
      "press Repair under Hand over.",
  },
  "#BUSY!": {
    reason: "The function has not answered yet.",
    mend: "Wait a moment, then select the cell again.",
  },
  "#N/A": {
    reason: "The ranges are of unlike length: one of them has ended.",
    mend: "Give ranges of the same length, or single cells.",
  },
  "#DIV/0!": { reason: "The rest of the formula divides by zero or by a blank.", mend: LOOK },
};

/** The argument that an error's text opens with, and its cell. */
function mendOf(text: string, inputs: ShownInput[]): string {
  const opening = text.replace(/( must | is |, got).*$/s, "");
  const named = inputs.filter(({ name }) => new RegExp(`\\b${name}\\b`).test(opening));
  const [first] = named;
  if (!first) return `Change ${placesOf(inputs)}.`;
  const where = first.place ? `in ${first.place}` : `for ${first.name} in the formula`;
  if (/is needed/.test(text)) return `Give ${first.name} (${first.text.replace(/\.$/, "")}).`;
  const hint = /: (type .+|retype .+)$/.exec(text)?.[1];
  if (hint) return `${capital(hint)} ${where}.`;
  if (/ is blank| blank or zero/.test(text))
    return `Fill in ${first.name} in ${first.place ?? "the formula"}: ${first.text}`;
  return `Change ${named.map(placed).join(" or ")}: ${first.text}`;
}

function placesOf(inputs: ShownInput[]): string {
  const placedInputs = inputs.filter(({ place }) => place);
  return (placedInputs.length > 0 ? placedInputs : inputs).map(placed).join(", ");
}

function placed({ name, place }: ShownInput): string {
  return place ? `${name} in ${place}` : name;
}

function sentence(text: string): string {
  return `${capital(text)}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
