/**
 * Why a file cannot be read, as one sentence for the person who chose it: what, where, and what to
 * do.
 */
export class Refusal extends Error {
  override name = "Refusal";
}
