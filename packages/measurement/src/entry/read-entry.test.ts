import { describe, expect, it } from 'vitest';
import { ductTester, manometer } from '../testing/instruments.ts';
import { outcomeOf, results } from '../testing/readings.ts';
import type { RawReading } from '../types.ts';
import { testDefinition } from '../tests/registry.ts';

const bedroom = testDefinition('bedroom-pressure');
const kitchen = testDefinition('kitchen-exhaust');
const ready = { doorClosed: true, airHandlerOn: true, otherDoorsOpen: true };

function read(raw: unknown, instrument: unknown = manometer, test = bedroom) {
  const outcome = test.compute(raw as RawReading, instrument as typeof manometer);
  return outcome.ok ? [] : outcome.problems;
}

describe('an entered number', () => {
  const at = (pressure: unknown) =>
    read({ values: { pressure }, choices: {}, rows: [], confirmations: ready });

  it.each([
    [undefined, 'missing', 'Pressure to the main body is missing. Enter the value that you read.'],
    [null, 'missing', 'Pressure to the main body is missing. Enter the value that you read.'],
    [NaN, 'not-a-number', 'Pressure to the main body is not a number. Enter the value that you read.'],
    [Infinity, 'not-a-number', 'is not a number'],
    ['2.4', 'not-a-number', 'is not a number'],
    [
      1e9,
      'out-of-plausible-range',
      'Pressure to the main body is 1000000000 Pa; plausible is -60 to 60 Pa. Check the reading, the decimal point and the unit.',
    ],
    [-60.1, 'out-of-plausible-range', 'is -60.1 Pa; plausible is -60 to 60 Pa.'],
  ])('%s is refused in words', (value, code, words) => {
    const problems = at(value);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({
      path: 'values.pressure',
      code,
      message: expect.stringContaining(words),
    });
  });

  it('may lie on either limit', () => {
    expect(at(60)).toEqual([]);
    expect(at(-60)).toEqual([]);
  });

  it('has no sign where none is possible', () => {
    const outcome = outcomeOf('ambient-carbon-monoxide', { values: { carbonMonoxide: -1 } });
    expect(outcome).toMatchObject({
      problems: [
        {
          code: 'negative',
          message:
            'Carbon monoxide, highest in the house is -1 ppm, but it cannot be negative. Enter the value without a sign.',
        },
      ],
    });
    expect(results(outcomeOf('ambient-carbon-monoxide', { values: { carbonMonoxide: 0 } }))).toEqual({
      carbonMonoxide: 0,
    });
  });
});

describe('a choice', () => {
  const rows = [{ label: '', values: { flow: 50 }, choices: { deviceRange: 'widest' } }];
  const confirmations = { fanOn: true, cooktopCold: true, ductsOutdoors: true };
  const meter = { ...manometer, kind: 'exhaust-flow-meter' as const };
  const at = (mode: unknown) => read({ values: {}, choices: { mode }, rows, confirmations }, meter, kitchen);

  it.each([
    [undefined, 'missing', 'How the fan runs is missing. Choose one of: intermittent, continuous.'],
    [null, 'missing', 'is missing'],
    ['', 'missing', 'is missing'],
    [
      'sometimes',
      'unknown-choice',
      'How the fan runs is "sometimes". Choose one of: intermittent, continuous.',
    ],
    [3, 'unknown-choice', 'How the fan runs is not a text.'],
  ])('of %s is refused in words', (mode, code, words) => {
    expect(at(mode)).toMatchObject([{ path: 'choices.mode', code, message: expect.stringContaining(words) }]);
  });

  it('may be left out empty where it is not required', () => {
    const part = { values: { ductPressure: 25, flow: 70 }, choices: { range: '' } };
    expect(results(outcomeOf('duct-leakage-total', part))).toMatchObject({ leakageAt25: 70 });
  });

  it('offers the instrument’s own ranges', () => {
    const part = { values: { ductPressure: 25, fanPressure: 50 }, choices: { range: 'small' } };
    const without = outcomeOf('duct-leakage-total', part, { ...ductTester, ranges: [] });
    expect(without).toMatchObject({
      problems: [{ code: 'unknown-choice', message: expect.stringContaining('Choose one of: none.') }],
    });
    expect(outcomeOf('duct-leakage-total', part, null)).toMatchObject({
      problems: [
        { path: 'instrument' },
        { path: 'choices.range', message: expect.stringContaining('Choose one of: none.') },
      ],
    });
  });
});

