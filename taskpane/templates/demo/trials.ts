/** The invented workshop's trials: codes, words and scores are made up. */
interface DemoTrial {
  code: string;
  base: string;
  where: "cloth" | "room";
  pattern: string;
  film?: string;
  drydown?: string;
  colour?: string;
  alcohol: string;
  gelling?: string;
  stiff?: string;
  floor?: string;
  morning: string;
  scores: (number | null)[];
}

const alder = { code: "K7", base: "Alder Clear", pattern: "fine mist" };
const bluepost = { code: "M2", base: "Bluepost Soft", pattern: "wet" };
const drovers = { code: "T9", base: "Drovers Dry", pattern: "fine mist" };

export const DEMO_TRIALS: DemoTrial[] = [
  {
    ...alder,
    where: "cloth",
    film: "none",
    drydown: "medium",
    colour: "clear",
    alcohol: "gone in a minute",
    gelling: "none",
    stiff: "soft",
    morning: "faint",
    scores: [8, 8, 7, 6, 5, 4, 3, 1, 0],
  },
  {
    ...alder,
    where: "room",
    alcohol: "gone in a minute",
    floor: "none",
    morning: "gone",
    scores: [8, 6, 4, 2, 1, 0, 0],
  },
  {
    ...bluepost,
    where: "cloth",
    film: "slight",
    drydown: "slow",
    colour: "slight tint",
    alcohol: "none",
    gelling: "a skin",
    stiff: "a little stiff",
    morning: "there",
    scores: [7, 7, 7, 6, 6, 5, 4, 3, 1],
  },
  {
    ...bluepost,
    where: "room",
    alcohol: "none",
    floor: "slippery",
    morning: "gone",
    scores: [7, 5, 4, 3, 2, 1, 0],
  },
  {
    ...drovers,
    where: "cloth",
    film: "none",
    drydown: "fast",
    colour: "clear",
    alcohol: "stays",
    gelling: "none",
    stiff: "soft",
    morning: "gone",
    scores: [9, 7, 6, 4, null, 2, 1, 0, 0],
  },
  {
    ...drovers,
    where: "room",
    alcohol: "stays",
    floor: "none",
    morning: "gone",
    scores: [9, 6, 3, 1, 1, 0, 0],
  },
];

/** The candidates of the scorecard: base, cost as typed where Materials is not there, and three scores. */
export const DEMO_CANDIDATES: [string, number, number, number, number][] = [
  ["Alder Clear", 0.482, 5, 3, 5],
  ["Bluepost Soft", 0.4, 4, 2, 5],
  ["Drovers Dry", 0.368, 4, 5, 3],
];
