/**
 * Functions that make lists out of nothing are held to a size that is worked out in a moment: SEQUENCE(1000000,100)
 * kept the page from answering for minutes.
 */
import { engine } from "./engine.ts";

/** Cells at most that one call makes: a whole column of the largest sheet, and some more. */
const MOST = 2 ** 21;

/** Where the numbers of rows and columns stand among the inputs, the first being 0; MUNIT is as wide as high. */
const SIZES: Record<string, [rows: number, columns: number]> = {
  SEQUENCE: [0, 1],
  RANDARRAY: [0, 1],
  MUNIT: [0, 0],
  EXPAND: [1, 2],
};

const functions = engine.registries.functionRegistry;

for (const [name, [rows, columns]] of Object.entries(SIZES)) {
  const description = functions.get(name);
  const { compute } = description;
  functions.replace(name, {
    ...description,
    compute(...inputs) {
      const size = (place: number) => {
        const input = inputs[place];
        const value = Number(input && "value" in input ? input.value : 1);
        return Number.isFinite(value) ? Math.max(1, value) : 1;
      };
      const cells = size(rows) * size(columns);
      if (cells <= MOST) return compute.apply(this, inputs);
      return {
        value: "#VALUE!",
        message: `${name} would make ${cells.toLocaleString("en")} cells; at most ${MOST.toLocaleString("en")} are made here.`,
      };
    },
  });
}
