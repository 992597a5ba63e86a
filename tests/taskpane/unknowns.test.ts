/** Unknown is not zero on the costing sheets: what each says when one of its cells is left blank. */
import { describe, expect, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { drawingOf } from "../../taskpane/sheets/drawing";
import { templates } from "../../taskpane/templates/index";
import { LocalWorkbook, newModel, read, write } from "../localsheet/load-engine";

const titled = (title: string) =>
  templates.find((each) => each.title === title) as (typeof templates)[0];

async function sheet(title: string, filled = true) {
  const model = newModel();
  await insertTemplate(new LocalWorkbook(model), titled(title), { where: "new sheet", filled });
  return {
    put: (name: string, content: string) => write(model, name, content),
    at: (name: string) => read(model, name),
    all: (names: string) => names.split(" ").map((name) => read(model, name)),
  };
}

/** Cells that may be blank, as nothing on purpose: the sheet's notes say so, or nothing depends on them. */
const MAY_BE_BLANK: Record<string, RegExp> = {
  // Free-freight sums, scores. A blank number of a sample leaves its own line.
  "Base comparison": /^(I|X)\d+$/,
  // A price of one's own; the pack price of an ingredient makes the liquid an error.
  "Bottle cost": /^B40$/,
  // Lost, on hand, free-freight sums.
  "Buying plan": /^(L(18|21|24)|H21|C(9|10|11))$/,
  "Size run": /^$/,
  "Trial batch": /^$/,
};

describe.each(Object.entries(MAY_BE_BLANK))("%s", (title, mayBeBlank) => {
  const drawing = drawingOf(titled(title), true);
  const named = drawing.cells.map((cell) => ({ ...cell, name: cellName(cell.row, cell.column) }));
  const inputs = named.filter(
    ({ look, content, name }) =>
      look === "input" && typeof content === "number" && !mayBeBlank.test(name),
  );

  test("any number left blank is told: an answer goes, or words come", async () => {
    const { put, at } = await sheet(title);
    const shown = named.filter(({ look }) => look !== "input").map(({ name }) => name);
    const before = new Map(shown.map((name) => [name, at(name)]));
    expect(inputs.length).toBeGreaterThan(7);
    for (const { name, content } of inputs) {
      put(name, "");
      const told = shown.filter((each) => {
        const value = at(each);
        return typeof value === "string" && value !== before.get(each);
      });
      expect(told, `${title} ${name}`).not.toEqual([]);
      put(name, String(content));
    }
    expect(shown.map(at)).toEqual([...before.values()]);
  });
});

describe("Bottle cost", () => {
  test("packaging and work that are blank are not free; a zero is", async () => {
    const { put, at, all } = await sheet("Bottle cost");
    const cost = at("B33") as number;
    put("B23", "");
    expect(all("C23 B31 C31 B33 C33 B39 B43 B51 G31")).toEqual([
      "type 0 if there is none",
      "",
      "not known: see above",
      "",
      "not known: see above",
      "",
      "",
      "",
      "",
    ]);
    put("B23", "0");
    // By hand: the sprayer of 0.38 less.
    expect(at("B33")).toBeCloseTo(cost - 0.38, 12);
    put("B27", "");
    expect(all("B32 B33 C32")).toEqual(["", "", "not known: see above"]);
  });

  test("an ingredient without a price, or without a share, says so on its line", async () => {
    const { put, at } = await sheet("Bottle cost");
    put("C16", "");
    expect([at("H16"), at("B30")]).toEqual(["price?", "#VALUE! unitcosts, cell 2, is blank"]);
    put("C16", "27.4");
    put("B17", "");
    expect(at("H17")).toBe("share?");
    put("B17", "0");
    expect(at("H17")).toBe(0);
  });

  test("a density that is none is an error with words beside it, never another cost", async () => {
    const { put, at } = await sheet("Bottle cost");
    // Pounds per US gallon.
    put("B8", "8.5");
    expect(at("B11")).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
    expect(at("C11")).toBe("g: look at size and density");
    expect(at("B33")).toMatch(/^#VALUE!/);
    put("B8", "0.87");
    put("F15", "8.5");
    expect(at("G15")).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
    expect([at("B30"), at("C30")]).toEqual([
      expect.stringMatching(/^#VALUE! density must be/),
      "not known: see above",
    ]);
    // A pack by weight needs no density, and still takes none that is wrong.
    put("F15", "0.85");
    put("F16", "8.5");
    expect(at("G16")).toMatch(/^#VALUE! density must be/);
  });

  test("markup is the price less the cost, over the cost", async () => {
    const { at } = await sheet("Bottle cost");
    const cost = at("B33") as number;
    expect(at("B45")).toBeCloseTo((14 - cost) / cost, 12);
    // By hand: a margin of 25 % without fees is a markup of a third.
    expect(at("C45")).toBeCloseTo(1 / 3, 12);
  });

  test("a price needs its fees, its bottles and the fixed costs; a column that is not used needs none", async () => {
    const { put, at, all } = await sheet("Bottle cost");
    expect(all("A46 C51")).toEqual(["", ""]);
    put("C37", "");
    expect(all("C39 C42 C43 C44")).toEqual(["", "", "", ""]);
    expect(at("A46")).toBe("A price needs a margin or your own sum, and both fees: 0 if none.");
    for (const name of ["C36", "C38"]) put(name, "");
    expect(at("A46")).toBe("");
    expect([at("B51"), at("C51")]).toEqual([
      "",
      "Not known: type the fixed costs and the bottles of each price, 0 if none.",
    ]);
    put("C50", "");
    expect(at("B51")).toBeCloseTo(90 * (at("B43") as number) - 180, 9);
    put("B48", "");
    expect(all("B49 B51")).toEqual(["", ""]);
    put("B48", "0");
    expect(at("B49")).toBe(0);
  });

  test("what is nothing by leaving it blank is said in words", async () => {
    const { put, all } = await sheet("Bottle cost");
    put("B9", "");
    put("B10", "");
    expect(all("C9 C10")).toEqual(["none: filled to the mark", "none lost"]);
  });
});

describe("Size run", () => {
  test("a size without its count, or a count without its size, is told where it stands", async () => {
    const { put, at, all } = await sheet("Size run");
    expect(all("D16 E16 A25 C9 C11")).toEqual(["", "", "", "", ""]);
    put("E14", "");
    expect([at("E16"), at("D19")]).toEqual(["how many?", "#VALUE! counts, cell 2, is blank"]);
    put("E14", "0");
    expect(all("E16 E19 E23")).toEqual(["", 0, 0]);
    put("E13", "");
    expect(at("E16")).toBe("which size?");
    put("E14", "3");
    expect(at("D19")).toBe("#VALUE! fills, cell 2, is blank");
  });

  test("an oil without a load, a basis, an overfill and a tolerance that are blank are told", async () => {
    const { put, all } = await sheet("Size run");
    for (const name of ["B21", "B7", "B9", "B11"]) put(name, "");
    expect(all("A25 C7 C9 C11 C20")).toEqual([
      "An oil without a load is left out: type its load, or 0.",
      "say which: finished or base",
      "none: filled to the mark",
      "blank: 5 % is taken",
      "#VALUE! from is blank",
    ]);
  });
});

describe("Trial batch", () => {
  test("a pour that is left blank stays blank, beside the others", async () => {
    const { put, all } = await sheet("Trial batch");
    const others = all("B23 B24 D23 D24 B32 B33 D32 D33");
    put("C19", "");
    expect(all("C20 C21 C22 C23 C24 C25 C26")).toEqual(["", "", "", "", "", "", ""]);
    for (const name of ["C29", "C30"]) put(name, "");
    expect(all("C31 C32 C33")).toEqual(["", "", ""]);
    expect(all("B23 B24 D23 D24 B32 B33 D32 D33")).toEqual(others);
    put("C19", "5%");
    expect(all("C31 C32 C33")).toEqual(["", "", ""]);
  });

  test("half a reading is told, and so are defaults", async () => {
    const { put, at, all } = await sheet("Trial batch");
    put("B30", "");
    expect(all("B31 B32")).toEqual(["#VALUE! base is blank", "#VALUE! base is blank"]);
    put("B30", "19.4");
    put("B29", "");
    expect(at("B31")).toBe("#VALUE! oil is blank");
    put("B9", "");
    put("B12", "");
    expect(all("C9 C12")).toEqual(["blank: of the finished batch", "blank: 5 % is taken"]);
    put("B11", "");
    expect(all("B23 B25")).toEqual(["", "#VALUE! readability is blank"]);
    // A pour without oil, for comparison.
    put("B11", "0.1");
    put("B19", "0");
    expect(all("B20 B22 B25 B26")).toEqual([0, 0, "", ""]);
  });
});

test.each([
  ["Base comparison", "F20", "L20"],
  ["Bottle cost", "F15", "G15"],
  ["Buying plan", "N18", "P18"],
  ["Size run", "B8", "D15"],
  ["Trial batch", "B13", "B16"],
])(
  "%s takes no density in pounds per gallon: %s makes %s an error",
  async (title, cell, answer) => {
    const { put, at } = await sheet(title);
    put(cell, "8.5");
    expect(at(answer)).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
  },
);
