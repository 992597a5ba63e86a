/** VOC: the share of it in a product, and what is waived of it for fragrance. */
import { BLANK, type Piece, ZERO, call, constant, inArray, op, or, reduced } from "./piece.ts";
import type { Make, Term } from "./term.ts";
import { TooMuch } from "./too-much.ts";
import { type ListValue, one, rawOf, turned } from "./values.ts";

/** The cells that hold one of some words, typed in any case and with any spaces. */
function isOneOf(raw: Piece, ...words: string[]): Piece {
  const word = call("SUBSTITUTE", raw, constant(" "), BLANK);
  return or(...words.map((each) => op(word, "=", constant(each))));
}

/** Yes or no as people write it; a blank is neither. */
const isYes = (raw: Piece) => isOneOf(raw, "yes", "1", "TRUE");
const isNo = (raw: Piece) => isOneOf(raw, "no", "FALSE");

/** Every line of a list is held against every other: too many lines would be too many cells. */
const MOST_PAIRED = 200;

/**
 * VOC in the first points of fragrance, those with least VOC first. It is the greatest of the lower
 * bounds that each line's own VOC part gives, as the dual of that programme says: the part times
 * what is waived, less what the lines with less VOC have less of it.
 */
function waivedVoc(shares: ListValue, vocs: ListValue, fragrance: ListValue, most: Piece): Piece {
  if (shares.length > MOST_PAIRED || most.wide) throw new TooMuch("a long list of fragrance");
  const [share, voc] = [turned(shares, false, shares.piece), turned(vocs, false, vocs.piece)];
  const isOurs = turned(fragrance, false, isYes(rawOf(fragrance)));
  const ours = op(op(share, "*", isOurs), "/", reduced("SUM", rawOf(shares)));
  const waived = call("MIN", most, reduced("SUMPRODUCT", ours));
  const across = inArray(call("TRANSPOSE", voc));
  const less = call("IF", op(voc, ">", across), op(voc, "-", across), ZERO);
  const bounds = op(op(voc, "*", waived), "-", call("MMULT", less, ours));
  return inArray(reduced("MAX", bounds));
}

function vocOf(shares: ListValue, vocs: ListValue): Piece {
  if (shares.factors.length !== 1 || vocs.factors.length !== 1)
    throw new TooMuch("a computed composition");
  const parts = rawOf(shares);
  const total = reduced("SUMPRODUCT", parts, turned(vocs, shares.across, rawOf(vocs)));
  return op(total, "/", reduced("SUM", parts));
}

export const VOC: Readonly<Record<string, Make>> = {
  vocof: (shares: Term, vocs: Term) => one(vocOf(shares.list, vocs.list)),
  waivedvoc: (shares: Term, vocs: Term, { range: fragrance }: Term, exempt: Term) =>
    one(fragrance ? waivedVoc(shares.list, vocs.list, fragrance, exempt.piece) : ZERO),
  isyesno: ({ list }: Term) => {
    const raw = rawOf(list);
    return { ...list, factors: [], piece: or(isYes(raw), isNo(raw)) };
  },
  // Ranges of shares are two columns, which no list is.
  isrange: () => one(constant(false)),
};
