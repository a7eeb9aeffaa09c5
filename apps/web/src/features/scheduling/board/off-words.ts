import type { DayOff } from '@countercheck/contracts';

/** Why a rater does not work on a day, or nobody does; undefined when he works as usual. */
export function offWords(daysOff: readonly DayOff[], raterId: string, day: string): string | undefined {
  const off = daysOff.find(
    (each) => (each.raterId ?? raterId) === raterId && each.from <= day && day <= each.to,
  );
  return off && (off.raterId === null ? `Closed: ${off.why}` : `Away: ${off.why}`);
}
