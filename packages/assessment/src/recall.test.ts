import { compileRuleSet } from '@countercheck/rules';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { instrumentErrorWords } from './recall-words.ts';
import { recallOutcome } from './recall-flips.ts';
import { withError, withoutError, type Corrected, type InstrumentError, type Recall } from './recall.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { FileReading, HouseFile } from './types.ts';

const evaluate = compileRuleSet(commonPractice);
const file = (...readings: FileReading[]): HouseFile => ({ ...plainFile, readings });
const recall = (instrumentId: string, error: InstrumentError, more: Partial<Recall> = {}): Recall => ({
  ...{ instrumentId, from: '2026-05-01', to: '2026-07-01', error },
  ...more,
});
const offset = (value: number): InstrumentError => ({ kind: 'offset', value });
const gain = (percent: number): InstrumentError => ({ kind: 'gain', percent });
const coefficient = (range: string, factor: number): InstrumentError => ({
  kind: 'coefficient',
  ranges: [{ range, factor }],
});

function taken(result: ReturnType<typeof withoutError>): Corrected {
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}
const valuesOf = (result: ReturnType<typeof withoutError>) => taken(result).file.readings[0]!.raw.values;

const supply = (pressure: number, more: Partial<FileReading> = {}) =>
  reading('supply-static', 'down', 'manometer', { values: { pressure } }, more);
const ducts = (values: Record<string, number>, choices: Record<string, string> = {}) => {
  const taken = reading('duct-leakage-total', 'down', 'duct-tester', { values, choices });
  const ranges = [{ range: 'Ring 2', c: 10, n: 0.5, minPa: 10, maxPa: 300 }];
  return { ...taken, instrument: { ...taken.instrument!, ranges } };
};

const byTable = (fanPressure: number) => {
  const taken = ducts({ ductPressure: 25, fanPressure }, { range: 'Ring 2' });
  const ranges = [{ range: 'Ring 2', c: null, n: null, minPa: 10, maxPa: 250, table: makersTable }];
  return { ...taken, instrument: { ...taken.instrument!, ranges } };
};
/** Invented. */
const makersTable = [
  { pressure: 10, flow: 31 },
  { pressure: 50, flow: 70 },
  { pressure: 250, flow: 158 },
];

