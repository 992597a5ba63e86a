/** The Spray trial log: alone, and drawing its costs from Materials. */
import { describe, expect, test } from "vitest";
import { fadeHalf, lastsFor } from "../../src/index";
import { wholeSet } from "./whole-set";
import { oneSheet } from "./one-sheet";

const HOURS = [[0, 1, 2, 4, 6, 8, 12, 24, 48]];
const ALL = [0, 1, 2, 3, 4, 5, 6, 7, 8];
const sheet = () => oneSheet("Spray trial log");
type Sheet = Awaited<ReturnType<typeof sheet>>;

const score = ({ put }: Sheet, line: number, scores: (number | null)[]) =>
  ALL.forEach((across) => {
    put("log.scores", scores[across] ?? null, line, across);
  });
const card = ({ at }: Sheet, name: string) => [0, 1, 2].map((line) => at(`card.${name}`, line));

describe("alone", () => {
  test("each line fades at its rate, and the sentence says it", async () => {
    const log = await sheet();
    const { at, put } = log;
    const scores = [[7, 7, 7, 6, 6, 5, 4, 3, 1]];
    const [[half, low, high]] = fadeHalf(HOURS, scores, 1) as [[number, number, number]];
    const [[lasts]] = lastsFor(HOURS, scores, 2, 1, "scores") as [[number]];
    expect(["half", "halflow", "halfhigh", "lasts"].map((name) => at(`log.${name}`, 2))).toEqual([
      half,
      low,
      high,
      lasts,
    ]);
    expect(at("faded")).toBe(
      `M2, Bluepost Soft with Rain on Slate on cloth: half of it is gone every ${half.toFixed(1)} h ` +
        `(95 %: ${low.toFixed(1)} to ${high.toFixed(1)}), and it is too weak after ${lasts.toFixed(1)} h.`,
    );
    // The fitted curve is at the floor when it is too weak, and half of itself a half-life later.
    expect(at("curve.fit")).toBeCloseTo(2 * 2 ** (lasts / half), 9);
    put("shown", 5);
    expect(at("curve.score", 4)).toMatch(/^#N\/A/);
    expect(at("faded")).toMatch(/^T9, Drovers Dry/);
    expect(at("log.counts", 4)).toBe(at("log.lasts", 4));
  });

  test("the curve is drawn and the sentence true where a line does not fade, or is weak at once", async () => {
    const log = await sheet();
    const { at, put } = log;
    const curve = () => [0, 1, 8].map((line) => at("curve.fit", line));
    score(log, 2, [6, 7, 6, 7, 6, 7, 6, 7, 7]);
    expect(["half", "lasts", "counts"].map((name) => at(`log.${name}`, 2))).toEqual(
      Array(3).fill("over 48"),
    );
    // By hand: the mean, 59 / 9, is what does not rise and leaves the least.
    expect(curve()).toEqual(Array(3).fill(expect.closeTo(59 / 9, 9)));
    expect(at("faded")).toMatch(
      /on cloth: it does not fade within the hours \(95 %: [^)]+ to no upper end\), and it is not too weak at the last of them\.$/,
    );
    score(log, 2, [1, 1, 1, 1, 1, 0, 0, 0, 0]);
    expect(at("log.lasts", 2)).toMatch(
      /^#VALUE! floor must be below the fitted score at the start/,
    );
    expect(at("log.counts", 2)).toBe(0);
    const [half, start] = [at("log.half", 2), at("start")] as [number, number];
    expect(at("curve.fit", 8)).toBeCloseTo(start * 2 ** (-48 / half), 12);
    expect(at("faded")).toMatch(/, and it is too weak from the start\.$/);
    score(log, 2, [8, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect(curve()).toEqual([8, 0, 0]);
    expect(at("log.counts", 2)).toBe(0);
    expect(at("faded")).toMatch(
      /: more than half of it is gone by the second hour scored .+ it is too weak in under 1 h\.$/,
    );
    put("weak", null);
    expect(at("faded")).toMatch(
      /, and type the score that is too weak, to see how long it lasts\.$/,
    );
    expect(at("log.counts", 2)).toBe("");
    expect(at("log.said", 2)).toBe("no hours");
    score(log, 2, [8, 0]);
    expect(at("faded")).toBe("The chosen line has fewer than three scores.");
    expect(curve()).toEqual(["", "", ""]);
    expect([at("log.said", 2), at("filled"), at("counted")]).toEqual([
      "fewer than three scores",
      6,
      0,
    ]);
  });

  test("the scorecard finds its hours by base and by where it was sprayed, in any order", async () => {
    const log = await sheet();
    const { at, put } = log;
    const all = () => ["cloth", "score", "place"].flatMap((name) => card(log, name));
    const before = all();
    const rows = ALL.slice(0, 6).map((line) => ({
      words: ["code", "base", "oil", "where"].map((name) => at(`log.${name}`, line)),
      scores: ALL.map((across) => at("log.scores", line, across) as number | null),
    }));
    [4, 2, 1, 5, 0, 3].forEach((from, line) => {
      ["code", "base", "oil", "where"].forEach((name, i) => {
        put(`log.${name}`, rows[from]?.words[i], line);
      });
      score(log, line, rows[from]?.scores ?? []);
    });
    expect(all()).toEqual(before);
    expect(card(log, "said")).toEqual(["", "", ""]);
  });

  test("a flat line that falls by a hair counts as outlasting, not as the thousands of hours of its curve", async () => {
    const log = await sheet();
    const { at } = log;
    score(log, 2, [7, 7, 7, 6, 7, 7, 7, 6, 7]);
    // By scipy's curve_fit, apart from this sheet: the curve is at 2 after 3315 h.
    expect(at("log.lasts", 2)).toBeGreaterThan(1000);
    expect([at("log.counts", 2), at("card.cloth", 1), at("longest")]).toEqual(["over 48", 49, 49]);
    expect(at("faded")).toMatch(
      /it is not too weak at the last hour \(a guess by the curve: after [\d.]+ h\)\.$/,
    );
  });

  test("zeros at every hour are known: it lasts no time", async () => {
    const log = await sheet();
    const { at } = log;
    score(log, 2, [0, 0, 0, 0]);
    expect([at("log.counts", 2), at("log.said", 2), at("card.cloth", 1)]).toEqual([
      0,
      "nothing smelled: 0 h",
      0,
    ]);
  });

  test("a score of 7/10 that became a day counts for nothing, and is told", async () => {
    const log = await sheet();
    const { at } = log;
    // By hand: 2026-07-10 as a sheet counts days.
    score(log, 2, [46213, 5, 4, 2, 1, 1, 0]);
    expect(["half", "halflow", "lasts", "counts"].map((name) => at(`log.${name}`, 2))).toEqual([
      "",
      "",
      "",
      "",
    ]);
    expect(at("log.said", 2)).toBe("a score above 10: 7/10 is a day, type 7");
    expect(at("faded")).toBe("The chosen line has a score above 10: read beside it why.");
    expect([at("start"), at("curve.fit")]).toEqual(["", ""]);
    expect(at("card.cloth", 1)).toBe("no hours");
  });

  test("hours that are words or times of day, or do not rise, are told over them", async () => {
    const { at, put } = await sheet();
    const said = () => String(at("hoursnote"));
    expect(said()).toMatch(/^Hours after spraying/);
    put("hours", "2 h", 0, 2);
    expect(said()).toMatch(/^Hours are numbers/);
    // 1:30 is 1.5 / 24 of a day.
    put("hours", 1.5 / 24, 0, 2);
    expect(said()).toMatch(/^An hour is below 0.1/);
    put("hours", 0.5, 0, 2);
    expect(said()).toMatch(/^The hours do not rise/);
    put("hours", 1.5, 0, 2);
    expect(said()).toMatch(/^Hours after spraying/);
  });

  test("an empty log says nothing of hours that are outlasted", async () => {
    const { at } = await oneSheet("Spray trial log", false);
    expect(at("longest")).toBe("");
  });

  test("no line, several lines, a blank and a scent that outlasts the hours are told", async () => {
    const log = await sheet();
    const { at, put } = log;
    const [alder, drovers] = [at("log.lasts", 0), at("log.lasts", 4)] as [number, number];
    score(log, 2, Array<number>(9).fill(7));
    // Longer than every number, of the log and of its hours.
    expect(at("card.cloth", 1)).toBe(49);
    expect(at("card.said", 1)).toBe(
      "Outlasts the hours: counts as an hour longer than the longest.",
    );
    expect(at("card.place", 1)).toBe("1");
    put("log.base", "Alder Clear", 4);
    expect(at("card.cloth", 0)).toBeCloseTo((alder + drovers) / 2, 9);
    expect(at("card.said", 0)).toBe("2 lines on cloth: their mean counts.");
    expect([at("card.cloth", 2), at("card.said", 2)]).toEqual([
      "no line",
      "The log has no line of this base on cloth.",
    ]);
    expect(at("card.score")).toBe("");
    expect(at("winner")).toBe("A candidate has no hours on cloth: read beside it why.");
    put("log.base", "Drovers Dry", 4);
    score(log, 4, [9, 7]);
    expect([at("card.cloth", 2), at("card.said", 2)]).toEqual([
      "no hours",
      "A line of this base on cloth has no hours: fill it in, or take it out.",
    ]);
    score(log, 4, [9, 7, 3]);
    expect(at("card.place", 1)).toBe("1");
    put("card.cost", null, 1);
    expect([at("card.score"), at("winner"), at("complete")]).toEqual([
      "",
      "A candidate has no cost: what is not known is not free.",
      2,
    ]);
    expect(at("card.said", 1)).toMatch(/^Its cost is not known/);
    put("card.cost", 0.4, 1);
    put("criteria.weight", null, 1);
    expect(at("winner")).toBe("A weight is blank: type 0 % where a criterion does not count.");
    put("criteria.weight", 0, 1);
    expect(at("winner")).toMatch(/ wins\. /);
    put("criteria.way", null, 0);
    expect(at("winner")).toBe("Say of each criterion whether more is better, or less.");
  });

  test("the scorecard says who wins and how firmly", async () => {
    const log = await sheet();
    const { at, put } = log;
    const scores = card(log, "score") as number[];
    expect(card(log, "place")[scores.indexOf(Math.max(...scores))]).toBe("1");
    expect(at("winner")).toMatch(
      /^(Alder Clear|Bluepost Soft|Drovers Dry) wins\. (Alder Clear|Bluepost Soft|Drovers Dry) would draw level if the weight of .+ (rose|fell) by \d+ points\.$/,
    );
    // At the change that it tells, the two are level.
    const [change = 0, criterion = 0, rival = 0] = [0, 1, 2].map(
      (across) => at("tips.tip", 0, across) as number,
    );
    const weight = at("criteria.weight", criterion - 1) as number;
    put("criteria.weight", weight + change, criterion - 1);
    const level = card(log, "score") as number[];
    expect(level[rival - 1]).toBeCloseTo(Math.max(...level), 9);
    expect(at("winner")).toMatch(/^Tied for the first place: /);
  });

  test("a gap among the candidates, two of them, and one that is not complete", async () => {
    const log = await sheet();
    const { at, put } = log;
    for (const name of ["candidate", "cost", "spray", "drydown", "smell"])
      put(`card.${name}`, null, 1);
    // By hand: between two, each criterion is 0 or 1. Alder Clear has hours, spray and smell: 0.3 + 0.15 + 0.2.
    expect(card(log, "score")).toEqual([expect.closeTo(0.65, 12), "", expect.closeTo(0.35, 12)]);
    expect(card(log, "place")).toEqual(["1", "", "2"]);
    put("card.smell", 3, 4);
    expect(at("winner")).toBe("Fill in the scorecard to see who wins, and how firmly.");
  });
});

describe("in the workbook", () => {
  const title = "Spray trial log";

  test("a price on Materials is a cost on the scorecard; one that is typed over is said", async () => {
    const set = await wholeSet();
    // By hand: (46 + 14.5) / (128 fl oz x 0.98).
    expect(await set.at(title, "card.cost")).toBeCloseTo(60.5 / (128 * 0.98), 12);
    await set.type("Materials", "materials.price", 0, 60);
    expect(await set.at(title, "card.cost")).toBeCloseTo(74.5 / (128 * 0.98), 12);
    const before = await set.at(title, "card.score");
    await set.type(title, "card.cost", 0, 0.2);
    expect(await set.at(title, "card.score")).not.toBe(before);
    const { row, sheet: name } = await set.spot(title, "card.place");
    const [over] = await set.workbook.read({ sheet: name, row, column: 8 }, 1, 1);
    expect(over?.[0]).toBe("Cost ($ per fl oz)");
  });

  test("a candidate without a price has no cost, and none is taken for it", async () => {
    const set = await wholeSet();
    await set.type("Materials", "materials.price", 0, null);
    expect(await set.at(title, "card.cost")).toBe("");
    expect(await set.at(title, "card.score", 1)).toBe("");
    expect(await set.at(title, "card.said")).toContain("Its cost is not known");
    // Only a sample: not in use, so no cost either.
    await set.type(title, "card.candidate", 0, "Drovers Mild");
    expect([await set.at(title, "card.cost"), await set.at(title, "card.cloth")]).toEqual([
      "",
      "no line",
    ]);
  });

  test("sorted materials leave the cost with its base", async () => {
    const set = await wholeSet();
    const before = await set.at(title, "card.cost", 1);
    await set.sort("Materials", "materials.name", 22);
    expect(await set.at("Materials", "materials.name")).toBe("Salt Orchard");
    expect(await set.at(title, "card.cost", 1)).toBe(before);
  });
});
