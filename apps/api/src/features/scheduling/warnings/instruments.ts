import type { VisitWarning } from '@countercheck/contracts';
import { kindsWithoutCalibration } from '@countercheck/measurement';
import { instrumentsOf, type Surroundings, type WarnedInstrument, type WarnedVisit } from './visit.ts';
import { dayWords } from './words.ts';

const inCalibration = ({ kind, calibrations }: WarnedInstrument, day: string) =>
  (kindsWithoutCalibration as readonly string[]).includes(kind) ||
  calibrations.some(({ on, due }) => on <= day && day <= due);
const named = (kinds: readonly string[]) => kinds.map((kind) => kind.replaceAll('-', ' ')).join(' or ');

/** What is needed and does not come along, what is out of calibration on the day, and what is elsewhere then. */
export function aboutInstruments(visit: WarnedVisit, around: Surroundings, day: string): VisitWarning[] {
  const along = instrumentsOf(visit, around);
  const found: VisitWarning[] = [];
  for (const kinds of visit.request?.needs.instruments ?? []) {
    const fit = along.filter(({ kind }) => (kinds as readonly string[]).includes(kind));
    if (fit.length === 0) found.push({ code: 'instrument-missing', text: `No ${named(kinds)} goes along.` });
    else if (!fit.some((each) => inCalibration(each, day)))
      found.push({
        code: 'instrument-not-in-calibration',
        text: `${fit.map(({ label }) => label).join(', ')}: out of calibration on ${dayWords(day)}.`,
      });
  }
  for (const { id, label } of along) {
    const other = around.visits.find(
      (each) =>
        each.id !== visit.id &&
        each.raterId !== visit.raterId &&
        each.startsAt < visit.endsAt &&
        each.endsAt > visit.startsAt &&
        instrumentsOf(each, around).some((one) => one.id === id),
    );
    if (!other) continue;
    const whose = around.profiles.get(other.raterId)?.rater.name ?? 'another rater';
    found.push({
      code: 'instrument-twice',
      text: `${label} is with ${whose} at ${other.address} then.`,
    });
  }
  return found;
}
