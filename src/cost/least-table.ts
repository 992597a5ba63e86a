/** The least that was found so far for each place of a long row: price, then number of packs. */
export class LeastTable {
  private readonly prices: Float64Array;
  private readonly counts: Float64Array;
  private readonly packs: Uint16Array;

  /** Nothing is known of any place but this one, which costs nothing. */
  constructor(length: number, free: number) {
    this.prices = new Float64Array(length).fill(Infinity);
    this.counts = new Float64Array(length);
    this.packs = new Uint16Array(length);
    this.prices[free] = 0;
  }

  /** Infinite where nothing is known. */
  price(place: number): number {
    return this.prices[place] ?? Infinity;
  }

  count(place: number): number {
    return this.counts[place] ?? 0;
  }

  /** Which pack was added last. */
  pack(place: number): number {
    return this.packs[place] ?? 0;
  }

  /** Keeps what is less than was known; false where it is not. */
  keepsIfLess(place: number, price: number, count: number, pack: number): boolean {
    const known = this.price(place);
    if (price > known || (price === known && count >= this.count(place))) return false;
    this.prices[place] = price;
    this.counts[place] = count;
    this.packs[place] = pack;
    return true;
  }
}
