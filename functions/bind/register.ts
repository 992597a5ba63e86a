/** All worksheet functions at once, for hosts that have them in one piece. */
import type { Grid } from "./cell.ts";
import { type FunctionsHost, associate } from "./host.ts";
import { lateList } from "./late-list.ts";
import { lift } from "./lift.ts";
import { list } from "./list.ts";
import { boundOf } from "./listed.ts";

const all = [...list, ...lateList];

/** A function in its worksheet form. */
export function worksheetFunction({ id }: { id: string }): (...args: unknown[]) => Grid {
  const found = all.find(([each]) => each === id);
  if (!found) throw new Error(`there is no function ${id}`);
  return lift(boundOf(found), found[2]);
}

/** Registers them all. */
export function register<E>(host: FunctionsHost<E>): void {
  associate(host, all);
}
