import type { Qualification } from '@countercheck/assessment';
import type { VisitWarning } from '@countercheck/contracts';
import { offOn } from '../../booking-rules/index.ts';
import type { Surroundings, WarnedVisit } from './visit.ts';
import { dayWords } from './words.ts';

const trained: Record<Qualification, string> = {
  airtightness: 'airtightness of ducts and envelope',
  airflow: 'airflow and static pressure',
  'combustion-safety': 'combustion safety',
  'quality-visits': 'quality visits',
};
const pointWords = {
  power: 'the power is not on',
  air_handler: 'the air handler does not run',
  registers: 'the registers are not in',
  appliances: 'the appliances are not set',
  corrections: 'the corrections are not made',
} as const;

/** Whether this rater may and should go, and what the site says. */
export function aboutPeople(
  visit: WarnedVisit,
  { profiles, daysOff }: Surroundings,
  day: string,
): VisitWarning[] {
  const profile = profiles.get(visit.raterId);
  const found: VisitWarning[] = [];
  const off = offOn(daysOff, visit.raterId, day);
  if (off) {
    const who = off.raterId === null ? 'Nobody works' : `${profile?.rater.name ?? 'This rater'} is away`;
    found.push({ code: 'away', text: `${who} on ${dayWords(day)}: ${off.why}` });
  }
  const missing = (visit.request?.needs.qualifications ?? []).filter(
    (each) => profile && !profile.qualifications.includes(each),
  );
  if (profile && missing.length > 0)
    found.push({
      code: 'qualification-missing',
      text: `${profile.rater.name} has no qualification for ${missing.map((each) => trained[each]).join(', ')}.`,
    });
  if (profile?.held && profile.heldFrom !== null && visit.startsAt >= new Date(profile.heldFrom))
    found.push({
      code: 'rater-held',
      text: `${profile.rater.name} is held by the quality manager: ${profile.held}`,
    });
  if (visit.avoidRater?.id === visit.raterId)
    found.push({
      code: 'own-work',
      text: `${visit.avoidRater.name} would look at his own work; another rater should go.`,
    });
  const wanting = (visit.request?.readiness.points ?? []).filter(({ ready }) => ready === false);
  if (wanting.length > 0)
    found.push({
      code: 'not-ready',
      text: `The site says: ${wanting.map(({ kind }) => pointWords[kind]).join(', ')}.`,
    });
  return found;
}
