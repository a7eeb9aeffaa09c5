import type { MailKind, Readiness, VisitRequest, Visit } from '@countercheck/contracts';
import type { Qualification } from '@countercheck/assessment';

export const visitRequestStateWords: Record<VisitRequest['state'], string> = {
  open: 'To be booked',
  booked: 'Booked',
  done: 'Done',
  withdrawn: 'Withdrawn',
};
export const deadlineWords: Record<NonNullable<VisitRequest['deadlineWhy']>, string> = {
  before_drywall: 'Before drywall',
  before_closing: 'Before closing',
  agreed: 'As agreed',
};
export const accessWords: Record<NonNullable<VisitRequest['access']>, string> = {
  contact: 'Somebody lets us in',
  key: 'Key',
  open: 'House is open',
};
export const sourceWords: Record<VisitRequest['source'], string> = {
  house_ready: 'House ready',
  reinspection: 'Reinspection asked',
  retest: 'Re-test ordered',
  office: 'Office',
};
export const readinessWords: Record<Readiness['points'][number]['kind'], string> = {
  power: 'Power is on',
  air_handler: 'Air handler runs',
  registers: 'Registers and grilles are in',
  appliances: 'Appliances are set',
  corrections: 'Corrections are made',
};
export const notReadyWords: Record<NonNullable<Visit['notReadyKind']>, string> = {
  no_power: 'No power',
  air_handler_off: 'Air handler does not run',
  registers_missing: 'Registers missing',
  appliances_not_set: 'Appliances not set',
  figures_missing: "Installer's figures missing",
  no_access: 'No access',
  work_going_on: 'Other work going on',
  unsafe: 'Not safe to work',
  other: 'Something else',
};
export const qualificationWords: Record<Qualification, string> = {
  airtightness: 'Airtightness of ducts and envelope',
  airflow: 'Airflow and static pressure',
  'combustion-safety': 'Combustion safety',
  'quality-visits': 'Quality visits',
};
export const mailKindWords: Record<MailKind, string> = {
  'visit-booked': 'A visit is booked',
  'visit-moved': 'A visit is moved or given to another rater',
  'visit-cancelled': 'A visit is cancelled',
};

/** “2 h 45 min”. */
export function durationWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  return [hours > 0 ? `${hours} h` : '', rest > 0 || hours === 0 ? `${rest} min` : '']
    .filter(Boolean)
    .join(' ');
}

/** A deadline that is over or nears, from this many days before it on. */
const soonDays = 3;

/** That a deadline is over or near, both dates of the company, yyyy-mm-dd; undefined when there is time. */
export function dueWords(
  deadlineOn: string | null,
  now: string,
): { tone: 'bad' | 'brass'; words: string } | undefined {
  if (deadlineOn === null) return undefined;
  const days = Math.round((Date.parse(deadlineOn) - Date.parse(now)) / 86_400_000);
  if (days > soonDays) return undefined;
  if (days < 0) return { tone: 'bad', words: days === -1 ? '1 day overdue' : `${-days} days overdue` };
  if (days < 2) return { tone: 'bad', words: days === 0 ? 'Due today' : 'Due tomorrow' };
  return { tone: 'brass', words: `Due in ${days} days` };
}

/** How much of the list is answered with yes. */
export function readinessShort({ points, figuresSignedAt, ready }: Readiness): string {
  if (ready) return 'Ready';
  const missing = points.filter((point) => point.ready === false).length;
  if (missing > 0) return missing === 1 ? '1 point not ready' : `${missing} points not ready`;
  const yes = points.filter((point) => point.ready).length + (figuresSignedAt ? 1 : 0);
  return `${yes} of ${points.length + 1} confirmed`;
}
