import { describe, expect, it } from 'vitest';
import { replacedBy, standing } from './readings.ts';

const reading = (id: string, supersedesId: string | null = null, supersededById: string | null = null) => ({
  id,
  supersedesId,
  supersededById,
  test: 'supply-static' as const,
  subjectId: 's',
  takenAt: `2026-03-10T0${id}:00:00Z`,
});

describe('the readings of a form', () => {
  const all = [reading('3', '2'), reading('1', null, '2'), reading('2', '1', '3'), reading('0')];
  it('stand when nothing replaced them, oldest first', () => {
    expect(standing(all, 'supply-static', 's').map(({ id }) => id)).toEqual(['0', '3']);
    expect(standing(all, 'supply-static', 'other')).toEqual([]);
  });
  it('show what they replaced, newest first', () => {
    expect(replacedBy(all[0]!, all).map(({ id }) => id)).toEqual(['2', '1']);
  });
  it('end where a chain bites its tail', () => {
    const a = reading('1', '2');
    const b = reading('2', '1');
    expect(replacedBy(a, [a, b]).map(({ id }) => id)).toEqual(['2']);
  });
});
