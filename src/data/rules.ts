/**
 * Rules of some places, each with its source, the date from which it holds, and how far it was checked.
 * Not all rules, not all places, and rules change: the user adds rows, and reads the rule itself.
 */
export type Checked = "seen in a published text" | "value seen, date from memory" | "from memory";

export interface VocRule {
  place: string;
  product: string;
  /** Most VOC by weight. */
  limit: number;
  /** Most fragrance that is not counted, as a share of the product. */
  exempt: number;
  /** First day on which it holds, year-month-day. */
  from: string;
  source: string;
  checked: Checked;
}

export const VOC_RULES: readonly VocRule[] = [
  {
    place: "United States",
    product: "room spray (pump)",
    limit: 0.18,
    exempt: 0.02,
    from: "1998-12-10",
    source: "40 CFR 59 subpart C, table 1",
    checked: "from memory",
  },
  {
    place: "United States",
    product: "room spray (aerosol one phase)",
    limit: 0.7,
    exempt: 0.02,
    from: "1998-12-10",
    source: "40 CFR 59 subpart C, table 1",
    checked: "from memory",
  },
  {
    place: "New Jersey",
    product: "room spray (pump)",
    limit: 0.18,
    exempt: 0.02,
    from: "2005-01-01",
    source: "NJAC 7:27-24.4, table 1; exemption from memory",
    checked: "value seen, date from memory",
  },
  {
    place: "Maryland",
    product: "room spray (pump)",
    limit: 0.18,
    exempt: 0.02,
    from: "2005-01-01",
    source: "COMAR 26.11.32.04; exemption from memory",
    checked: "value seen, date from memory",
  },
  {
    place: "California",
    product: "room spray (pump)",
    limit: 0.18,
    exempt: 0.02,
    from: "1993-01-01",
    source: "17 CCR 94509(a)",
    checked: "from memory",
  },
  {
    place: "California",
    product: "room spray (pump)",
    limit: 0.18,
    exempt: 0.0025,
    from: "2031-01-01",
    source: "17 CCR 94510(c)(4); limit from memory",
    checked: "value seen, date from memory",
  },
  {
    place: "California",
    product: "room spray (manual aerosol)",
    limit: 0.1,
    exempt: 0.02,
    from: "2023-01-01",
    source: "17 CCR 94509(a), 2021 amendments",
    checked: "seen in a published text",
  },
  {
    place: "California",
    product: "room spray (manual aerosol)",
    limit: 0.05,
    exempt: 0.02,
    from: "2027-01-01",
    source: "17 CCR 94509(a), 2021 amendments",
    checked: "seen in a published text",
  },
  {
    place: "California",
    product: "body mist (up to 7 % fragrance)",
    limit: 0.7,
    exempt: 0.02,
    from: "2023-01-01",
    source: "17 CCR 94509(a)",
    checked: "seen in a published text",
  },
  {
    place: "California",
    product: "body mist (up to 7 % fragrance)",
    limit: 0.5,
    exempt: 0,
    from: "2031-01-01",
    source: "17 CCR 94509(a); no exemption is left, from memory",
    checked: "seen in a published text",
  },
  {
    place: "California",
    product: "body mist (over 7 % fragrance)",
    limit: 0.75,
    exempt: 0.02,
    from: "2023-01-01",
    source: "17 CCR 94509(a)",
    checked: "from memory",
  },
];

/** Which category of a fragrance certificate a kind of product is looked up under. */
export interface SkinCategory {
  product: string;
  category: string;
  source: string;
  checked: Checked;
}

const IFRA = "IFRA Guidance, 49th to 51st amendment";

export const SKIN_CATEGORIES: readonly SkinCategory[] = [
  { product: "room spray", category: "10B", source: IFRA, checked: "seen in a published text" },
  { product: "linen spray", category: "10B", source: IFRA, checked: "from memory" },
  { product: "body mist", category: "2", source: IFRA, checked: "seen in a published text" },
  { product: "reed diffuser", category: "10A", source: IFRA, checked: "from memory" },
  { product: "candle", category: "12", source: IFRA, checked: "seen in a published text" },
];
