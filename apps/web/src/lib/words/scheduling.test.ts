import { expect, it } from 'vitest';
import { dueWords } from './scheduling.ts';

it('warns of a deadline from three days before it on, and counts the days after it', () => {
  const on = (deadline: string | null) => dueWords(deadline, '2026-12-07')?.words;
  expect([on(null), on('2026-12-11'), on('2026-12-10'), on('2026-12-09')]).toEqual([
    ...[undefined, undefined, 'Due in 3 days', 'Due in 2 days'],
  ]);
  expect([on('2026-12-08'), on('2026-12-07'), on('2026-12-06'), on('2026-11-30')]).toEqual([
    ...['Due tomorrow', 'Due today', '1 day overdue', '7 days overdue'],
  ]);
  // Across the change of the clocks a day is a day.
  expect(dueWords('2026-11-02', '2026-10-31')?.words).toBe('Due in 2 days');
});
