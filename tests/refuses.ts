import { expect } from "vitest";
import { CalcError } from "../src/index";

/** Expects a CalcError with exactly this text. */
export function refuses(run: () => unknown, text: string) {
  let thrown: unknown;
  try {
    run();
  } catch (error) {
    thrown = error;
  }
  expect(thrown).toBeInstanceOf(CalcError);
  expect((thrown as CalcError).message).toBe(text);
}
