import { describe, expect, test, vi } from 'vitest';
import {
  choices,
  faults,
  kilometresBetween,
  type Plan,
  plan,
  travelFromCoordinates,
  unplacedWords,
} from './index.ts';
import { asked, rater, road, visit } from './test/small.ts';

// A machine that is busy with other things searches as many rounds, only slower.
vi.setConfig({ testTimeout: 60_000 });

const hour = 60;
const limits = { iterations: 300 };
const whoDoes = ({ days }: Plan) =>
  Object.fromEntries(days.flatMap(({ rater, visits }) => visits.map((each) => [each.visit, rater])));
const startOf = ({ days }: Plan, id: string) =>
  days.flatMap(({ visits }) => visits).find((each) => each.visit === id)?.start;

describe('travel', () => {
  test('one degree along a meridian is the 360th part of the circle', () => {
    const circle = 2 * Math.PI * 6371.0088;
    expect(kilometresBetween({ latitude: 10, longitude: 5 }, { latitude: 11, longitude: 5 })).toBeCloseTo(
      circle / 360,
      9,
    );
    expect(kilometresBetween({ latitude: 0, longitude: 179 }, { latitude: 0, longitude: -179 })).toBeCloseTo(
      circle / 180,
      9,
    );
    expect(kilometresBetween({ latitude: 90, longitude: 0 }, { latitude: -90, longitude: 9 })).toBeCloseTo(
      circle / 2,
      6,
    );
  });

  test('roads are longer by the circuity and driven at the speed', () => {
    const places = [
      { latitude: 41, longitude: -91 },
      { latitude: 41.2, longitude: -91 },
      { latitude: 41, longitude: -91 },
    ];
    const crow = kilometresBetween(places[0]!, places[1]!);
    const table = travelFromCoordinates(places, { circuity: 1.5, kilometresPerHour: 30, extraMinutes: 4 });
    expect(table.distance[1]).toBeCloseTo(1.5 * crow, 9);
    expect(table.minutes[1]).toBeCloseTo(3 * crow + 4, 9);
    // From one house of a community to another at the same point nobody drives.
    expect([table.minutes[2], table.minutes[0]]).toEqual([0, 0]);
    for (const wrong of [{ circuity: 0.9 }, { kilometresPerHour: 0 }, { extraMinutes: -1 }])
      expect(() =>
        travelFromCoordinates(places, { circuity: 1, kilometresPerHour: 1, extraMinutes: 0, ...wrong }),
      ).toThrow(RangeError);
  });
});

