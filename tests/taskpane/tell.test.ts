/** What the pane tells leaves when it may no longer hold. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { tellIn } from "../../taskpane/pane/tell";

const A1 = { sheet: "Costs", row: 0, column: 0 };

let change: () => void;
let selected = A1;
const status = { className: "", textContent: "" } as HTMLElement;
const workbook = {
  selection: async () => selected,
  onChange: async (listener: () => void) => {
    change = listener;
  },
};

beforeEach(() => {
  vi.useFakeTimers();
  selected = A1;
});
afterEach(() => vi.useRealTimers());

/** Some time later the workbook changes. */
async function later(ms: number) {
  vi.advanceTimersByTime(ms);
  change();
  await vi.advanceTimersByTimeAsync(0);
}

test("that something was done stays for what it does itself, and leaves with the next change", async () => {
  await tellIn(status, workbook)(async () => "Three formulas are there.");
  expect([status.textContent, status.className]).toEqual([
    "Three formulas are there.",
    "status done",
  ]);
  await later(500);
  expect(status.textContent).toBe("Three formulas are there.");
  await later(5000);
  expect(status.textContent).toBe("");
});

test("a refusal stays while one looks around, and leaves when another cell is selected", async () => {
  await tellIn(status, workbook)(() => Promise.reject(new Error("B2 is filled.")));
  await later(5000);
  expect([status.textContent, status.className]).toEqual(["B2 is filled.", "status failed"]);
  selected = { ...A1, row: 4 };
  await later(1);
  expect(status.textContent).toBe("");
});
