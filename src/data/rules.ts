/**
 * Rules of some places, each with its source, the date from which it holds, and how it was seen.
 * Not all rules, not all places, and rules change: the user adds rows, and reads the rule itself.
 */

/** The words of a row that was read whole. Any other words tell which part of it was not. */
export const READ = "seen in the text";

export interface VocRule {
  place: string;
  product: string;
  /** Most VOC by weight; "none" where the rule leaves the product out. */
  limit: number | "none";
  /** Most fragrance that is not counted, as a share of the product. */
  exempt: number;
  /** First day on which it holds, year-month-day; null where it is not known, and then it holds. */
  from: string | null;
  source: string;
  seen: string;
}

// No commas in these: a drop-down of Excel parts its words there.
const PUMP = "room spray (pump)";
const ONE_PHASE = "room spray (aerosol one phase)";
const TWO_PHASES = "room spray (aerosol two phases)";
const MANUAL = "room spray (manual aerosol)";
const SOLID = "room scent (solid or gel)";
const LINEN = "linen or fabric spray (pump)";
const LINEN_AEROSOL = "linen or fabric spray (aerosol)";
const MIST_WEAK = "body mist (up to 7 % fragrance)";
const MIST = "body mist (over 7 to 20 % fragrance)";
const MIST_STRONG = "body mist (over 20 % fragrance)";

/** Rules of one place that are alike but for product and limit. */
function rows(
  common: Omit<VocRule, "product" | "limit">,
  limits: Record<string, VocRule["limit"]>,
): VocRule[] {
  return Object.entries(limits).map(([product, limit]) => ({ ...common, product, limit }));
}

const FEDERAL = { place: "United States", exempt: 0.02, from: "1998-12-10" };
const EPA = "40 CFR 59 subpart C, table 1; 59.203(e)";
const NEW_JERSEY = { place: "New Jersey", exempt: 0.02, source: "NJAC 7:27-24.4, table 1" };
const CALIFORNIA = { place: "California", exempt: 0.02 };
const SUMMARY = "limit seen in a summary only";
const CANADA = {
  place: "Canada",
  from: "2024-01-01",
  source: "SOR/2021-268, schedule 1",
};

