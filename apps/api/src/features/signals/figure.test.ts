import { expect, it } from 'vitest';
import { figuresOf } from './figure.ts';
import type { ReadingRow } from './readings.ts';

const ducts = (id: string, flow: number, rest: Partial<ReadingRow>): ReadingRow => ({
  ...{ id, house_id: 'h', rater_id: 'r', test: 'duct-leakage-total', subject_id: 's' },
  raw: { values: { flow, ductPressure: 25 }, choices: {}, rows: [] },
  ...{ entered: {}, taken_at: new Date('2026-03-02T15:00:00Z'), stands: true, read_again: false },
  ...{ instrument_id: null, instrument_kind: null, accuracy_percent: null, accuracy_absolute: null },
  plan_id: null,
  ...{ resolution: null, calibrated: null, overdue: null, ranges: null, reported: null, installer_id: null },
  ...{ floor_area: 2000, verdict_value: 4, verdict_low: null, verdict_high: 6 },
  ...rest,
});

it('holds a first visit’s failure against its limit although a colleague’s reinspection stands now', () => {
  const [failed] = figuresOf([ducts('first', 130, { stands: false })]);
  expect(failed).toMatchObject({ value: 130, limit: { value: 120, inside: 'below' }, readAgain: false });
});

it('holds what was replaced within the visit against the limit of the reading that stands, and says so', () => {
  const figures = figuresOf([
    ducts('first', 130, { stands: false, read_again: true }),
    ducts('second', 80, { id: 'second' }),
  ]);
  expect(figures.map(({ readAgain, limit }) => [readAgain, limit?.value])).toEqual([
    [true, 120],
    [false, 120],
  ]);
});
