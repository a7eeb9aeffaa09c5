import { describe, expect, it } from 'vitest';
import { addDays, clockOf, datesShown, instantOf, weekStart } from './dates.ts';

const zone = 'America/Denver';

describe("the company's clock", () => {
  it('turns a day and a time into the instant and back', () => {
    expect(instantOf('2026-07-01', '09:30', zone)).toBe('2026-07-01T15:30:00.000Z');
    expect(clockOf('2026-07-01T15:30:00.000Z', zone)).toEqual({ date: '2026-07-01', time: '09:30' });
  });
  it('is right on both sides of a clock change', () => {
    expect(instantOf('2026-03-08', '01:30', zone)).toBe('2026-03-08T08:30:00.000Z');
    expect(instantOf('2026-03-08', '03:30', zone)).toBe('2026-03-08T09:30:00.000Z');
    expect(instantOf('2026-11-01', '09:00', zone)).toBe('2026-11-01T16:00:00.000Z');
  });
  it('gives nothing for what is no time, so that the contract asks for a date', () => {
    expect(instantOf('', '09:00', zone)).toBe('');
  });
});

describe('days', () => {
  it('cross months and leap days', () => {
    expect(addDays('2028-02-28', 1)).toBe('2028-02-29');
    expect(addDays('2026-01-01', -1)).toBe('2025-12-31');
  });
  it('begin the week on Monday', () => {
    expect(weekStart('2026-11-25')).toBe('2026-11-23');
    expect(weekStart('2026-11-29')).toBe('2026-11-23');
    expect(weekStart('2026-11-23')).toBe('2026-11-23');
  });
  it('are written in words as people write them', () => {
    expect(datesShown('Gauge 2 was used on 2026-02-01, after its calibration was due on 2026-01-15.')).toBe(
      'Gauge 2 was used on Feb 1, 2026, after its calibration was due on Jan 15, 2026.',
    );
    expect(datesShown('Serial TP-2026-01-1515 of lot 2026-1')).toBe('Serial TP-2026-01-1515 of lot 2026-1');
  });
});
