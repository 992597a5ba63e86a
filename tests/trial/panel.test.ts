import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { BLANK } from "../../src/errors";
import { panelAgree } from "../../src/index";
import { exactChance } from "../../src/trial/friedman";
import { midRanks } from "../../src/trial/ranks";
import { holdToPublished } from "../reference/hold";
import { ROUNDING } from "../reference/norris";
import { refuses } from "../refuses";
import { uniform } from "../chance";

describe("published values", () => {
  // Of 22 people by 3 samples there are more than 10^15 ways, so the p is that of chi-square.
  holdToPublished({
    friedman_W: () => panelAgree(ROUNDING)[0][0] as number,
    friedman_chi2: () => panelAgree(ROUNDING)[0][1] as number,
    friedman_p: () => panelAgree(ROUNDING)[0][2] as number,
  });
  test("and it says so", () => expect(panelAgree(ROUNDING)[0][3]).toBe("approximate: chi-square"));

  // Printed tables of the exact Friedman distribution, from memory: people, samples, chi-square, p.
  test.each([
    [3, 3, 6, 0.028],
    [4, 3, 6.5, 0.042],
    [4, 3, 8, 0.0046],
    [5, 3, 6.4, 0.039],
    [2, 4, 6, 0.042],
    [3, 4, 7.4, 0.033],
    [3, 4, 9, 0.0017],
  ])("%s people, %s samples, chi-square %s: p %s", (people, samples, chi, p) => {
    const found = everyPanel(people, samples).find((panel) => {
      return Math.abs((panelAgree(panel)[0][1] as number) - chi) < 0.01;
    });
    const [, , got, way] = panelAgree(found as number[][])[0];
    expect(Number((got as number).toPrecision(2))).toBe(p);
    expect(way).toBe("exact");
  });
});

/** All panels, the first person's ranks in order. */
function everyPanel(people: number, samples: number): number[][][] {
  const orders = ordersOf(Array.from({ length: samples }, (_, i) => i + 1));
  return Array.from({ length: people - 1 }).reduce<number[][][]>(
    (panels) => panels.flatMap((panel) => orders.map((order) => [...panel, order])),
    [[orders[0]]],
  );
}

function ordersOf(row: number[]): number[][] {
  if (row.length === 0) return [[]];
  return row.flatMap((rank, i) =>
    ordersOf(row.filter((_, j) => j !== i)).map((rest) => [rank, ...rest]),
  );
}

