/** Signs of comparison as a sentence has them, where the comparison holds and where it does not. */
export const COMPARED: Record<string, { holds: string; fails: string } | undefined> = {
  "=": { holds: "is", fails: "is not" },
  "<>": { holds: "is not", fails: "is" },
  ">": { holds: "is more than", fails: "is not more than" },
  "<": { holds: "is less than", fails: "is not less than" },
  ">=": { holds: "is at least", fails: "is less than" },
  "<=": { holds: "is at most", fails: "is more than" },
};
