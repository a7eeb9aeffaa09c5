import type { PlanStop, WeekPlan } from '@countercheck/contracts';

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

/**
 * How far a plan may be from the cheapest one there is, by its weights, which are minutes of driving and what stands
 * for them.
 */
export function goodWords({ proved, cost, bound }: Pick<WeekPlan, 'proved' | 'cost' | 'bound'>): string {
  if (proved) return 'No plan costs less, by its weights';
  if (cost === null || bound === null) return 'The best that was found in the time';
  const shown = (minutes: number) => Math.round(minutes).toLocaleString('en-US');
  const above = bound > 0 ? ` (${((cost / bound - 1) * 100).toFixed(1)} %)` : '';
  return `By its weights, in minutes of driving, it costs ${shown(cost)}; no plan costs less than ${shown(Math.floor(bound))}. It is at most ${shown(Math.ceil(cost - bound))}${above} above the cheapest.`;
}
