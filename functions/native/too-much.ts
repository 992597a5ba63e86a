/** A call that is more than a native formula can say; the text tells what. */
export class TooMuch extends Error {
  override name = "TooMuch";
}
