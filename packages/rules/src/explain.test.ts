import { describe, expect, it } from 'vitest';
import { compileRuleSet } from './evaluate.ts';
import type { Item } from './schema/index.ts';
import { itemOf } from './test/cases.ts';
import { confirmed, judged, madeFacts, madeItem, setOf, unconfirmed } from './test/made.ts';
import { commonPractice } from './test/sets.ts';
import type { DecisionRule } from './types.ts';

const band: DecisionRule = { rule: 'guard-band', factor: 1 };
const ppm = (value: number) => ({ kind: 'constant', value, unit: 'ppm' }) as const;
const cfm = (value: number) => ({ kind: 'constant', value, unit: 'cfm' }) as const;

/** A bath fan by either of two ways, the first confirmed and the second not. */
const twoWays = madeItem('bath-exhaust', {
  options: [
    {
      option: 'switched',
      title: 'Switched fan',
      source: confirmed,
      require: [{ check: 'at-least', quantity: 'measured.intermittentFlow', limit: cfm(50) }],
    },
    {
      option: 'steady',
      title: 'Steady fan',
      source: unconfirmed,
      require: [{ check: 'at-least', quantity: 'measured.continuousFlow', limit: cfm(20) }],
    },
  ],
});

describe('a verdict says that a limit is not confirmed', () => {
  const flagged = (measured: Record<string, number>) => !judged(twoWays, { measured }).trace.limitConfirmed;

  it.each([
    ['not when what it passes by is', { intermittentFlow: 60 }, false],
    ['when what it passes by is not', { continuousFlow: 30 }, true],
    ['not when only the way that was confirmed failed', { intermittentFlow: 40 }, false],
    ['when the way that was not confirmed failed', { continuousFlow: 10 }, true],
    ['when one of the ways that failed was not', { intermittentFlow: 40, continuousFlow: 10 }, true],
    ['while everything is open', {}, true],
  ])('%s', (_when, measured, wanted) => {
    expect(flagged(measured)).toBe(wanted);
  });

  it('also of a stop-work threshold that is reached', () => {
    const stopping = (source: Item['source']) =>
      madeItem('ambient-carbon-monoxide', {
        options: [
          {
            option: 'room',
            title: 'In the room',
            source: confirmed,
            require: [{ check: 'at-most', quantity: 'measured.carbonMonoxide', limit: ppm(100) }],
          },
        ],
        stopWork: [
          {
            title: 'Leave the house',
            source,
            require: [{ check: 'above', quantity: 'measured.carbonMonoxide', limit: ppm(70) }],
          },
        ],
      });
    const of = (source: Item['source'], carbonMonoxide: number) =>
      judged(stopping(source), { measured: { carbonMonoxide } }).trace.limitConfirmed;
    expect(of(unconfirmed, 80)).toBe(false);
    expect(of(unconfirmed, 60)).toBe(true);
    expect(of(confirmed, 80)).toBe(true);
  });
});

describe('a guard band that cannot be kept', () => {
  const remarksOf = (item: Item, measured: Record<string, number>, u?: number, decision?: DecisionRule) =>
    judged(item, { measured }, { ...(u === undefined ? {} : { u }), ...(decision ? { decision } : {}) }).trace
      .remarks;
  const told = 'No uncertainty is known for the bath exhaust, intermittent, so no guard band was kept.';

  it('is told once for each reading', () => {
    expect(remarksOf(twoWays, { intermittentFlow: 60 }, undefined, band)).toEqual([told]);
    const twice = madeItem('bath-exhaust', {
      options: [
        {
          option: 'switched',
          title: 'Switched fan',
          require: [
            { check: 'at-least', quantity: 'measured.intermittentFlow', limit: cfm(50) },
            { check: 'at-most', quantity: 'measured.intermittentFlow', limit: cfm(90) },
          ],
        },
      ],
    });
    expect(remarksOf(twice, { intermittentFlow: 60 }, undefined, band)).toEqual([told]);
  });

  it('is not spoken of under simple acceptance, nor where it was kept, nor where nothing was read', () => {
    expect(remarksOf(twoWays, { intermittentFlow: 60 })).toEqual([]);
    expect(remarksOf(twoWays, { intermittentFlow: 60 }, 2, band)).toEqual([]);
    expect(remarksOf(twoWays, {}, undefined, band)).toEqual([]);
  });

  it('is not spoken of where there is no limit to keep from', () => {
    const recorded = madeItem('bath-exhaust', {
      options: [
        {
          option: 'read',
          title: 'Read at all',
          require: [{ check: 'recorded', quantity: 'measured.intermittentFlow' }],
        },
      ],
    });
    expect(remarksOf(recorded, { intermittentFlow: 60 }, undefined, band)).toEqual([]);
  });
});

