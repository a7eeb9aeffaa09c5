import { describe, expect, it } from 'vitest';
import {
  batchAfter,
  BatchRefusal,
  batchRulesOf,
  batchRuleSets,
  batchState,
  emptyBatch,
  failedHouses,
  testingOrder,
  testsInSet,
  whyNoSet,
  type BatchEvent,
} from '../index.ts';

const older = batchRulesOf('one-in-seven');
const newer = batchRulesOf('twenty-percent');
const tested = (houseId: string, passed = true): BatchEvent => ({ kind: 'tested', houseId, passed });
const again = (houseId: string, passed = true): BatchEvent => ({ kind: 'retested', houseId, passed });
const opened = (...houseIds: string[]): BatchEvent => ({ kind: 'set-opened', houseIds });
const entry = [tested('a'), tested('b'), tested('c')];
const seven = opened('1', '2', '3', '4', '5', '6', '7');
const chosenIn = (events: BatchEvent[], rules = older) =>
  batchState(rules, events)
    .sets.at(-1)!
    .houses.flatMap(({ houseId, chosen }) => (chosen ? [houseId] : []));

describe('entry', () => {
  it('asks for passes in a row; a failure begins the row anew', () => {
    const state = batchState(older, [tested('a'), tested('b'), tested('c', false), tested('d')]);
    expect(state).toMatchObject({ phase: 'qualifying', inRow: 1, tested: 4 });
    expect(whyNoSet(older, state)).toMatch(/1 failed house waits/);
    expect(() => batchAfter(older, state, seven)).toThrow(BatchRefusal);
    const after = [again('c'), tested('e'), tested('f')].reduce((s, e) => batchAfter(older, s, e), state);
    expect(after.phase).toBe('sampling');
    expect(whyNoSet(older, after)).toBeNull();
  });

  it('asks for five by the newer rule', () => {
    const four = batchState(newer, [...entry, tested('d')]);
    expect(four.phase).toBe('qualifying');
    expect(whyNoSet(newer, four)).toBe('4 of 5 houses in a row have passed, 4 of 5 were tested.');
    expect(batchAfter(newer, four, tested('e')).phase).toBe('sampling');
  });
});

describe('a set by the older rule', () => {
  it('takes seven, tests one, and speaks for the others when it passes', () => {
    expect(chosenIn([...entry, seven])).toEqual(['1']);
    const state = batchState(older, [...entry, seven, tested('1')]);
    expect(state.sets[0]).toMatchObject({ number: 1, state: 'passed' });
    expect(state.sets[0]!.history.at(-1)).toMatch(/speaks for 6 houses/);
    expect(whyNoSet(older, state)).toBeNull();
  });

  it('is widened by two after a failure, and passes when those pass and the failed one was corrected', () => {
    const failed = [...entry, seven, tested('1', false)];
    expect(chosenIn(failed)).toEqual(['1', '2', '3']);
    const state = batchState(older, [...failed, tested('2'), tested('3')]);
    expect(state).toMatchObject({ phase: 'sampling', sets: [{ state: 'widened' }] });
    expect(whyNoSet(older, state)).toMatch(/Set 1 is not finished/);
    expect(failedHouses(state)).toEqual(['1']);
    const done = batchState(older, [...failed, tested('2'), again('1', false), tested('3'), again('1')]);
    expect(done.sets[0]!.state).toBe('passed');
  });

  it('fails when another one fails: every house is tested, and entry has to be earned again', () => {
    const failed = [...entry, seven, tested('1', false), tested('2', false)];
    expect(chosenIn(failed)).toHaveLength(7);
    const state = batchState(older, failed);
    expect(state).toMatchObject({ phase: 'returning', inRow: 0, sets: [{ state: 'failed' }] });
    expect(whyNoSet(older, state)).toMatch(/Set 1 has failed/);
    const rest = ['3', '4', '5', '6', '7'].map((house) => tested(house));
    const after = [...failed, ...rest, again('1'), again('2')];
    expect(whyNoSet(older, batchState(older, after))).toBe('0 of 3 houses in a row have passed.');
    const back = batchState(older, [...after, tested('d'), tested('e'), tested('f')]);
    expect(back.phase).toBe('sampling');
    expect(back.sets[0]!.state).toBe('failed');
  });
});

describe('a set by the newer rule', () => {
  const five = [...entry, tested('d'), tested('e')];

  it('tests a fifth, rounded up: 18 of 90 in sets of five, as in the published example', () => {
    expect(testsInSet(newer, 7)).toBe(2);
    // RESNET 607.1: of 100 units 10 in qualification, 90 × 0.2 = 18.
    expect(18 * testsInSet(newer, 5)).toBe(18);
    expect(testsInSet(newer, 1)).toBe(1);
    expect(chosenIn([...five, seven], newer)).toEqual(['1', '2']);
  });

  it('stops at once at a failure', () => {
    const state = batchState(newer, [...five, seven, tested('2', false)]);
    expect(state).toMatchObject({ phase: 'returning', sets: [{ state: 'failed' }] });
    expect(state.sets[0]!.houses.every(({ chosen }) => chosen)).toBe(true);
  });
});

it('refuses what the rules do not allow, and never changes what it was given', () => {
  const refused: BatchEvent[][] = [
    [seven],
    [...entry, opened('1', '2', '3', '4', '5', '6', '7', '8')],
    [...entry, opened()],
    [...entry, opened('1', '1')],
    [...entry, opened('a', '1')],
    [...entry, tested('d')],
    [...entry, seven, tested('5')],
    [...entry, seven, tested('1'), tested('1')],
    [tested('a'), tested('a')],
    [tested('a'), again('a')],
  ];
  for (const events of refused) expect(() => batchState(older, events)).toThrow(BatchRefusal);
  const state = batchState(older, [...entry, seven]);
  const before = structuredClone(state);
  batchAfter(older, state, tested('1', false));
  expect(state).toEqual(before);
  expect(emptyBatch.sets).toEqual([]);
});

it('marks every rule, with a source where one was seen', () => {
  for (const { key: _, title: __, ...rules } of batchRuleSets)
    for (const rule of Object.values(rules)) {
      expect(rule.words).toMatch(/\.$/);
      expect(rule.mark === 'seen' ? rule.source : '–').toMatch(rule.mark === 'seen' ? /https?:/ : /–/);
    }
  expect(() => batchRulesOf('none')).toThrow(RangeError);
});

it(
  'puts houses in an order that follows from ids and seed alone, each order as likely',
  { timeout: 60_000 },
  () => {
    const seed = 'cd'.repeat(32);
    expect(testingOrder(['c', 'a', 'b'], seed)).toEqual(testingOrder(['a', 'b', 'c'], seed));
    const counts = new Map<string, number>();
    for (let run = 0; run < 3000; run++) {
      const order = testingOrder(['a', 'b', 'c'], run.toString(16).padStart(64, '0')).join('');
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    expect(counts.size).toBe(6);
    // Chi-square with five degrees of freedom: 20.5 is passed once in a thousand.
    const statistic = [...counts.values()].reduce((sum, count) => sum + (count - 500) ** 2 / 500, 0);
    expect(statistic).toBeLessThan(20.5);
    expect(() => testingOrder(['a'], 'none')).toThrow(RangeError);
  },
);
