/** What is shown of every formula cell of the whole set, filled with the demo, can be read aloud. */
import { expect, test } from "vitest";
import { catalog } from "../../functions/catalog/catalog";
import { NAMESPACE } from "../../functions/catalog/entry";
import { type Explained, explain } from "../../taskpane/working/explain";
import { LocalWorkbook, newModel } from "../localsheet/load-engine";
import { wholeSet } from "./whole-set";

/** All that the pane shows of a cell, but for the folded formula. */
async function shownTexts(explained: Explained): Promise<string[]> {
  const { sentences, how, goesIn } = await explained.inWords("six");
  const calls = explained.calls.flatMap((call) => {
    const { inputs, steps, said, problem } = call.at(call.line);
    return [
      ...inputs.flatMap(({ value, from }) => [value, from]),
      ...steps.flatMap(({ sentence, table }) => [sentence, ...(table?.lines.flat() ?? [])]),
      said.all,
      said.cell?.says ?? "",
      ...(problem ? [problem.reason, problem.mend] : []),
    ];
  });
  const { problem } = explained;
  return [
    `${explained.place} shows ${explained.shows("six")}`,
    ...(problem ? [problem.reason, problem.mend] : []),
    ...sentences,
    ...how,
    ...goesIn.flatMap(({ label, value, place }) => [label, value, place]),
    ...calls,
  ];
}

/** What nobody can read aloud: names of native functions, arrays, held references, inner names. */
const UNREADABLE = [
  /\b(?:ISERROR|IFERROR|ISNUMBER|ISTEXT|VLOOKUP|COUNTIFS?|SUMIFS?|MINIFS|MAXIFS|SUMPRODUCT|TEXTJOIN)\b/,
  /\b(?:INDEX|MATCH|IF|SUM|ROW|AND|OR)\(/,
  /[{}]|\$[A-Z]+\$?\d|#REF|undefined|NaN|\[object|\.\*/,
  /(?<![\w/])[a-z]+[A-Z]\w*(?!\w)/,
  /(?<![\d.])1 (?:pieces|bottles|lines|cells|numbers|drops|rows)\b/,
  / {2}|,,|\(\)|" "| ,/,
];

/** Units are written with a capital within. */
const UNITS = /\b(?:mL|dL|fl oz|g\/mL)\b/g;

/** What the bench sheet prints for a tick. */
const TICK_BOX = "[   ]";

/** Numbers of more than six digits; codes of rules and dates are words of the sheet. */
function isTooFine(text: string): boolean {
  const numbers = text.match(/(?<![\w.-])\d+\.\d+(?![\w.-])/g) ?? [];
  return numbers.some((number) => number.replace(".", "").replace(/^0+/, "").length > 6);
}

const faultsOf = (texts: readonly string[]) =>
  texts.filter((text) => {
    const plain = text.replaceAll(UNITS, "unit").replaceAll(TICK_BOX, "a box to tick");
    return isTooFine(plain) || UNREADABLE.some((pattern) => pattern.test(plain));
  });

test("every formula cell of the whole set", async () => {
  const { workbook } = await wholeSet();
  const cells = await workbook.formulas();
  const faults: string[] = [];
  let told = 0;
  for (const { spot } of cells) {
    const explained = await explain(workbook, spot);
    const texts = await shownTexts(explained);
    for (const fault of faultsOf(texts)) faults.push(`${explained.place}: ${fault}`);
    const { sentences } = await explained.inWords("six");
    if (explained.calls.length > 0 || !/these cells\.|cells below\.$/.test(sentences[0] ?? ""))
      told++;
  }
  console.log(
    `${cells.length} cells were read, ${told} of them have a reason or a working in words`,
  );
  expect([...new Set(faults)]).toEqual([]);
  // 7,986 when this was written, 7,781 of them with a reason or a working.
  expect(cells.length).toBeGreaterThan(7000);
  expect(told / cells.length).toBeGreaterThan(0.95);
}, 600_000);

test("every example of every function", async () => {
  const formulas = catalog.flatMap(({ examples }) => examples.map(({ formula }) => formula));
  for (const formula of formulas) {
    const cells = { B2: `=${NAMESPACE}.${formula}` };
    const workbook = new LocalWorkbook(newModel({ sheets: [{ id: "s", name: "Mine", cells }] }));
    const explained = await explain(workbook, { sheet: "Mine", row: 1, column: 1 });
    expect(faultsOf(await shownTexts(explained)), formula).toEqual([]);
  }
  console.log(`${formulas.length} examples were read`);
}, 120_000);
