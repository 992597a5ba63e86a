/** What the build refuses, and where it stands. */
import type ts from "typescript";

export interface Problem {
  file: string;
  line: number;
  reason: string;
}

export class BuildRefusal extends Error {
  constructor(
    reason: string,
    readonly node?: ts.Node,
  ) {
    super(reason);
  }
}

export function refuse(reason: string, node?: ts.Node): never {
  throw new BuildRefusal(reason, node);
}

/**
 * Runs a part of the reading; what it refuses is noted, so that the other parts are read all the
 * same.
 */
export type Attempt = <T>(node: ts.Node, read: () => T) => T | undefined;
