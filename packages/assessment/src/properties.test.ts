import { fromDisplay, testDefinitions, toDisplay, type FieldDefinition } from '@countercheck/measurement';
import { compileRuleSet, type Status } from '@countercheck/rules';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from './assess.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { FileReading, HouseFile } from './types.ts';

const evaluate = compileRuleSet(commonPractice);
const runs = { numRuns: 40, seed: 7 };
const rank: Record<Status, number> = { pass: 0, exempt: 0, 'not-applicable': 0, waiting: 1, fail: 2 };

const flow = fc.integer({ min: 5, max: 120 });
const reached = fc.integer({ min: 10, max: 60 });
const row = (value: number, choices: Record<string, string>) => ({
  label: '',
  values: { flow: value },
  choices,
});
const ducts = (id: string, value: number, ductPressure = 25) =>
  reading('duct-leakage-total', id, 'duct-tester', { values: { ductPressure, flow: value } });
const unit = (value: number) =>
  reading('ventilator-duct-leakage', 'ventilator', 'duct-tester', {
    values: { ductPressure: 25, flow: value },
  });
const envelope = (value: number, housePressure = 50) =>
  reading('envelope-leakage', 'house', 'blower-door', {
    values: { baselineBefore: 0 },
    rows: [{ label: '', values: { housePressure, flow: value }, choices: {} }],
  });
const bedroom = (pressure: number) =>
  reading('bedroom-pressure', 'bed-1', 'manometer', { values: { pressure } });
const bath = (value: number) =>
  reading('bath-exhaust', 'bath-1', 'flow-hood', {
    choices: { mode: 'intermittent' },
    rows: [row(value, { deviceRange: 'widest' })],
  });
const fan = (supply: number, exhaust: number) =>
  reading('whole-house-ventilation', 'ventilator', 'flow-hood', {
    rows: [row(supply, { airstream: 'supply' }), row(exhaust, { airstream: 'exhaust' })],
  });

/** Readings of a whole house, each of them around its limit. */
const readings = fc
  .tuple(
    flow,
    flow,
    flow,
    fc.integer({ min: 200, max: 2000 }),
    fc.integer({ min: -8, max: 8 }),
    flow,
    flow,
    reached,
  )
  .map(([down, up, own, house, room, air, exhaust, pressure]) => [
    ducts('down', down, pressure),
    ducts('up', up),
    unit(own),
    envelope(house),
    bedroom(room),
    bath(air),
    fan(air, exhaust),
  ]);

const fileOf = (list: FileReading[], more: Partial<HouseFile> = {}): HouseFile => ({
  ...plainFile,
  ...more,
  readings: list,
});
const verdicts = (file: HouseFile) =>
  Object.fromEntries(
    assess(file, evaluate).scorecard.verdicts.map((each) => [`${each.item}/${each.subjectId}`, each]),
  );
const statuses = (file: HouseFile) =>
  Object.fromEntries(Object.entries(verdicts(file)).map(([key, { status }]) => [key, status]));

