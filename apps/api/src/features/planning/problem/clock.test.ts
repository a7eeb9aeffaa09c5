import { describe, expect, it } from 'vitest';
import { planClock } from './clock.ts';

const hour = 60;

// The company's clocks are neither UTC nor those of whoever runs this test.
describe.each([
  [
    'back in the autumn',
    '2026-10-30',
    '2026-11-03',
    2,
    25,
    '2026-10-30T13:00:00.000Z',
    '2026-11-02T14:00:00.000Z',
  ],
  [
    'forward in the spring',
    '2027-03-12',
    '2027-03-16',
    2,
    23,
    '2027-03-12T14:00:00.000Z',
    '2027-03-15T13:00:00.000Z',
  ],
])('a week in which the clocks go %s', (_, from, to, changes, hours, before, after) => {
  const clock = planClock(new Date(from), new Date(to), 'US/Central');
  const opens = (day: number) => clock.instant(clock.at(day, '08:00')).toISOString();

  it('keeps the hours of the day that the clocks show', () => {
    expect(opens(0)).toBe(before);
    expect(opens(changes + 1)).toBe(after);
    expect(clock.dates).toHaveLength(5);
    expect([0, 1, 2, 3, 4].map((day) => clock.weekday(day))).toEqual([5, 6, 7, 1, 2]);
  });

  it('has a day that is an hour longer or shorter, and no minute is lost or there twice', () => {
    expect(clock.starts(changes + 1) - clock.starts(changes)).toBe(hours * hour);
    expect(clock.starts(5)).toBe((4 * 24 + hours) * hour);
    expect(clock.instant(clock.starts(5))).toEqual(clock.to);
    for (let minute = 0; minute < clock.starts(5); minute += 5)
      expect(clock.minute(clock.instant(minute))).toBe(minute);
  });
});