describe('a plan', () => {
  test('drives a road once up and once down', () => {
    const problem = asked([visit('c', 3), visit('a', 1), visit('b', 2)], [rater('r')]);
    const found = plan(problem, limits);
    expect(found.driveMinutes).toBe(60);
    expect(found.days[0]).toMatchObject({ rater: 'r', day: 0 });
    expect(found.days[0]!.visits.map(({ start }) => start % 5)).toEqual([0, 0, 0]);
  });

  test('gives the reinspection to another rater, unless only the first one can', () => {
    const visits = [visit('again', 1, { avoidRater: 'near' })];
    const far = rater('far');
    const near = rater('near', {
      days: [{ ...far.days[0]!, startPlace: 1, endPlace: 1 }],
    });
    expect(whoDoes(plan(asked(visits, [near, far]), limits))).toEqual({ again: 'far' });
    expect(whoDoes(plan(asked(visits, [near]), limits))).toEqual({ again: 'near' });
  });

  test('shares the work out, though one rater lives nearer', () => {
    const visits = Array.from({ length: 6 }, (_, i) => visit(`v${i}`, 5));
    const hours = rater('a').days[0]!;
    const raters = [rater('a'), rater('b', { days: [{ ...hours, startPlace: 4, endPlace: 4 }] })];
    const fair = asked(visits, raters, {
      weights: { ...asked([], []).weights, overShareMinute: 2, farOverShareMinute: 2 },
    });
    const count = (found: Plan) => found.days.map((day) => day.visits.length);
    expect(count(plan(fair, limits))).toEqual([3, 3]);
    expect(count(plan(asked(visits, raters), limits))).toEqual([6]);
  });

  test('says who would be next best and what that would cost more', () => {
    const home = (place: number) =>
      rater('r').days.map((day) => ({ ...day, startPlace: place, endPlace: place }));
    const near = rater('near', { days: home(4) });
    const far = rater('far', { days: home(9), qualifications: ['trained'] });
    const problem = asked(
      [visit('v', 5), visit('w', 9, { qualifications: ['trained'] }), visit('x', 9, { notRaters: ['near'] })],
      [near, far],
    );
    // To place 5 and back: 20 minutes for the near one. The far one is at place 9 anyway, 40 minutes off each way.
    expect(choices(problem, plan(problem, limits))).toEqual([
      { visit: 'v', able: 2, instead: { rater: 'far', more: 60 } },
      { visit: 'w', able: 1, instead: null },
      { visit: 'x', able: 1, instead: null },
    ]);
    const full = asked(
      [visit('v', 5), visit('x', 9, { minutes: 500 })],
      [rater('near', { days: home(4) }), far],
    );
    const found = choices(full, plan(full, limits));
    expect(found.map(({ able }) => able)).toEqual([2, 2]);
    expect(found[0]!.instead).toBeNull();
  });

  test('takes the break where it costs no visit, and does without none', () => {
    const pause = { minutes: 60, startsWithin: { from: 11 * hour, to: 13 * hour } };
    const hours = { ...rater('r').days[0]!, pause };
    const visits = Array.from({ length: 8 }, (_, i) => visit(`v${i}`, 0));
    const found = plan(asked(visits, [rater('r', { days: [hours] })]), limits);
    expect(found.unplaced).toEqual([]);
    expect(found.days[0]!.pause).toMatchObject({ from: expect.any(Number) });
    const full = plan(asked([...visits, visit('v8', 0)], [rater('r', { days: [hours] })]), limits);
    expect(full.unplaced).toMatchObject([{ code: 'no-time-left', raters: 1 }]);
    expect(plan(asked([...visits, visit('v8', 0)], [rater('r')]), limits).unplaced).toEqual([]);
  });

  test('keeps the dearer visit when not all fit', () => {
    const visits = Array.from({ length: 10 }, (_, i) => visit(`v${i}`, 0, { priority: i === 7 ? 3 : 1 }));
    const found = plan(asked(visits, [rater('r')]), limits);
    expect(found.unplaced).toHaveLength(1);
    expect(whoDoes(found)).toHaveProperty('v7');
  });

  test.each([
    ['no-window', visit('v', 1, { windows: [] }), /deadline has passed/],
    ['no-qualification', visit('v', 1, { qualifications: ['trained'] }), /qualification it needs: TRAINED/],
    ['no-instrument', visit('v', 1, { instruments: ['hood'] }), /carries the instrument it needs.*HOOD/],
    ['no-rater-allowed', visit('v', 1, { notRaters: ['r'] }), /did the work that it looks at/],
    [
      'nobody-works-then',
      visit('v', 1, { windows: [{ from: 18 * hour, to: 20 * hour }] }),
      /does not work long enough/,
    ],
    ['too-far', visit('v', 9, { minutes: 400 }), /could not get there and back/],
  ])('says why a visit is left out: %s', (code, one, words) => {
    const found = plan(asked([one], [rater('r')]), limits);
    expect(found.unplaced).toMatchObject([{ visit: 'v', code }]);
    expect(unplacedWords(found.unplaced[0]!, (need) => need.toUpperCase())).toMatch(words);
  });

  test('says that an instrument is missing on the days that are open, not that nobody works then', () => {
    const [day] = rater('r').days;
    const days = [
      { ...day!, instruments: ['hood'] },
      { ...day!, day: 1, from: day!.from + 24 * hour, to: day!.to + 24 * hour, instruments: [] },
    ];
    const later = visit('v', 1, { instruments: ['hood'], windows: [{ from: 24 * hour, to: 48 * hour }] });
    const found = plan(asked([later], [{ ...rater('r'), instruments: ['hood'], days }]), limits);
    expect(found.unplaced).toEqual([{ visit: 'v', code: 'no-instrument', missing: ['hood'], raters: 0 }]);
  });

  test('refuses what means nothing', () => {
    const wrong = [
      asked([visit('v', 11)], [rater('r')]),
      asked([visit('v', 1, { minutes: 0 })], [rater('r')]),
      asked([], [rater('r'), rater('r')]),
      asked([visit('v', 1, { fixed: { rater: 'who', start: 600 } })], [rater('r')]),
      asked([], [], { travel: { ...road(10, 3), places: 4 } }),
    ];
    for (const each of wrong) expect(() => plan(each, limits)).toThrow(RangeError);
  });
});