describe('the comparison that stands first', () => {
  const wordAndNumber = madeItem('bath-exhaust', {
    options: [
      {
        option: 'large',
        title: 'In a house of two storeys',
        require: [
          { check: 'is', quantity: 'house.storeys', value: 2 },
          { check: 'at-least', quantity: 'measured.intermittentFlow', limit: cfm(50) },
        ],
      },
    ],
  });
  const firstOf = (storeys: number | null, measured: Record<string, number>) =>
    judged(wordAndNumber, { house: { storeys }, measured }).headline?.name ?? null;

  it.each([
    [
      'the number that passed, not the fact beside it',
      2,
      { intermittentFlow: 60 },
      'measured.intermittentFlow',
    ],
    ['the number that failed', 1, { intermittentFlow: 40 }, 'measured.intermittentFlow'],
    ['the fact, where only that failed', 1, { intermittentFlow: 60 }, 'house.storeys'],
    ['what is known, while the rest is open', 2, {}, 'house.storeys'],
    ['the number, while the fact is open', null, { intermittentFlow: 60 }, 'measured.intermittentFlow'],
    ['nothing, while nothing is known', null, {}, null],
  ])('is %s', (_what, storeys, measured, name) => {
    expect(firstOf(storeys, measured as Record<string, number>)).toBe(name);
  });

  it('is the fact where the house passes by facts alone', () => {
    const byFact = madeItem('bath-exhaust', {
      options: [
        {
          option: 'small',
          title: 'In a small house',
          require: [{ check: 'is', quantity: 'house.storeys', value: 1 }],
        },
      ],
    });
    expect(judged(byFact, {}).headline).toMatchObject({ name: 'house.storeys', value: 1, holds: true });
  });

  it('is one with a lower bound as well as one with an upper bound', () => {
    const bounded = (check: 'at-least' | 'at-most') =>
      madeItem('bath-exhaust', {
        options: [
          {
            option: 'both',
            title: 'Both',
            require: [
              { check: 'recorded', quantity: 'measured.intermittentFlow' },
              { check, quantity: 'measured.intermittentFlow', limit: cfm(50) },
            ],
          },
        ],
      });
    const first = (check: 'at-least' | 'at-most') =>
      judged(bounded(check), { measured: { intermittentFlow: 50 } }).headline;
    expect(first('at-least')).toMatchObject({ low: 50, high: null });
    expect(first('at-most')).toMatchObject({ low: null, high: 50 });
  });
});

describe('a verdict', () => {
  const monitored = itemOf(commonPractice, 'ambient-carbon-monoxide');

  it('carries what the item says for people, as copies', () => {
    const verdict = judged(monitored, { measured: { carbonMonoxide: 5 } });
    expect(verdict).toMatchObject({
      item: monitored.item,
      title: monitored.title,
      stage: 'final',
      tests: monitored.tests,
      trade: monitored.trade,
      correction: monitored.correction,
      cautions: monitored.cautions,
      safety: true,
      stopWork: null,
    });
    expect(verdict.cautions.length).toBeGreaterThan(0);
    expect(verdict.cautions).not.toBe(monitored.cautions);
    expect(verdict.tests).not.toBe(monitored.tests);
  });

  it('hands on the steps, the remarks and the numbers of the readings that entered it', () => {
    const step = { label: 'Sum', working: '30 + 30', value: 60, unit: 'cfm' } as const;
    const facts = madeFacts(twoWays, { measured: { intermittentFlow: 60 } });
    const reading = facts.measured['bath-exhaust']!['one']!;
    Object.assign(reading, {
      steps: [step],
      remarks: ['the fan was on high'],
      readingIds: ['r1', 'r2', 'r1'],
    });
    const { trace } = compileRuleSet(setOf(twoWays))(facts).verdicts[0]!;
    expect(trace).toMatchObject({
      steps: [step],
      remarks: ['the fan was on high'],
      readingIds: ['r1', 'r2'],
      decisionRule: { rule: 'simple-acceptance' },
    });
  });

  it('says each stop-work threshold that is reached, one sentence behind the other', () => {
    const stops = (title: string, value: number) => ({
      title,
      source: confirmed,
      require: [{ check: 'above', quantity: 'measured.carbonMonoxide', limit: ppm(value) } as const],
    });
    const item = { ...monitored, stopWork: [stops('Stop the test.', 35), stops('Leave the house.', 70)] };
    const of = (carbonMonoxide: number) => judged(item, { measured: { carbonMonoxide } }).stopWork;
    expect([of(35), of(36), of(71)]).toEqual([null, 'Stop the test.', 'Stop the test. Leave the house.']);
  });
});

describe('a scorecard', () => {
  const plain = madeItem('bath-exhaust', {
    options: [
      {
        option: 'switched',
        title: 'Switched fan',
        require: [{ check: 'at-least', quantity: 'measured.intermittentFlow', limit: cfm(50) }],
      },
    ],
  });
  const stopping: Item = {
    ...plain,
    stopWork: [
      {
        title: 'Stop.',
        source: confirmed,
        require: [{ check: 'above', quantity: 'measured.intermittentFlow', limit: cfm(100) }],
      },
    ],
  };
  const cardOf = (item: Item, intermittentFlow?: number) =>
    compileRuleSet(setOf(item, { ...item, item: 'bath-exhaust-too' }))(
      madeFacts(item, { measured: intermittentFlow === undefined ? {} : { intermittentFlow } }),
    );

  it('names the set, counts each status and releases a house that met everything', () => {
    expect(cardOf(plain, 60)).toMatchObject({
      ruleSet: { key: 'common-practice', version: '2026.1' },
      counts: { pass: 2, fail: 0, exempt: 0, 'not-applicable': 0, waiting: 0 },
      releasable: true,
      stopWork: [],
    });
    expect(cardOf(plain, 40)).toMatchObject({ counts: { pass: 0, fail: 2 }, releasable: false });
    expect(cardOf(plain)).toMatchObject({ counts: { waiting: 2 }, releasable: false });
  });

  it('releases no house where people have to act first, and says that once', () => {
    expect(cardOf(stopping, 101)).toMatchObject({
      counts: { pass: 2 },
      stopWork: ['Stop.'],
      releasable: false,
    });
    expect(cardOf(stopping, 100)).toMatchObject({ stopWork: [], releasable: true });
  });

  it('hands out its own copy of the set’s name each time', () => {
    const judge = compileRuleSet(setOf(plain));
    const facts = madeFacts(plain, {});
    expect(judge(facts).ruleSet).not.toBe(judge(facts).ruleSet);
  });
});