describe('taking an error out of what was read', () => {
  it('takes an offset off in the unit of the instrument, whatever the field is stored in', () => {
    // 0.1 in. w.c. less 5 Pa: 0.1 − 5 / 249.08891
    const { pressure } = valuesOf(withoutError(file(supply(0.1)), recall('manometer', offset(5))));
    expect(pressure).toBeCloseTo(0.1 - 5 / 249.08891, 12);
  });

  it('divides by a gain, in every row and both ways of reading a fan', () => {
    const rows = [{ label: 'inlet', values: { flow: 55 }, choices: { deviceRange: 'widest' } }];
    const bath = reading('bath-exhaust', 'bath-1', 'exhaust-flow-meter', {
      choices: { mode: 'intermittent' },
      rows,
    });
    const corrected = taken(withoutError(file(bath), recall('exhaust-flow-meter', gain(10))));
    expect(corrected.file.readings[0]!.raw.rows[0]!.values.flow).toBeCloseTo(50, 12);
    const fan = taken(
      withoutError(
        file(ducts({ ductPressure: 25, fanPressure: 100 }, { range: 'Ring 2' })),
        recall('duct-tester', gain(25)),
      ),
    ).file.readings[0]!;
    expect(fan.raw.values).toEqual({ ductPressure: 25, fanPressure: 100 });
    expect(fan.instrument!.ranges[0]!.c).toBeCloseTo(8, 12);
  });

  it('corrects a coefficient on its range only, for a fan pressure and for a flow', () => {
    const onRing = recall('duct-tester', coefficient('Ring 2', 1.25));
    const byPressure = ducts({ ductPressure: 25, fanPressure: 100 }, { range: 'Ring 2' });
    expect(
      taken(withoutError(file(byPressure), onRing)).file.readings[0]!.instrument!.ranges[0]!.c,
    ).toBeCloseTo(8);
    const byFlow = ducts({ ductPressure: 25, flow: 100 }, { range: 'Ring 2' });
    expect(valuesOf(withoutError(file(byFlow), onRing))).toEqual({ ductPressure: 25, flow: 80 });
    const other = recall('duct-tester', coefficient('Ring 9', 1.25));
    expect(taken(withoutError(file(byFlow), other))).toEqual({ file: file(byFlow), readings: [] });
  });

  it.each([
    ['coefficient', coefficient('Ring 2', 1.25)],
    ['gain', gain(25)],
  ])('scales every flow of a range’s table by its %s, as it scales c', (_, error) => {
    const { instrument, raw } = taken(withoutError(file(byTable(50)), recall('duct-tester', error))).file
      .readings[0]!;
    expect(instrument!.ranges[0]).toEqual({
      ...{ range: 'Ring 2', c: null, n: null, minPa: 10, maxPa: 250 },
      table: [
        { pressure: 10, flow: expect.closeTo(24.8, 12) },
        { pressure: 50, flow: expect.closeTo(56, 12) },
        { pressure: 250, flow: expect.closeTo(126.4, 12) },
      ],
    });
    expect(raw.values).toEqual({ ductPressure: 25, fanPressure: 50 });
    expect(makersTable[0]!.flow).toBe(31);
    const other = recall('duct-tester', coefficient('Ring 9', 1.25));
    expect(taken(withoutError(file(byTable(50)), other)).readings).toEqual([]);
  });

  it('says of which readings the error cannot be told, and leaves them as they are', () => {
    const cases: [FileReading, InstrumentError, RegExp][] = [
      [ducts({ ductPressure: 25, flow: 100 }), coefficient('Ring 2', 1.25), /which range/],
      [
        ducts({ ductPressure: 25, fanPressure: 100 }, { range: 'Ring 2' }),
        offset(5),
        /fan pressure was entered/,
      ],
      [
        reading('bath-exhaust', 'bath-1', 'duct-tester', {
          rows: [{ label: 'a', values: { flow: 5 }, choices: { deviceRange: 'widest' } }],
        }),
        coefficient('Ring 2', 1.25),
        /offset or gain/,
      ],
    ];
    for (const [one, error, words] of cases) {
      const corrected = taken(withoutError(file(one), recall('duct-tester', error)));
      expect(corrected.readings[0]?.whyNot).toMatch(words);
      expect(corrected.file.readings[0]).toBe(one);
    }
  });

  it('leaves other instruments, other days and other quantities alone', () => {
    const readings = [
      supply(0.1, { takenOn: '2026-04-30' }),
      supply(0.1, { takenOn: '2026-07-02' }),
      reading('spillage', 'wh', 'stopwatch', {
        values: { seconds: 20 },
        choices: { vent: 'cold', ended: 'stopped' },
      }),
      ducts({ ductPressure: 25, flow: 50 }),
      supply(0.1, { instrument: null }),
    ];
    const corrected = taken(withoutError(file(...readings), recall('manometer', offset(5))));
    expect(corrected).toEqual({ file: file(...readings), readings: [] });
    const edges = [supply(0.1, { takenOn: '2026-05-01' }), supply(0.1, { takenOn: '2026-07-01' })];
    expect(taken(withoutError(file(...edges), recall('manometer', offset(5)))).readings).toHaveLength(2);
  });

  it.each([
    [{ error: offset(Number.NaN) }, 'not-a-number'],
    [{ error: gain(Number.POSITIVE_INFINITY) }, 'not-a-number'],
    [{ error: gain(-100) }, 'impossible-gain'],
    [{ error: { kind: 'coefficient', ranges: [] } }, 'missing'],
    [{ error: coefficient('Ring 2', 0) }, 'impossible-factor'],
    [
      {
        error: {
          kind: 'coefficient',
          ranges: [
            { range: 'A', factor: 2 },
            { range: 'A', factor: 2 },
          ],
        },
      },
      'twice',
    ],
    [{ from: 'yesterday' }, 'not-a-date'],
    [{ to: '2026-1-1' }, 'not-a-date'],
    [{ to: '2026-04-30' }, 'out-of-order'],
  ] as [Partial<Recall>, string][])('refuses %o', (part, code) => {
    const result = withoutError(file(supply(0.1)), recall('manometer', offset(1), part));
    expect(result.ok ? null : result.problem.code).toBe(code);
  });
});

const errors = fc.oneof(
  fc.double({ min: -20, max: 20, noNaN: true }).map(offset),
  fc.double({ min: -60, max: 200, noNaN: true }).map(gain),
  fc.double({ min: 0.3, max: 3, noNaN: true }).map((factor) => coefficient('Ring 2', factor)),
);
const ids = fc.constantFrom('manometer', 'duct-tester', 'exhaust-flow-meter');
const readings = fc.array(
  fc.oneof(
    fc.double({ min: -3, max: 3, noNaN: true }).map((pressure) => supply(pressure)),
    fc
      .double({ min: 0, max: 2000, noNaN: true })
      .map((flow) => ducts({ ductPressure: 25, flow }, { range: 'Ring 2' })),
    fc
      .double({ min: 10, max: 300, noNaN: true })
      .map((fanPressure) => ducts({ ductPressure: 25, fanPressure }, { range: 'Ring 2' })),
    fc.double({ min: 10, max: 250, noNaN: true }).map(byTable),
  ),
  { maxLength: 6 },
);

/** Every number of the readings, in order. */
function numbersOf({ readings }: HouseFile): number[] {
  return readings.flatMap(({ raw, instrument }) => [
    ...Object.values(raw.values),
    ...raw.rows.flatMap((row) => Object.values(row.values)),
    ...instrument!.ranges.flatMap(({ c, table }) => [c ?? 0, ...(table ?? []).map(({ flow }) => flow)]),
  ]);
}

