import type { PlanStop } from '@countercheck/contracts';

export const stopWords: Record<PlanStop['state'], string> = {
  kept: 'As booked',
  proposed: 'Proposed',
  accepted: 'Booked',
  rejected: 'Set aside',
};

/** Time on the road, in hours and minutes. */
export function driveWords(minutes: number): string {
  const whole = Math.round(minutes);
  return whole < 60 ? `${whole} min` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

const kilometresPerMile = 1.609344;

/** A distance in the unit that the person reads. */
export function roadWords(kilometres: number, system: 'us' | 'si'): string {
  const shown = system === 'us' ? kilometres / kilometresPerMile : kilometres;
  return `${shown.toFixed(shown < 10 ? 1 : 0)} ${system === 'us' ? 'mi' : 'km'}`;
}
