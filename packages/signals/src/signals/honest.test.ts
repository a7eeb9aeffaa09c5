import { expect, test } from 'vitest';
import { biases, matched, type Compared } from '../comparison/matched.ts';
import { drift } from '../comparison/drift.ts';
import type { Figure, Photo } from '../figures.ts';
import { beginLook } from '../look.ts';
import { Random } from '../statistics/random.ts';
import { lastDigits } from './last-digits.ts';
import { pace } from './pace.ts';
import { photos } from './photos.ts';

// What honest raters have that a careless test takes for a sign: one slip that shows many times, houses that are alike,
// an installer of their own.

const figure = (houseId: string, at: number, more: Partial<Figure> = {}): Figure => ({
  plan: null,
  ...{
    readingId: `${houseId}/${at}`,
    houseId,
    raterId: 'r0',
    instrumentId: null,
    item: 'bath-exhaust',
    place: '1',
  },
  ...{ at, value: 60, uncertainty: null, reported: null, installerId: null, limit: null, readAgain: false },
  ...{ shown: [], doubts: [], ...more },
});
const hour = 3_600_000;

test('one house entered by a clock that is an hour behind is one way too few, not twenty', () => {
  const figures = Array.from({ length: 30 }, (_, n) =>
    Array.from({ length: 10 }, (_, i) => {
      const late = n === 15 ? hour + hour / 50 : 0;
      return figure(`h${n}`, n * 1.5 * hour + (i * hour) / 10 - late);
    }),
  ).flat();
  const outcome = pace(figures, new Map());
  expect(outcome.sentence).toMatch(/^1 of 29 ways/);
  expect(outcome.p).toBeGreaterThan(0.1);
});

test('going to and fro between two neighbouring houses is no sign', () => {
  const figures = Array.from({ length: 8 }, (_, n) =>
    [0, 10, 20, 30].map((minutes, i) => figure(`h${n}${i % 2}`, n * 24 * hour + minutes * 60_000)),
  ).flat();
  expect(pace(figures, new Map()).p).toBe(1);
});

test('a camera whose clock was wrong on a day is three houses of thirty, not three dozen photos', () => {
  const all = Array.from({ length: 30 }, (_, n) =>
    Array.from({ length: 12 }, (_, i): Photo => {
      const visit = { from: n * 24 * hour, to: n * 24 * hour + 2 * hour };
      const takenAt = visit.from + (n < 3 ? -5 * hour : hour);
      return {
        id: `${n}/${i}`,
        houseId: `h${n}`,
        raterId: 'r0',
        takenAt,
        addedAt: visit.to,
        visit,
        hash: null,
      };
    }),
  ).flat();
  const outcome = photos(all, new Map());
  expect(outcome.houseIds).toEqual(['h0', 'h1', 'h2']);
  expect(outcome.p).toBeGreaterThan(0.1);
});

test('of two own houses with one picture the later is told of', () => {
  const all = Array.from({ length: 6 }, (_, n): Photo => {
    const place = { id: `p${n}`, houseId: `h${n}`, raterId: 'r0' };
    return { ...place, takenAt: n * hour, addedAt: n, visit: null, hash: null };
  });
  const other = (houseId: string, earlier: boolean) => [{ houseId, raterId: 'r0', earlier }];
  const alike = new Map([
    ['p1', other('h4', false)],
    ['p4', other('h1', true)],
  ]);
  expect(photos(all, alike).houseIds).toEqual(['h4']);
});

test('houses of one plan, whose numbers lie within a few steps, say nothing by their last digits', () => {
  const random = new Random(4);
  const shown = (sd: number) => {
    const value = Math.round(random.normal(113, sd));
    return [{ field: 'flow', value, step: 1, setPoint: false }];
  };
  const onePlan = Array.from({ length: 400 }, (_, n) => figure(`h${n}`, n, { shown: shown(2.5) }));
  expect(lastDigits(onePlan, new Map([['flow', 20]])).p).toBeNull();
  const wide = Array.from({ length: 400 }, (_, n) => figure(`h${n}`, n, { shown: shown(20) }));
  expect(lastDigits(wide, new Map([['flow', 20]])).p).toBeGreaterThan(0.01);
});

interface Scene {
  random: Random;
  installer: number;
  rater: number;
  house: number;
}
/** Six raters with 60 houses and two items each, looked at together. */
function looked(
  installerOf: (rater: number, n: number) => number,
  write: (scene: Scene) => { reported: number; value: number },
) {
  const random = new Random(17);
  const begun = beginLook();
  const years = Array.from({ length: 6 }, (_, rater) => {
    const figures = Array.from({ length: 60 }, (_, n) => {
      const installer = installerOf(rater, n);
      return ['bath-exhaust', 'kitchen-exhaust'].map((item) =>
        figure(`${rater}/${n}`, n * 24 * hour, {
          ...{ raterId: `r${rater}`, item, installerId: `i${installer}` },
          ...write({ random, installer, rater, house: n }),
        }),
      );
    }).flat();
    return { raterId: `r${rater}`, figures, stops: new Map(), photos: [] };
  });
  for (const year of years) begun.read(year);
  return (signal: string) => begun.judge(years[0]!, new Map()).find((each) => each.signal === signal)!;
}