describe('whatever was read', () => {
  it('an error of zero changes nothing', () => {
    const none = fc.constantFrom(offset(0), gain(0), coefficient('Ring 2', 1));
    fc.assert(
      fc.property(readings, none, ids, (list, error, id) => {
        expect(taken(withoutError(file(...list), recall(id, error))).file).toEqual(file(...list));
      }),
    );
  });

  it('taking the error out and putting it back gives what was there, in either order', () => {
    fc.assert(
      fc.property(readings, errors, ids, (list, error, id) => {
        const given = file(...list);
        const wanted = numbersOf(given);
        const asked = recall(id, error);
        for (const back of [
          taken(withError(taken(withoutError(given, asked)).file, asked)).file,
          taken(withoutError(taken(withError(given, asked)).file, asked)).file,
        ])
          numbersOf(back).forEach((value, i) =>
            expect(Math.abs(value - wanted[i]!)).toBeLessThan(1e-9 * Math.max(1, Math.abs(wanted[i]!))),
          );
      }),
    );
  });

  it('the given file stays as it is', () => {
    fc.assert(
      fc.property(readings, errors, ids, (list, error, id) => {
        const given = file(...list);
        const before = structuredClone(given);
        withoutError(given, recall(id, error));
        expect(given).toEqual(before);
      }),
    );
  });
});

describe('what a recall does to a house', () => {
  const outcomeOf = (given: HouseFile, asked: Recall) => {
    const result = recallOutcome(given, asked, evaluate);
    if (!result.ok) throw new Error(result.problem.message);
    return result.value;
  };

  it('finds a pass that was none, with the reading before and after', () => {
    // 0.092 is 108 % of the reported 0.085 and passes at 110 %; the gauge showed 1 Pa too little
    const {
      flips,
      readings: changed,
      revisit,
    } = outcomeOf(file(supply(0.092)), recall('manometer', offset(-1)));
    expect(flips).toMatchObject([
      { item: 'supply-static', subjectId: 'down', before: 'pass', after: 'fail', direction: 'worse' },
    ]);
    expect(revisit).toBe(true);
    expect(changed[0]).toMatchObject({ subjectLabel: 'Downstairs', whyNot: null });
    expect(changed[0]!.results[0]!.before).toBeCloseTo(0.092, 12);
    expect(changed[0]!.results[0]!.after).toBeCloseTo(0.092 + 1 / 249.08891, 12);
  });

  it('tells the reasons in the units asked for', () => {
    // 0.092 in. w.c. and 1 Pa more are 23.92 Pa; 110 % of the reported 21.17 Pa are 23.29
    const told = recallOutcome(file(supply(0.092)), recall('manometer', offset(-1)), evaluate, 'si');
    const [flip] = told.ok ? told.value.flips : [];
    expect(flip?.reasonAfter).toBe('23.9 Pa is 113 % of the reported 21.17; limit 110 %.');
  });

  it('finds a failure that was none, for which nobody has to come back', () => {
    const { flips, revisit } = outcomeOf(file(supply(0.1)), recall('manometer', gain(10)));
    expect(flips).toMatchObject([{ before: 'fail', after: 'pass', direction: 'better' }]);
    expect(revisit).toBe(false);
  });

  it('takes a table’s error out of the leakage read from it', () => {
    const asked = recall('duct-tester', coefficient('Ring 2', 1.25));
    const { readings: changed } = outcomeOf(file(byTable(50)), asked);
    const [leakage] = changed[0]!.results;
    expect(leakage).toMatchObject({ before: expect.closeTo(70, 9), after: expect.closeTo(56, 9) });
  });

  it('asks to measure again where nothing can be computed without the error', () => {
    const {
      readings: changed,
      flips,
      revisit,
    } = outcomeOf(file(supply(0.01)), recall('manometer', offset(5)));
    expect(changed[0]!.whyNot).toContain('swapped');
    expect(changed[0]!.results[0]).toMatchObject({ after: null });
    expect(flips.every((each) => each.direction !== 'better')).toBe(true);
    expect(revisit).toBe(true);
  });

  it('hands on what makes the recall impossible', () => {
    expect(recallOutcome(file(), recall('manometer', gain(-100)), evaluate)).toMatchObject({ ok: false });
  });
});

describe('the error in words', () => {
  it.each([
    ['manometer', offset(-3), 'it showed 3 Pa too little'],
    ['thermometer', offset(2), 'it showed 2 °F too much'],
    ['flow-hood', gain(4.5), 'it showed 4.5 % too much'],
    [
      'duct-tester',
      coefficient('Ring 2', 1.05),
      'the flow worked out with its coefficients was 1.05 times the actual flow on Ring 2',
    ],
  ] as const)('%s', (kind, error, words) => {
    expect(instrumentErrorWords(error, kind)).toBe(words);
  });
});