describe('a house', () => {
  it('is judged the same when it is judged again, also from a copy of its file', () => {
    fc.assert(
      fc.property(readings, (list) => {
        const file = fileOf(list);
        const copy = JSON.parse(JSON.stringify(file)) as HouseFile;
        expect(assess(copy, evaluate).scorecard).toEqual(assess(file, evaluate).scorecard);
      }),
      runs,
    );
  });

  it('is judged the same in whatever order its parts are listed', () => {
    fc.assert(
      fc.property(
        readings,
        fc.shuffledSubarray(plainFile.rooms, { minLength: plainFile.rooms.length }),
        fc.shuffledSubarray(plainFile.systems, { minLength: plainFile.systems.length }),
        (list, rooms, systems) => {
          expect(statuses(fileOf(list, { rooms, systems }))).toEqual(statuses(fileOf(list)));
        },
      ),
      runs,
    );
  });

  it('is judged the same when every number was entered in the other units', () => {
    const inSi = (fields: readonly FieldDefinition[], values: Record<string, number>) =>
      Object.fromEntries(
        Object.entries(values).map(([key, value]) => {
          const { quantity } = fields.find((each) => each.key === key)!;
          return [key, fromDisplay(quantity, toDisplay(quantity, value, 'si'), 'si')];
        }),
      );
    const entered = (each: FileReading): FileReading => {
      const { fields, rows } = testDefinitions[each.test];
      const raw = {
        ...each.raw,
        values: inSi(fields, each.raw.values),
        rows: each.raw.rows.map((one) => ({ ...one, values: inSi(rows?.fields ?? [], one.values) })),
      };
      return { ...each, raw };
    };
    fc.assert(
      fc.property(readings, (list) => {
        expect(statuses(fileOf(list.map(entered)))).toEqual(statuses(fileOf(list)));
      }),
      runs,
    );
  });

  it('that is twice as large and leaks twice as much is judged the same', () => {
    const { house } = plainFile;
    const twice = {
      ...house,
      conditionedFloorAreaFt2: 2 * house.conditionedFloorAreaFt2,
      conditionedVolumeFt3: 2 * house.conditionedVolumeFt3,
    };
    fc.assert(
      fc.property(flow, flow, flow, fc.integer({ min: 200, max: 2000 }), (down, up, own, whole) => {
        const at = (factor: number, more: Partial<HouseFile> = {}) => {
          const list = [ducts('down', factor * down), ducts('up', factor * up), unit(factor * own)];
          return statuses(fileOf([...list, envelope(factor * whole)], more));
        };
        expect(at(2, { house: twice })).toEqual(at(1));
      }),
      runs,
    );
  });

  it('with one more part that nobody measured gets no better, and never passes what sums over its parts', () => {
    const attic = { id: 'attic', label: 'Attic', hasDucts: true, ductsInside: true, designAirflowCfm: 400 };
    fc.assert(
      fc.property(readings, (list) => {
        const before = statuses(fileOf(list));
        const after = statuses(fileOf(list, { systems: [...plainFile.systems, attic] }));
        for (const [key, status] of Object.entries(before))
          if (rank[status] === 1) expect([key, rank[after[key]!]]).toEqual([key, 1]);
        expect(after['duct-leakage-total/house']).toBe('waiting');
        expect(after['supply-static/attic']).toBe('waiting');
      }),
      runs,
    );
  });

  it('with one reading less passes nothing that waited or failed', () => {
    fc.assert(
      fc.property(readings, fc.nat({ max: 6 }), (list, gone) => {
        const before = statuses(fileOf(list));
        const after = statuses(fileOf(list.filter((_, i) => i !== gone)));
        for (const [key, status] of Object.entries(before))
          if (rank[status] > 0) expect([key, rank[after[key]!] > 0]).toEqual([key, true]);
      }),
      runs,
    );
  });

  it('that leaks more, as read at the same pressure, is never judged better', () => {
    fc.assert(
      fc.property(readings, fc.integer({ min: 1, max: 400 }), (list, more) => {
        const before = verdicts(fileOf(list));
        const leakier = list.map((each): FileReading => {
          if (!['duct-leakage-total', 'envelope-leakage'].includes(each.test)) return each;
          const add = (values: Record<string, number>) =>
            'flow' in values ? { ...values, flow: values['flow']! + more } : values;
          const rows = each.raw.rows.map((one) => ({ ...one, values: add(one.values) }));
          return { ...each, raw: { ...each.raw, values: add(each.raw.values), rows } };
        });
        const after = verdicts(fileOf(leakier));
        for (const item of ['duct-leakage-total/house', 'envelope-leakage/house'])
          expect(rank[after[item]!.status]).toBeGreaterThanOrEqual(rank[before[item]!.status]);
      }),
      runs,
    );
  });
});