export const VOC_RULES: readonly VocRule[] = [
  ...rows(
    {
      ...FEDERAL,
      source: EPA,
      seen: "date and exemption seen in the text; limit from memory",
    },
    { [PUMP]: 0.18 },
  ),
  ...rows(
    { ...FEDERAL, source: EPA, seen: "limit from memory" },
    { [ONE_PHASE]: 0.7, [TWO_PHASES]: 0.3, [SOLID]: 0.03 },
  ),
  ...rows(
    { ...FEDERAL, source: "40 CFR 59.202: not for surfaces", seen: READ },
    { [LINEN]: "none", [LINEN_AEROSOL]: "none" },
  ),
  ...rows(
    {
      place: "New York",
      exempt: 0.02,
      from: "2005-01-01",
      source: "6 NYCRR 235-3.1",
      seen: "limit seen in the text; exemption from memory",
    },
    { [PUMP]: 0.18, [ONE_PHASE]: 0.3, [TWO_PHASES]: 0.25, [SOLID]: 0.03 },
  ),
  ...rows(
    { ...NEW_JERSEY, from: "1996-01-01", seen: "limit seen in the text; exemption from memory" },
    { [PUMP]: 0.18 },
  ),
  ...rows(
    {
      ...NEW_JERSEY,
      from: null,
      seen: "limit seen in the text; rest from memory, date to be checked",
    },
    { [ONE_PHASE]: 0.3, [TWO_PHASES]: 0.25, [SOLID]: 0.03 },
  ),
  ...rows(
    {
      place: "Maryland",
      exempt: 0.02,
      from: "2005-01-01",
      source: "COMAR 26.11.32.04",
      seen: "limit seen in a published text; the rest from memory",
    },
    { [PUMP]: 0.18, [ONE_PHASE]: 0.3, [TWO_PHASES]: 0.25, [SOLID]: 0.03 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      from: "1993-01-01",
      source: "17 CCR 94509(a); 94510(c)",
      seen: "exemption seen in the text; limit from memory",
    },
    { [PUMP]: 0.18 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      exempt: 0.0025,
      from: "2031-01-01",
      source: "17 CCR 94509(a); 94510(c)(4)",
      seen: "exemption seen in the text; limit from memory",
    },
    { [PUMP]: 0.18 },
  ),
  ...rows(
    { ...CALIFORNIA, from: "2023-01-01", source: "17 CCR 94509(a), as of 2022-08", seen: SUMMARY },
    { [MANUAL]: 0.1, [MIST_WEAK]: 0.7 },
  ),
  ...rows(
    { ...CALIFORNIA, from: "2027-01-01", source: "17 CCR 94509(a), as of 2022-08", seen: SUMMARY },
    { [MANUAL]: 0.05 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      exempt: 0.0025,
      from: "2031-01-01",
      source: "17 CCR 94509(a); 94510(c)(4)",
      seen: SUMMARY,
    },
    { [MANUAL]: 0.05 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      exempt: 0,
      from: "2031-01-01",
      source: "17 CCR 94509(a); no exemption is left",
      seen: `${SUMMARY}; exemption from memory`,
    },
    { [MIST_WEAK]: 0.5 },
  ),
  ...rows(
    { ...CALIFORNIA, from: "2023-01-01", source: "17 CCR 94509(a): over 7 %", seen: "from memory" },
    { [MIST]: 0.75, [MIST_STRONG]: 0.75 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      from: null,
      source: "17 CCR 94509: fabric refresher",
      seen: "from memory",
    },
    { [LINEN]: 0.06, [LINEN_AEROSOL]: 0.15 },
  ),
  ...rows(
    {
      ...CALIFORNIA,
      exempt: 0,
      from: "2031-01-01",
      source: "17 CCR 94509; exemption not looked up",
      seen: "from memory; no exemption is taken",
    },
    { [LINEN]: 0.06, [LINEN_AEROSOL]: 0.15 },
  ),
  ...rows(
    {
      ...CANADA,
      exempt: 0,
      seen: "limit seen in the text; no exemption is taken",
    },
    { [PUMP]: 0.18, [LINEN]: 0.06, [LINEN_AEROSOL]: 0.15 },
  ),
  ...rows(
    { ...CANADA, exempt: 1, source: "SOR/2021-268; s. 5(1)(d)", seen: READ },
    { [MIST_WEAK]: 0.75, [MIST]: 0.75, [MIST_STRONG]: 0.65 },
  ),
];

/** States whose rules stand beside the federal ones: the stricter limit holds. */
export const FEDERATION = "United States";
export const STATES: readonly string[] = ["California", "Maryland", "New Jersey", "New York"];

/** Which category of a fragrance certificate a kind of product is looked up under. */
export interface SkinCategory {
  product: string;
  category: string;
  /** The other one, where it is disputed which holds: then the lower limit of the two is taken. */
  other?: string;
  seen: string;
}

export const IFRA_GUIDANCE = "IFRA guidance, 49th to 51st amendment";

const PUBLISHED = "seen in a published text";

export const SKIN_CATEGORIES: readonly SkinCategory[] = [
  { product: "room spray", category: "10B", seen: PUBLISHED },
  {
    product: "linen spray",
    category: "10A",
    other: "10B",
    seen: "disputed, from memory; one stored text says 10A",
  },
  { product: "body mist", category: "2", seen: PUBLISHED },
  { product: "reed diffuser", category: "10A", seen: "from memory" },
  { product: "candle", category: "12", seen: PUBLISHED },
];

/** The names that a certificate has for its categories, from memory. */
export const CATEGORY_NAMES: readonly string[] =
  "1 2 3 4 5A 5B 5C 5D 6 7A 7B 8 9 10A 10B 11A 11B 12".split(" ");

/** Where to look, and what is said there: a pointer, never advice. */
export interface Pointer {
  place: string;
  what: string;
  says: string;
  source: string;
  seen: string;
}

const UNITED_STATES = { place: FEDERATION, seen: READ };
const MEMORY = "from memory";
const SECONDARY = "seen in secondary texts only";

