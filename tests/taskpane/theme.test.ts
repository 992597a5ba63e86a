import { afterAll, beforeEach, expect, test, vi } from "vitest";
import { darkness, followTheme } from "../../taskpane/pane/theme";

const dataset: { theme?: string } = {};

beforeEach(() => {
  delete dataset.theme;
  vi.stubGlobal("document", { documentElement: { dataset } });
});

// Other tests of the same worker load the engine, which looks for a page.
afterAll(() => vi.unstubAllGlobals());

test("a ground is dark or light, or not told", () => {
  // White, light grey, middle grey, dark grey and black, about as Office's themes have them; from memory.
  const seen = ["#FFFFFF", "#E6E6E6", "#666666", "#262626", "0A0A0A", "red", ""].map(darkness);
  expect(seen).toEqual([false, false, true, true, true, undefined, undefined]);
});

test("the pane takes Office's theme, and another one when it changes", () => {
  let tell: (told: object) => void = () => undefined;
  const document = { addHandlerAsync: (_: unknown, heard: typeof tell) => void (tell = heard) };
  followTheme({ officeTheme: { bodyBackgroundColor: "#262626" }, document }, "changed");
  expect(dataset.theme).toBe("dark");
  tell({ officeTheme: { bodyBackgroundColor: "#FFFFFF" } });
  expect(dataset.theme).toBe("light");
});

test("where Office tells none, or has no such event, the system's is followed", () => {
  followTheme({}, "changed");
  expect(dataset.theme).toBeUndefined();
  const document = {
    addHandlerAsync: () => {
      throw new Error("not supported");
    },
  };
  followTheme({ officeTheme: { bodyBackgroundColor: "#262626" }, document }, "changed");
  expect(dataset.theme).toBe("dark");
});
