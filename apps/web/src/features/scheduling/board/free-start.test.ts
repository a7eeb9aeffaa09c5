import { describe, expect, it } from 'vitest';
import { clockAt, freeStart } from './free-start.ts';

const zone = 'UTC';
const profile = { workingHours: [{ weekday: 1, from: '07:30', to: '16:00' }] };
const monday = '2026-12-07';
const visit = (from: string, to: string, state: 'booked' | 'cancelled' = 'booked') => ({
  ...{ startsAt: `${monday}T${from}:00Z`, endsAt: `${monday}T${to}:00Z`, state },
});
const free = (...visits: ReturnType<typeof visit>[]) => freeStart(profile, visits, monday, 120, zone);

describe('the first free time of a day', () => {
  it('is when the rater can be there', () => {
    expect(free()).toEqual({ start: '08:00', end: '10:00' });
    expect(freeStart(profile, [], '2026-12-08', 45, zone)).toEqual({ start: '08:00', end: '08:45' });
  });
  it('leaves half an hour for the way, before and after', () => {
    expect(free(visit('10:30', '11:00'))).toEqual({ start: '08:00', end: '10:00' });
    expect(free(visit('10:15', '11:00'))).toEqual({ start: '11:30', end: '13:30' });
    expect(free(visit('09:00', '10:20'), visit('13:30', '14:00'))).toEqual({ start: '11:00', end: '13:00' });
  });
  it('forgets what was cancelled and what is on another day', () => {
    expect(free(visit('07:30', '09:00', 'cancelled')).start).toBe('08:00');
    expect(freeStart(profile, [visit('07:30', '09:00')], '2026-12-14', 60, zone).start).toBe('08:00');
  });
  it('stays within the day', () => {
    const night = { ...visit('07:45', '23:00'), endsAt: '2026-12-08T01:00:00Z' };
    expect(free(night).start).toBe('23:45');
    expect(free(visit('08:00', '23:50')).end).toBe(clockAt(24 * 60 - 1));
  });
});