describe("the exact p", () => {
  test("two people, five samples, full agreement: 1 of 120", () => {
    const both = [1, 2, 3, 4, 5];
    expect(panelAgree([both, both])).toEqual([[1, 8, expect.closeTo(1 / 120, 15), "exact"]]);
  });

  test("is the count of all ways, ties as they are", () => {
    // Another way to the same: everyone's places in all orders, none left where they are.
    const score = fc.integer({ min: 1, max: 4 });
    const panel = fc
      .tuple(fc.integer({ min: 2, max: 3 }), fc.integer({ min: 2, max: 4 }))
      .chain(([people, samples]) =>
        fc.array(fc.array(score, { minLength: samples, maxLength: samples }), {
          minLength: people,
          maxLength: people,
        }),
      );
    fc.assert(
      fc.property(panel, (rows) => {
        const places = rows.map((row) => midRanks(row).places);
        const apart = (all: number[][]) =>
          all[0].reduce((total, _, j) => total + all.reduce((sum, row) => sum + row[j], 0) ** 2, 0);
        const seen = apart(places);
        let [ways, far] = [0, 0];
        const put = (done: number[][]) => {
          if (done.length < places.length) {
            for (const order of ordersOf(places[done.length])) put([...done, order]);
            return;
          }
          ways++;
          if (apart(done) >= seen - 1e-9) far++;
        };
        put([]);
        expect(exactChance(places)).toBeCloseTo(far / ways, 12);
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  test.each([
    [4, 4, 11],
    [6, 5, 12],
    [3, 6, 13],
    [12, 3, 14],
    [20, 2, 15],
  ])(
    "%s people, %s samples: 20,000 panels that do not agree are as far apart so often",
    (people, samples, seed) => {
      const next = uniform(seed);
      const row = () =>
        midRanks(Array.from({ length: samples }, () => Math.floor(5 * next()))).places;
      const panel = Array.from({ length: people }, row);
      const shuffled = (places: number[]) => {
        const order = places.map((place) => ({ place, at: next() })).sort((a, b) => a.at - b.at);
        return order.map(({ place }) => place);
      };
      const apart = (all: number[][]) =>
        all[0].reduce((total, _, j) => total + all.reduce((sum, each) => sum + each[j], 0) ** 2, 0);
      const [exact, seen] = [exactChance(panel) as number, apart(panel)];
      let far = 0;
      for (let i = 0; i < 20_000; i++) if (apart(panel.map(shuffled)) >= seen - 1e-9) far++;
      const spread = Math.sqrt((exact * (1 - exact)) / 20_000);
      expect(Math.abs(far / 20_000 - exact)).toBeLessThan(4 * spread + 1e-9);
    },
    60_000,
  );

  test("one person who tells samples apart is no agreement; the others change nothing", () => {
    const alike = [3, 3, 3];
    expect(panelAgree([[1, 2, 3], alike])[0].slice(2)).toEqual([1, "exact"]);
    const [, , p] = panelAgree([
      [1, 2, 3],
      [1, 2, 3],
    ])[0];
    expect(panelAgree([[1, 2, 3], alike, [1, 2, 3], alike])[0][2]).toBe(p);
  });
});

describe("what is asked of a panel", () => {
  test("full agreement is 1, and ranks or scores are alike", () => {
    // By hand: W is 1 where all agree; chi-square is people x (samples - 1).
    const same = [1, 2, 3];
    const [w, chi] = panelAgree([same, same, same, [10, 20, 30]])[0];
    expect([w, chi]).toEqual([1, 8]);
    refuses(
      () =>
        panelAgree([
          [1, 1],
          [2, 2],
        ]),
      "ranks must differ in some row, got all samples alike",
    );
    refuses(
      () => panelAgree([[1, 2, 3]]),
      "ranks must be two people by two samples or more, got 1 x 3",
    );
  });

  test("a blank score is named, and may be left out with its sample or its person", () => {
    const panel = [
      [1, 2, 3, 4],
      [2, BLANK, 1, 4],
      [1, 3, 2, 4],
    ];
    refuses(
      () => panelAgree(panel),
      'ranks, row 2, column 2, is blank: score it, or leave out that "sample" or "person"',
    );
    expect(panelAgree(panel, "sample")).toEqual(panelAgree(panel.map(([a, , b, c]) => [a, b, c])));
    expect(panelAgree(panel, "person")).toEqual(panelAgree([panel[0], panel[2]]));
    // A row with nothing in it is nobody.
    const nobody = [BLANK, BLANK, BLANK, BLANK];
    expect(panelAgree([nobody, ...panel, nobody], "sample")).toEqual(panelAgree(panel, "sample"));
    refuses(
      () => panelAgree([nobody, [1, 2, 3, 4]]),
      "ranks must be two people by two samples or more, got 1 x 4",
    );
    refuses(
      () => panelAgree(panel, "both" as never),
      'without must be "nothing" or "sample" or "person", got "both"',
    );
  });

  test("places are those of a count of who is above and below, in long rows too", () => {
    const next = uniform(3);
    const row = Array.from({ length: 200 }, () => Math.floor(40 * next()));
    const { places, ties } = midRanks(row);
    row.forEach((value, i) => {
      const below = row.filter((other) => other < value).length;
      const same = row.filter((other) => other === value).length;
      expect(places[i]).toBe(below + (same + 1) / 2);
    });
    const sizes = [...new Set(row)].map((value) => row.filter((other) => other === value).length);
    expect(ties).toBe(sizes.reduce((total, size) => total + size ** 3 - size, 0));
  });

  test("a hundred thousand samples, and as many people, are ranked", () => {
    const many = 100_000;
    const up = Array.from({ length: many }, (_, i) => i);
    expect(panelAgree([up, up.toReversed()])[0]).toEqual([
      expect.closeTo(0, 12),
      expect.closeTo(0, 6),
      expect.closeTo(1, 6),
      "approximate: chi-square",
    ]);
    const [w, , p] = panelAgree(up.map((i) => (i % 2 ? [1, 2, 3] : [3, 2, 1])))[0];
    expect([w, p]).toEqual([0, 1]);
  }, 60_000);
});
