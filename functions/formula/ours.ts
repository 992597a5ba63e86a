/**
 * The calls of our functions in a formula.
 *
 * A call is typed MIST.OILFOR(...) and stored _xldudf_MIST_OILFOR(...); other programs keep the
 * name with a prefix of their own. All are known.
 */
import { catalog } from "../catalog/catalog.ts";
import { type CatalogEntry, NAMESPACE } from "../catalog/entry.ts";
import { type Call, type Node, calleeOf, childrenOf, plainName } from "./tree.ts";

const OURS = new RegExp(`^${NAMESPACE}[._]([A-Z0-9]+)$`);
const MAY_BE_OURS = new RegExp(`${NAMESPACE}[._][A-Z0-9]+\\(`, "i");
const BY_ID = new Map(catalog.map((entry) => [entry.id, entry]));

/** True where a text may hold a call of ours: a quick look, before it is read as a tree. */
export function mentionsUs(formula: string): boolean {
  return MAY_BE_OURS.test(formula);
}

/** The function that a call is of; null for any other function or node. */
export function ourFunction(node: Node): CatalogEntry | null {
  return node.type === "CallExpression" ? functionNamed(calleeOf(node)) : null;
}

/** The function of a name as it is typed or stored; null for any other name. */
export function functionNamed(name: string): CatalogEntry | null {
  const id = OURS.exec(plainName(name))?.[1];
  return (id && BY_ID.get(id)) || null;
}

/** All calls of ours in a formula, the innermost first. */
export function ourCalls(node: Node): Call[] {
  const inner = childrenOf(node).flatMap((child) => (child ? ourCalls(child) : []));
  return node.type === "CallExpression" && ourFunction(node) ? [...inner, node] : inner;
}