/** Transport and label in the United States. */
export const CARRIAGE: readonly Pointer[] = [
  {
    ...UNITED_STATES,
    what: "Aqueous alcohol in transport",
    says: "At most 24 % alcohol by volume, at least 50 % water and no other hazardous material: (e)(2). A trained shipper decides.",
    source: "49 CFR 173.150(e)",
  },
  {
    ...UNITED_STATES,
    what: "Cosmetics at retail, with ethyl alcohol",
    says: "To 70 % by volume: inner packs to 0.47 L (glass 0.23 L); over 70 %: to 0.23 L; 5.6 L an outer pack, 30 kg gross. A trained shipper decides.",
    source: "49 CFR 173.150(g)",
  },
  {
    ...UNITED_STATES,
    what: "Limited quantities of flammable liquid",
    says: "Inner packs to 1 L (packing group II) or 5 L (packing group III), 30 kg gross. A trained shipper decides.",
    source: "49 CFR 173.150(b)",
  },
  {
    ...UNITED_STATES,
    what: "Consumer label, by flash point",
    says: "Extremely flammable to -6.7 C, flammable below 37.8 C, combustible to 65.6 C. Cosmetics are outside: (b)(4)(ii).",
    source: "16 CFR 1500.3(c)(6)",
  },
  {
    ...UNITED_STATES,
    what: "Net contents",
    says: "Decimals to three places are allowed: 500.17(a).",
    source: "16 CFR 500.17",
  },
];

/** Duties to look up by name. */
export const DUTIES: readonly Pointer[] = [
  {
    place: "United States",
    what: "Cosmetics of a small business (MoCRA)",
    says: "Free of registration, listing, GMP; not of adverse-event records, proof of safety, labels.",
    source: "FD&C Act s. 612",
    seen: SECONDARY,
  },
  {
    place: "Canada",
    what: "VOC: several classes at once",
    says: "The lowest limit of them holds: s. 4. Pick the second kind above.",
    source: "SOR/2021-268",
    seen: READ,
  },
  {
    place: "Canada",
    what: "Allergens named on cosmetics",
    says: "Leave-on from 0.001 %. From 2026-04-12; 81 allergens: new products 2026-08-01, all 2028-08-01.",
    source: "SOR/2024-63",
    seen: SECONDARY,
  },
  {
    place: "Canada",
    what: "Classification and label of chemicals",
    says: "Consumer chemicals have a classification, a label and a pack of their own.",
    source: "SOR/2001-269",
    seen: MEMORY,
  },
  {
    place: "Canada",
    what: "Cosmetic notification and safety",
    says: "For products on skin: the notification, and what shows that the product is safe.",
    source: "Cosmetic Regulations",
    seen: MEMORY,
  },
  {
    place: "Canada",
    what: "Poison-centre notice",
    says: "Look up whether one is asked for.",
    source: "none looked up",
    seen: MEMORY,
  },
  ...["European Union", "United Kingdom"].flatMap((place) => {
    const isUnion = place === "European Union";
    return [
      {
        place,
        what: `Classification and label (${isUnion ? "CLP" : "GB CLP"})`,
        says: "Of the mixture as sold, room and linen sprays too; its allergens have thresholds of their own.",
        source: isUnion ? "Regulation (EC) 1272/2008" : "the same, kept in UK law",
        seen: MEMORY,
      },
      {
        place,
        what: "Cosmetic safety report (skin products)",
        says: "By a qualified assessor, before sale; with a responsible person and a notification.",
        source: isUnion ? "Regulation (EC) 1223/2009" : "the same, kept in UK law",
        seen: MEMORY,
      },
      {
        place,
        what: "Allergens named on cosmetics",
        says: isUnion
          ? "Leave-on over 0.001 %. Longer list: new products 2026-07-31, all 2028-07-31."
          : "Leave-on over 0.001 %; look up which list of allergens holds.",
        source: isUnion ? "Regulation (EU) 2023/1545" : "UK cosmetics regulation",
        seen: isUnion ? SECONDARY : MEMORY,
      },
      {
        place,
        what: "Poison-centre notice",
        says: isUnion
          ? "Of hazardous mixtures, before sale, with the code (UFI) on the label."
          : "Look up who is told of hazardous mixtures, and how.",
        source: isUnion ? "CLP article 45, annex VIII" : "GB CLP",
        seen: MEMORY,
      },
    ];
  }),
];