test('whoever comes to one installer only agrees with him no better than others do with theirs', () => {
  // Each installer's instrument is off by as much as 6 % for good; readings differ by 1.5 %.
  const lastingError = [0.06, -0.06, 0.03, -0.03, 0.05, -0.05, 0, 0.02];
  const judged = looked(
    (rater, n) => (rater === 0 ? 0 : n % 8),
    ({ random, installer }) => {
      const truth = Math.exp(random.normal(4, 0.2));
      return { reported: truth * (1 + lastingError[installer]!), value: truth * random.normal(1, 0.015) };
    },
  );
  expect(judged('agreement').p).toBeGreaterThan(0.05);
});

test('houses of one plan lie close together, as what was reported for them does', () => {
  const judged = looked(
    (_, n) => n % 8,
    ({ random, rater }) => {
      const truth = Math.exp(random.normal(4, rater === 0 ? 0.05 : 0.2));
      return { reported: truth * random.normal(1, 0.02), value: truth * random.normal(1, 0.02) };
    },
  );
  expect(judged('spread').p).toBeGreaterThan(0.05);
});

test('houses of five plans are five, however many there are', () => {
  const random = new Random(23);
  const plans = new Map<string, number>();
  const truthOf = (plan: string, spread: number) => {
    if (!plans.has(plan)) plans.set(plan, Math.exp(random.normal(4, spread)));
    return plans.get(plan)! * random.normal(1, 0.03);
  };
  const begun = beginLook();
  const years = Array.from({ length: 6 }, (_, rater) => {
    const figures = Array.from({ length: 120 }, (_, n) => {
      const plan = rater === 0 ? `own ${n % 5}` : `${rater}/${n}`;
      // Nothing is reported of a bedroom; these five plans happen to lie close together.
      return figure(`${rater}/${n}`, n, { plan, value: truthOf(plan, rater === 0 ? 0.08 : 0.4) });
    });
    return { raterId: `r${rater}`, figures, stops: new Map(), photos: [] };
  });
  for (const year of years) begun.read(year);
  const judged = begun.judge(years[0]!, new Map()).find(({ signal }) => signal === 'spread');
  expect(judged!.p).toBeNull();
});

test('… and numbers that lie closer together than what was reported are told of', () => {
  const judged = looked(
    (_, n) => n % 8,
    ({ random, rater }) => {
      const truth = Math.exp(random.normal(4, 0.2));
      const value = rater === 0 ? Math.exp(random.normal(4, 0.05)) : truth * random.normal(1, 0.02);
      return { reported: truth * random.normal(1, 0.02), value };
    },
  );
  expect(judged('spread').p).toBeLessThan(1e-6);
});

/** Five raters with 40 houses of five readings; what an installer reports of a house is off by one share throughout. */
function compared(seed: number, installerOf: (rater: number, n: number) => number, high: number): Compared[] {
  const random = new Random(seed);
  return Array.from({ length: 5 }, (_, rater) =>
    Array.from({ length: 40 }, (_, n) => {
      const [installer, ofHouse] = [installerOf(rater, n), random.normal(0, 0.03)];
      return Array.from({ length: 5 }, (_, i): Compared => {
        const value = (rater === 0 ? high : 0) + ofHouse + random.normal(0, 0.01);
        const who = { raterId: `r${rater}`, houseId: `${rater}/${n}`, installerId: `i${installer}` };
        return { ...who, instrumentId: `m${rater}`, item: `item ${i}`, at: n * 24 * hour + i, value };
      });
    }).flat(),
  ).flat();
}

test('a rater who reads high does not lend it to the installer to whom he mostly comes', () => {
  const rows = compared(2, (rater, n) => (n % 10 < 7 ? rater : n % 5), 0.06);
  const [first, ...others] = biases(matched(rows), ({ raterId }) => raterId);
  const mean = others.reduce((sum, { estimate }) => sum + estimate, 0) / others.length;
  expect(first!.estimate - mean).toBeGreaterThan(0.045);
});

const patient = { timeout: 60_000 };
test('the standard error of a bias is that of houses, since readings of a house go together', patient, () => {
  const errors = Array.from({ length: 40 }, (_, seed) => {
    const rows = compared(seed, (_, n) => n % 5, 0);
    const [first] = biases(
      rows.map((row) => ({ ...row, residual: row.value })),
      ({ raterId }) => raterId,
    );
    return { mean: first!.mean, houses: first!.n, error: first!.sd / Math.sqrt(first!.n) };
  });
  const spread = Math.sqrt(errors.reduce((sum, { mean }) => sum + mean * mean, 0) / errors.length);
  const told = errors.reduce((sum, { error }) => sum + error, 0) / errors.length;
  expect(errors[0]!.houses).toBe(40);
  expect(told / spread).toBeGreaterThan(0.75);
  expect(told / spread).toBeLessThan(1.35);
});

test(
  'an instrument that stands is seldom proposed for a check, though readings of a house go together',
  patient,
  () => {
    const ps = Array.from({ length: 40 }, (_, seed) => {
      const rows = compared(1000 + seed, () => 0, 0).filter(({ raterId }) => raterId === 'r0');
      return drift(
        rows.map((row) => ({ ...row, residual: row.value })),
        0.01,
      )!.p;
    });
    // One in twenty below 5 %, and four standard errors.
    expect(ps.filter((p) => p < 0.05).length).toBeLessThanOrEqual(2 + 4 * 1.4);
  },
);
