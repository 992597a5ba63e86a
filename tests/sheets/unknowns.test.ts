/** Unknown is not zero on the costing sheets: what each says when one of its cells is left blank. */
import { describe, expect, test } from "vitest";
import { cellName } from "../../functions/formula/addresses";
import { insertTemplate } from "../../taskpane/sheets/insert";
import { drawingOf, placeOf } from "../../taskpane/sheets/drawing";
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

/** The cells of a row of a sheet. */
function rowOf(title: string, name: string) {
  const row = placeOf(titled(title), name).match(/\d+/)?.[0];
  return new RegExp(`^[A-Z]+${row}$`);
}

/** Cells that may be blank, as nothing on purpose: the sheet's notes say so, or nothing depends on them. */
const MAY_BE_BLANK: Record<string, RegExp> = {
  // Free-freight sums, scores. A blank number of a sample leaves its own line.
  "Base comparison": /^(I|X)\d+$/,
  // A price of one's own.
  "Bottle cost": rowOf("Bottle cost", "retail.own"),
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
  ["Buying plan", "N18", "P18"],
  ["Trial batch", "B13", "B16"],
])(
  "%s takes no density in pounds per gallon: %s makes %s an error",
  async (title, cell, answer) => {
    const { put, at } = await sheet(title);
    put(cell, "8.5");
    expect(at(answer)).toMatch(/^#VALUE! density must be from 0 to 3 g\/mL, got 8.5: pounds/);
  },
);
