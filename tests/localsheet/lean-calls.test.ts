/** A lean call gives what the engine's own gives, whatever it is called with. */
import { createRequire } from "node:module";
import { expect, test } from "vitest";
import type { Engine } from "../../localsheet/engine";
import { newModel } from "./load-engine";

const require = createRequire(import.meta.url);
const path = require.resolve("@odoo/o-spreadsheet");

/** The engine as it comes, beside the one that the local sheet made lean. */
const asItComes = (() => {
  const [loaded, parser] = [require.cache[path], globalThis.DOMParser];
  delete require.cache[path];
  // It looks for a page while it is loaded, and would take ours for one.
  Reflect.deleteProperty(globalThis, "DOMParser");
  try {
    return require(path) as Engine;
  } finally {
    require.cache[path] = loaded;
    globalThis.DOMParser = parser;
  }
})();

type Functions = Engine["registries"]["functionRegistry"];

const context = (functions: Functions) => {
  const { getters } = newModel();
  const given = {
    locale: getters.getLocale(),
    getters,
    __originSheetId: getters.getActiveSheetId(),
  };
  return Object.assign(Object.create(functions.mapping), given);
};

/** Made anew for each call: a call may write into what it is given. */
const INPUTS: (() => unknown)[] = [
  () => ({ value: 2 }),
  () => ({ value: 0 }),
  () => ({ value: -0.5, format: "0%" }),
  () => ({ value: "words" }),
  () => ({ value: "" }),
  () => ({ value: null }),
  () => ({ value: true }),
  () => ({ value: ">1" }),
  () => ({ value: "#N/A", message: "not found by [[FUNCTION_NAME]]" }),
  () => ({ value: "#DIV/0!" }),
  () => [[{ value: 3 }]],
  () => [[{ value: 3 }, { value: "a" }, { value: 5 }]],
  () => [[{ value: 1 }], [{ value: 2 }], [{ value: 3 }]],
  () => [
    [{ value: 1 }, { value: 2 }],
    [{ value: "#REF" }, { value: null }],
  ],
  () => undefined,
];

/** Another number each time, or more cells than a test has time for; what our own file of the engine replaces. */
const APART = new Set([
  "RAND",
  "RANDBETWEEN",
  "RANDARRAY",
  "NOW",
  "TODAY",
  "SEQUENCE",
  "MUNIT",
  "EXPAND",
  "CONCAT",
]);

/** What a call gives, or throws, written out: texts that wait for their language are texts then. */
function given(functions: Functions, self: unknown, name: string, picks: number[]): string {
  const inputs = picks.map((pick) => INPUTS[pick]?.());
  try {
    return JSON.stringify(functions.mapping[name]?.apply(self as never, inputs as never));
  } catch (thrown) {
    return `throws ${String((thrown as Error).message)}`;
  }
}

test("every function, called with cells, ranges, errors and blanks", () => {
  const ours = globalThis.o_spreadsheet.registries.functionRegistry;
  const theirs = asItComes.registries.functionRegistry;
  const [self, other] = [context(ours), context(theirs)];
  // A generator of the same numbers in each run: what fails can be run again.
  let seed = 20_261_129;
  const next = (below: number) => {
    seed = (Math.imul(seed, 1_103_515_245) + 12_345) >>> 0;
    return Math.floor((seed / 2 ** 32) * below);
  };
  let calls = 0;
  const told = console.error;
  console.error = () => undefined;
  try {
    for (const name of theirs.getKeys()) {
      if (APART.has(name)) continue;
      const { minArgRequired, nbrArgRepeating, nbrOptionalNonRepeatingArgs } = theirs.get(name);
      for (let k = 0; k < 60; k++) {
        // As many as the engine lets a formula have.
        const more = next(nbrOptionalNonRepeatingArgs + 1) + nbrArgRepeating * next(3);
        const count = minArgRequired + more;
        const picks = Array.from({ length: count }, () => next(INPUTS.length));
        const [lean, full] = [given(ours, self, name, picks), given(theirs, other, name, picks)];
        expect(lean, `${name} of ${picks.join(", ")}`).toBe(full);
        calls++;
      }
    }
  } finally {
    console.error = told;
  }
  expect(calls).toBeGreaterThan(15_000);
});

test("a function that is added later is lean as well, and tells its own name", () => {
  const ours = globalThis.o_spreadsheet.registries.functionRegistry;
  const description = {
    description: "",
    args: [{ name: "n", description: "", type: ["NUMBER" as const] }],
    compute: () => ({ value: "#N/A", message: "[[FUNCTION_NAME]] has nothing" }),
  };
  ours.add("TRIED.ONCE", description);
  const said = ours.mapping["TRIED.ONCE"]?.apply(context(ours), [{ value: 1 }]);
  expect(said).toEqual({ value: "#N/A", message: "TRIED.ONCE has nothing" });
  ours.remove("TRIED.ONCE");
});
