import { describe, expect, it } from 'vitest';
import type { Instrument, Reading } from '@countercheck/contracts';
import { factsOn } from '../../../lib/instrument-facts.ts';
import { offeredInstruments, usualInstrument } from './instruments.ts';

const calibration = (calibratedOn: string, dueOn: string) => ({
  id: calibratedOn,
  calibratedOn,
  dueOn,
  certificate: null,
  ranges: [],
});
const gauge = (
  id: string,
  calibrations: Instrument['calibrations'],
  more: Partial<Instrument> = {},
): Instrument => ({
  id,
  kind: 'manometer',
  label: `Gauge ${id}`,
  serial: id,
  accuracyPercent: 1,
  accuracyAbsolute: 0.15,
  resolution: 0.1,
  active: true,
  note: null,
  calibrations,
  inCalibration: true,
  ...more,
});
const day = '2026-03-10';
const good = gauge('b', [calibration('2026-01-01', '2027-01-01'), calibration('2025-01-01', '2026-01-01')]);
const late = gauge('a', [calibration('2025-01-01', '2026-01-01')]);

describe('factsOn', () => {
  it('takes the calibration in force on the day, not a later one', () => {
    expect(factsOn(good, '2025-06-01').dueOn).toBe('2026-01-01');
    expect(factsOn(good, day).dueOn).toBe('2027-01-01');
    expect(factsOn(good, '2024-06-01').calibratedOn).toBeNull();
  });
});

describe('offeredInstruments', () => {
  it('shows those that count first and leaves out other kinds and retired ones', () => {
    const offered = offeredInstruments(
      [late, good, gauge('c', good.calibrations, { active: false }), gauge('d', [], { kind: 'stopwatch' })],
      ['manometer'],
      day,
    );
    expect(offered.map(({ facts, state }) => [facts.id, state.counts])).toEqual([
      ['b', true],
      ['a', false],
    ]);
  });
});

describe('usualInstrument', () => {
  const used = (id: string, takenAt: string) => ({ instrument: { id }, takenAt }) as Reading;
  it('is the one used last, but never one that does not count', () => {
    const second = gauge('e', good.calibrations);
    const offered = offeredInstruments([late, good, second], ['manometer'], day);
    expect(
      usualInstrument(offered, [used('b', '2026-03-10T08:00:00Z'), used('a', '2026-03-10T09:00:00Z')]),
    ).toBe('b');
    expect(usualInstrument(offered, [])).toBeNull();
  });
  it('is the only one there is', () => {
    expect(usualInstrument(offeredInstruments([late, good], ['manometer'], day), [])).toBe('b');
  });
});
