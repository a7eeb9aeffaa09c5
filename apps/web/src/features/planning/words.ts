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

export const kilometresPerMile = 1.609344;

/** A distance in the unit that the person reads. */
export function roadWords(kilometres: number, system: 'us' | 'si'): string {
  const shown = system === 'us' ? kilometres / kilometresPerMile : kilometres;
  return `${shown.toFixed(shown < 10 ? 1 : 0)} ${system === 'us' ? 'mi' : 'km'}`;
}

/** A speed in the unit that the person reads. */
export function speedWords(kilometresPerHour: number, system: 'us' | 'si'): string {
  const shown = system === 'us' ? kilometresPerHour / kilometresPerMile : kilometresPerHour;
  return `${Number(shown.toFixed(1))} ${system === 'us' ? 'mph' : 'km/h'}`;
}

/** Where the times on the road come from. */
export function travelWords(travel: WeekPlan['travel'], system: 'us' | 'si'): string {
  if (travel === null) return 'Not kept for plans of that time';
  if (travel.service) return 'From the routing service';
  const { circuity, speed, extraMinutes, trouble } = travel;
  const lines = `From coordinates: straight lines times ${circuity}, at ${speedWords(speed, system)}, and ${extraMinutes} min a drive`;
  return trouble === null ? lines : `The routing service could not be used: ${trouble} ${lines}`;
}

/** Why a visit went to its rater, beside the next best one. */
export function choiceWords({ able, instead }: NonNullable<PlanStop['choice']>): string {
  if (able < 2) return 'Only this rater can do it';
  if (instead === null)
    return able === 2
      ? 'The other rater who could do it has no room'
      : `None of the ${able - 1} others who could do it has room`;
  const more = Math.round(instead.more);
  return more < 1
    ? `${instead.rater} would do as well`
    : `${instead.rater} would cost ${driveWords(more)} more`;
}

/** Beyond so many times the bound, what lies between says nothing about the plan. */
const tellingTimes = 1.5;

/**
 * How far a plan may be from the cheapest one there is, by its weights, which are minutes of driving and what stands
 * for them.
 */
export function goodWords({ proved, cost, bound }: Pick<WeekPlan, 'proved' | 'cost' | 'bound'>): string {
  if (proved) return 'No plan costs less, by its weights';
  if (cost === null || bound === null) return 'The best that was found in the time';
  const shown = (minutes: number) => Math.round(minutes).toLocaleString('en-US');
  const costs = `By its weights, in minutes of driving, it costs ${shown(cost)}; no plan costs less than ${shown(Math.floor(bound))}.`;
  // A bound that far below says little about the plan, and is not dressed up as if it did.
  if (cost > tellingTimes * bound)
    return `${costs} That limit is a weak one for so many visits: how near the plan is to the cheapest is not known. It is the best that was found in the time; searching longer may find a better one.`;
  return `${costs} It is at most ${shown(Math.ceil(cost - bound))} (${((cost / bound - 1) * 100).toFixed(1)} %) above the cheapest.`;
}
