/** SUMPRODUCT in words: lines that are counted, or products that are added up. */
import { type Call, type Node, calleeOf, constantOf } from "../../functions/formula/tree.ts";
import { COMPARED } from "./compared.ts";

/** The name of a part, or null. */
type NounOf = (node: Node) => Promise<string | null>;

/** What a SUMPRODUCT counts or adds up; null where that has no plain words. */
export async function linesNoun(node: Call, nounOf: NounOf): Promise<string | null> {
  const clauses: string[] = [];
  const columns: string[] = [];
  for (const factor of node.arguments.flatMap((part) => (part ? factorsOf(part) : []))) {
    const clause = await lineClause(factor, nounOf);
    const noun = clause ? null : await nounOf(factor);
    if (clause) clauses.push(clause);
    else if (noun && factor.type === "ReferenceIdentifier") columns.push(noun);
    else return null;
  }
  const where = clauses.join(" and ");
  if (columns.length === 0) return where && `the count of lines where ${where}`;
  const product =
    columns.length > 1 ? `${columns.join(" times ")}, line by line` : columns.join("");
  return `the sum of ${product}${where && ` on the lines where ${where}`}`;
}

/** The factors of a product; what only makes a number of yes and no is none. */
function factorsOf(node: Node): Node[] {
  if (node.type === "UnaryExpression" && node.operator === "-") return factorsOf(node.arguments[0]);
  if (node.type === "BinaryExpression" && node.operator === "*")
    return node.arguments.flatMap(factorsOf);
  return constantOf(node) === 1 ? [] : [node];
}

/** What a line must be to count: (A9:A20<>""), ISNUMBER(B9:B20), 1-ISNUMBER(B9:B20). */
async function lineClause(node: Node, nounOf: NounOf): Promise<string | null> {
  if (node.type === "CallExpression") {
    const words = { ISNUMBER: "is a number", ISTEXT: "holds words" }[calleeOf(node)];
    const [range] = node.arguments;
    const noun = words && range ? await nounOf(range) : null;
    return noun && `${noun} ${words}`;
  }
  if (node.type !== "BinaryExpression") return null;
  const [left, right] = node.arguments;
  if (node.operator === "-" && constantOf(left) === 1) {
    const clause = await lineClause(right, nounOf);
    return clause?.endsWith(" is a number")
      ? clause.replace(/ is a number$/, " is no number")
      : null;
  }
  const verb = COMPARED[node.operator]?.holds;
  const noun = verb && (await nounOf(left));
  if (!noun) return null;
  if (constantOf(right) === "") return `${noun} is ${verb === "is" ? "blank" : "filled in"}`;
  const wanted = await nounOf(right);
  return wanted && `${noun} ${verb} ${wanted}`;
}