describe('the instrument', () => {
  const good = { values: { pressure: 1 }, choices: {}, rows: [], confirmations: ready };

  it('must be there and of the right kind', () => {
    expect(read(good, null)).toEqual([
      {
        path: 'instrument',
        code: 'missing',
        message: 'No instrument was chosen. Choose the manometer used.',
      },
    ]);
    expect(read(good, { ...ductTester, label: 'Tester 1' })).toEqual([
      {
        path: 'instrument',
        code: 'wrong-instrument',
        message: 'A duct tester (Tester 1) cannot do this test. Use a manometer.',
      },
    ]);
  });

  it('must have a record that can be read', () => {
    const range = { range: 'small', c: 5, n: 0.5, minPa: 10, maxPa: 400 };
    const row = { pressure: 10, flow: 16 };
    const byTable = { range: 'small', c: null, n: null, minPa: 10, maxPa: 400, table: [row] };
    const broken = [
      5,
      {},
      { ...manometer, kind: 'ruler' },
      { ...manometer, label: undefined },
      { ...manometer, accuracyPercent: null },
      { ...manometer, accuracyAbsolute: '1' },
      { ...manometer, ranges: undefined },
      { ...manometer, ranges: [null] },
      { ...manometer, ranges: [range, { ...range, range: 1 }] },
      ...['c', 'n', 'minPa', 'maxPa'].map((key) => ({ ...manometer, ranges: [{ ...range, [key]: '5' }] })),
      { ...manometer, ranges: [{ ...range, c: null }] },
      ...['5', [{ pressure: 1 }], [row, { pressure: '1', flow: 5 }], [null]].map((table) => ({
        ...manometer,
        ranges: [{ ...byTable, table }],
      })),
      { ...manometer, ranges: [{ ...byTable, maxPa: null }] },
    ];
    for (const instrument of broken) {
      expect(read(good, instrument)).toMatchObject([
        {
          path: 'instrument',
          code: 'bad-instrument',
          message: expect.stringContaining('record cannot be read'),
        },
      ]);
    }
    for (const fine of [range, byTable, { ...range, table: null }, { ...byTable, c: undefined }])
      expect(read(good, { ...manometer, ranges: [fine] })).toEqual([]);
  });

  it('is named in words, all those that fit', () => {
    expect(outcomeOf('ambient-carbon-monoxide', undefined, null)).toMatchObject({
      problems: [
        { message: 'No instrument was chosen. Choose the ambient CO monitor or combustion analyzer used.' },
      ],
    });
  });
});

describe('a reading as a whole', () => {
  it('must have everything confirmed, with exactly true', () => {
    const problems = read({
      values: { pressure: 1 },
      choices: {},
      rows: [],
      confirmations: { doorClosed: 'yes', airHandlerOn: false },
    });
    expect(problems.map(({ path, code }) => `${path} ${code}`)).toEqual([
      'confirmations.doorClosed not-confirmed',
      'confirmations.airHandlerOn not-confirmed',
      'confirmations.otherDoorsOpen not-confirmed',
    ]);
    expect(problems[0]?.message).toBe(
      'Not confirmed: The bedroom door is closed. Set it up, then tick it; the reading does not count without it.',
    );
  });

  it('may not hold what the test does not know: a misspelt key is not a value left out', () => {
    const raw = {
      values: { pressure: 1, presure: 2 },
      choices: { door: 'shut' },
      rows: [{}],
      confirmations: ready,
    };
    expect(read(raw)).toEqual([
      {
        path: 'values.presure',
        code: 'unknown-key',
        message: 'This test does not know "presure". It knows: pressure.',
      },
      {
        path: 'choices.door',
        code: 'unknown-key',
        message: 'This test does not know "door". It knows: none.',
      },
      { path: 'rows', code: 'unknown-rows', message: 'This test has no rows. Take the rows out.' },
    ]);
  });

  it('needs as many rows as the test says', () => {
    const rows = (count: number) =>
      Array.from({ length: count }, () => ({ values: { housePressure: 50, flow: 9 } }));
    const at = (count: number) =>
      outcomeOf('envelope-leakage', { values: { baselineBefore: 0 }, rows: rows(count) });
    expect(at(0)).toMatchObject({
      problems: [
        {
          path: 'rows',
          code: 'too-few-rows',
          message: 'There are 0 rows (Point); enter at least 1 and at most 40.',
        },
      ],
    });
    expect(at(41)).toMatchObject({ problems: [{ path: 'rows', code: 'too-many-rows' }] });
    expect(at(1).ok).toBe(true);
    expect(at(40).ok).toBe(true);
  });

  it('does not take inherited keys for entries', () => {
    const raw = {
      values: Object.create({ pressure: 1 }),
      choices: {},
      rows: [],
      confirmations: Object.create(ready),
    };
    expect(read(raw)).toHaveLength(4);
  });

  it('names a row by its label, or by its number when the label is blank or missing', () => {
    const steps = (label: unknown) => {
      const rows = [{ label, values: { freeArea: 50 }, choices: { kind: 'grille' } }];
      const test = testDefinition('bedroom-relief');
      const raw = {
        values: { supplyFlow: 50 },
        choices: {},
        rows,
        confirmations: {},
      } as unknown as RawReading;
      const outcome = test.compute(raw, { ...manometer, kind: 'flow-hood' });
      return outcome.ok && outcome.steps[0]?.label;
    };
    expect(steps(' Hall ')).toBe('Free area of Hall');
    expect(steps('  ')).toBe('Free area of Opening 1');
    expect(steps(7)).toBe('Free area of Opening 1');
  });
});
