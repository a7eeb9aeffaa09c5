import { expect, it } from 'vitest';
import { hoursWords } from './hours-words.ts';

const day = (weekday: number, from = '08:00', to = '17:00') => ({ weekday, from, to });

it('says days with the same hours together, and no hours as none', () => {
  // The space that the formatter puts before AM may be a narrow one.
  const said = (hours: Parameters<typeof hoursWords>[0]) => hoursWords(hours).replaceAll('\u202f', ' ');
  expect(said([5, 1, 2, 3, 4].map((each) => day(each)))).toBe('Mon–Fri 8:00 AM–5:00 PM');
  expect(said([day(1), day(2, '09:30'), day(4, '09:30'), day(5, '09:30')])).toBe(
    'Mon 8:00 AM–5:00 PM, Tue 9:30 AM–5:00 PM, Thu–Fri 9:30 AM–5:00 PM',
  );
  expect(hoursWords([])).toBe('–');
});