describe('planning again', () => {
  const at = (id: string, who: string, start: number) => ({ rater: who, start });
  const day = () => [
    visit('done', 1, { fixed: at('done', 'a', 8.5 * hour) }),
    visit('noon', 2, { promised: at('noon', 'a', 12 * hour) }),
    visit('late', 3, { promised: at('late', 'a', 15 * hour) }),
    visit('other', 8, { promised: at('other', 'b', 12 * hour) }),
  ];

  test('leaves everything where it was promised, though another order would drive less', () => {
    const found = plan(asked(day(), [rater('a'), rater('b')]), limits);
    expect(whoDoes(found)).toEqual({ done: 'a', noon: 'a', late: 'a', other: 'b' });
    expect([startOf(found, 'noon'), startOf(found, 'late')]).toEqual([12 * hour, 15 * hour]);
  });

  test('moves one visit when one has to move', () => {
    const urgent = visit('urgent', 2, { windows: [{ from: 12 * hour, to: 13 * hour }], notRaters: ['b'] });
    const found = plan(asked([...day(), urgent], [rater('a'), rater('b')]), limits);
    expect(found.unplaced).toEqual([]);
    expect(startOf(found, 'urgent')).toBe(12 * hour);
    const moved = day().filter(
      (each) =>
        startOf(found, each.id) !== (each.promised ?? each.fixed)!.start ||
        whoDoes(found)[each.id] !== (each.promised ?? each.fixed)!.rater,
    );
    expect(moved.map(({ id }) => id)).toEqual(['noon']);
  });

  test('shares out the visits of a rater who fell ill, and moves nobody else', () => {
    const well = rater('b');
    const found = plan(asked(day().slice(1), [rater('a', { days: [] }), well]), limits);
    expect(whoDoes(found)).toEqual({ noon: 'b', late: 'b', other: 'b' });
    expect(startOf(found, 'other')).toBe(12 * hour);
  });

  test('adds nothing to a day whose fixed visits do not fit together', () => {
    const clash = [
      visit('one', 1, { fixed: at('one', 'a', 9 * hour) }),
      visit('two', 9, { fixed: at('two', 'a', 10 * hour) }),
    ];
    const found = plan(asked([...clash, visit('new', 1)], [rater('a'), rater('b')]), limits);
    expect(found.closed).toEqual([{ rater: 'a', day: 0 }]);
    expect(whoDoes(found)).toEqual({ new: 'b' });
  });
});

describe('the checker', () => {
  const problem = asked(
    [visit('v', 1, { instruments: ['hood'], notRaters: ['c'] }), visit('w', 2)],
    [rater('a', { instruments: ['hood'] }), rater('b'), rater('c', { instruments: ['hood'] })],
  );
  const good = plan(problem, limits);
  const sabotage: [string, (found: Plan) => void, RegExp][] = [
    ['a visit that is nowhere', (found) => found.days[0]!.visits.pop(), /is there 0 times/],
    ['a visit twice', (found) => found.days[0]!.visits.push(found.days[0]!.visits[0]!), /is there 2 times/],
    ['no time to drive', (found) => (found.days[0]!.leaves += 5), /is reached at/],
    ['a return too early', (found) => (found.days[0]!.returns -= 1), /the end is reached at/],
    ['another rater', (found) => (found.days[0]!.rater = 'b'), /lacks hood/],
    ['whoever may not', (found) => (found.days[0]!.rater = 'c'), /may not be done/],
    ['a visit cut short', (found) => (found.days[0]!.visits[1]!.end -= 10), /lasts 50/],
    [
      'an odd time',
      (found) => ((found.days[0]!.visits[1]!.start += 1), (found.days[0]!.visits[1]!.end += 1)),
      /odd time/,
    ],
  ];
  test('finds nothing wrong with a good plan', () => expect(faults(problem, good)).toEqual([]));
  test.each(sabotage)('finds %s', (_, spoil, words) => {
    const spoiled = structuredClone(good);
    spoil(spoiled);
    expect(faults(problem, spoiled).join('; ')).toMatch(words);
  });
});
