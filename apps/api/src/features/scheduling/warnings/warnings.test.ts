import { describe, expect, it } from 'vitest';
import type { RaterProfile, VisitWarning } from '@countercheck/contracts';
import { minutesBetween } from './travel.ts';
import { visitWarnings } from './of-visit.ts';
import type { Surroundings, WarnedInstrument, WarnedVisit } from './visit.ts';

const at = (clock: string, day = '2026-12-07') => new Date(`${day}T${clock}:00Z`);
const profile = (id: string, more: Partial<RaterProfile> = {}): RaterProfile => ({
  rater: { id, name: id === 'ann' ? 'Ann' : 'Ben' },
  qualifications: ['airtightness'],
  workingHours: [1, 2, 3, 4, 5].map((weekday) => ({ weekday, from: '08:00', to: '17:00' })),
  ...{ breakMinutes: 30, startsAtHome: true, homeLatitude: null, homeLongitude: null },
  ...{ instrumentIds: [`tester-${id}`], instruments: [], held: null, heldFrom: null },
  ...more,
});
const tester = (id: string, due = '2027-01-01'): WarnedInstrument => ({
  ...{ id, kind: 'duct-tester', label: id, calibrations: [{ on: '2026-01-01', due }] },
});
type Wanted = NonNullable<WarnedVisit['request']>;
const wanted = (more: Partial<Wanted> = {}): Wanted => ({
  ...{ earliestOn: '2026-12-01', deadlineOn: '2026-12-11', deadlineWhy: 'before_drywall', minutes: 60 },
  ...{ openFrom: null, openTo: null },
  needs: { instruments: [['duct-tester']], qualifications: ['airtightness'] },
  readiness: { points: [], figuresSignedAt: null, ready: false },
  ...more,
});
const visit = (more: Partial<WarnedVisit> = {}): WarnedVisit => ({
  ...{
    id: 'one',
    raterId: 'ann',
    kind: 'final',
    address: '1 Weir Lane',
    place: { latitude: 41, longitude: -91 },
  },
  ...{ startsAt: at('09:00'), endsAt: at('10:00'), request: wanted(), avoidRater: null, instrumentIds: [] },
  ...more,
});
const around = (more: Partial<Surroundings> = {}): Surroundings => ({
  timezone: 'UTC',
  office: null,
  travel: { circuity: 1.3, speed: 40 },
  profiles: new Map([profile('ann'), profile('ben')].map((each) => [each.rater.id, each])),
  instruments: new Map([tester('tester-ann'), tester('tester-ben')].map((each) => [each.id, each])),
  ...{ visits: [], daysOff: [] },
  ...more,
});
const codes = (found: VisitWarning[]) => found.map(({ code }) => code);
const of = (own: Partial<WarnedVisit>, more: Partial<Surroundings> = {}) =>
  codes(visitWarnings(visit(own), around(more)));

describe('the doubts about a visit', () => {
  it('are none where everything fits', () => expect(of({})).toEqual([]));

  it('are about days, hours and length, by the clocks of the company', () => {
    expect(of({ request: wanted({ earliestOn: '2026-12-08' }) })).toEqual(['before-earliest']);
    expect(of({ request: wanted({ deadlineOn: '2026-12-06' }) })).toEqual(['after-deadline']);
    expect(of({ request: wanted({ minutes: 75 }) })).toEqual(['too-short']);
    expect(of({ request: wanted({ openFrom: '09:00', openTo: '10:00' }) })).toEqual([]);
    expect(of({ request: wanted({ openFrom: '09:15', openTo: '12:00' }) })).toEqual(['outside-access']);
    expect(of({ request: wanted({ openFrom: '08:00', openTo: '09:45' }) })).toEqual(['outside-access']);
    expect(of({ startsAt: at('16:30'), endsAt: at('17:30') })).toEqual(['outside-hours']);
    // Past midnight nobody is there, whatever the clock at its end says.
    const night = { startsAt: at('16:00'), endsAt: at('00:30', '2026-12-08') };
    expect(of({ ...night, request: wanted({ openFrom: '09:00', openTo: '17:00' }) })).toEqual([
      ...['outside-hours', 'outside-access'],
    ]);
    expect(of({ startsAt: at('09:00', '2026-12-12'), endsAt: at('10:00', '2026-12-12') })).toEqual([
      ...['outside-hours', 'after-deadline'],
    ]);
    // Two in the morning in UTC is the evening before in the company's zone, and Ann does not work then.
    const late = { startsAt: at('02:00', '2026-12-08'), endsAt: at('03:00', '2026-12-08') };
    const [warning] = visitWarnings(visit(late), around({ timezone: 'US/Central' }));
    expect(warning?.text).toBe('Ann works from 8:00 AM to 5:00 PM on that day.');
  });

  it('are about the way, which is as long as the circuity and the speed make it', () => {
    const far = { latitude: 41.1, longitude: -91 };
    // A tenth of a degree of latitude is 11.12 km; times 1.3 at 40 km/h.
    expect(minutesBetween({ latitude: 41, longitude: -91 }, far, { circuity: 1.3, speed: 40 })).toBe(22);
    const next = (from: string, place = far) =>
      visit({ ...{ id: 'two', address: '2 Far Road', place }, startsAt: at(from), endsAt: at('12:00') });
    expect(of({}, { visits: [next('10:21')] })).toEqual(['travel-too-tight']);
    expect(of({}, { visits: [next('10:22')] })).toEqual([]);
    expect(of({}, { visits: [next('10:00', { latitude: 41, longitude: -91 })] })).toEqual([]);
    const [warning] = visitWarnings(visit(), around({ visits: [next('10:10')] }));
    expect(warning?.text).toBe('The way on to 2 Far Road takes about 22 min; there are 10 min for it.');
  });

  it('are about the way from where the day begins and back, against the working hours', () => {
    // A tenth of a degree of latitude is 22 minutes, as above.
    const home = { homeLatitude: 41.1, homeLongitude: -91 };
    const living = (more: Partial<RaterProfile>) => new Map([['ann', profile('ann', more)]]);
    const words = (startsAt: Date, endsAt: Date, more: Partial<Surroundings>) =>
      visitWarnings(visit({ startsAt, endsAt }), around({ profiles: living(home), ...more })).map(
        ({ code, text }) => [code, text],
      );
    expect(words(at('08:22'), at('16:38'), {})).toEqual([]);
    expect(words(at('08:21'), at('09:30'), {})).toEqual([
      [
        'travel-too-tight',
        'The way from home takes about 22 min; work begins at 8:00 AM, which leaves 21 min for it.',
      ],
    ]);
    expect(words(at('15:00'), at('16:39'), {})).toEqual([
      [
        'travel-too-tight',
        'The way home takes about 22 min; work ends at 5:00 PM, which leaves 21 min for it.',
      ],
    ]);
    // Who starts at the office is asked about the way from there, and nobody where it is not known.
    const office = { latitude: 41.2, longitude: -91 };
    const profiles = living({ ...home, startsAtHome: false });
    expect(words(at('08:30'), at('09:30'), { profiles, office })[0]?.[1]).toContain('from the office');
    expect(words(at('08:30'), at('09:30'), { profiles })).toEqual([]);
    expect(words(at('08:00'), at('09:00'), { profiles: living({}) })).toEqual([]);
    // Between other visits there is no way home; before work begins it is the hours that do not fit.
    const other = (id: string, from: string, to: string) =>
      visit({ ...{ id, startsAt: at(from), endsAt: at(to) } });
    expect(words(at('08:10'), at('09:10'), { visits: [other('two', '08:00', '08:05')] })).toEqual([]);
    expect(words(at('07:50'), at('09:00'), {}).map(([code]) => code)).toEqual(['outside-hours']);
  });

  it('tell of another visit of the rater at that time, which is refused', () => {
    const other = visit({ id: 'two', address: '2 Far Road', startsAt: at('09:30'), endsAt: at('11:00') });
    const found = visitWarnings(visit(), around({ visits: [visit(), other] }));
    expect(found).toEqual([
      {
        code: 'booked-already',
        text: 'The rater is booked then already: 2 Far Road, 9:30 AM to 11:00 AM. This cannot be booked so.',
      },
    ]);
    expect(of({}, { visits: [{ ...other, startsAt: at('10:00') }] })).toEqual([]);
    expect(of({}, { visits: [{ ...other, raterId: 'ben' }] })).toEqual([]);
  });

  it('are about who goes', () => {
    const needs = { instruments: [], qualifications: ['combustion-safety' as const] };
    expect(of({ request: wanted({ needs }) })).toEqual(['qualification-missing']);
    const heldFrom = (from: string) =>
      of(
        {},
        { profiles: new Map([['ann', profile('ann', { held: 'Readings too alike', heldFrom: from })]]) },
      );
    expect(heldFrom('2026-12-07T09:00:00Z')).toEqual(['rater-held']);
    // A hold that begins later in the week is none yet.
    expect(heldFrom('2026-12-07T09:01:00Z')).toEqual([]);
    const off = {
      id: 'off',
      rater: null,
      from: '2026-12-07',
      to: '2026-12-08',
      why: 'Vacation',
      byName: 'Desk',
    };
    expect(of({}, { daysOff: [{ ...off, raterId: 'ann' }] })).toEqual(['away']);
    expect(of({}, { daysOff: [{ ...off, raterId: null }] })).toEqual(['away']);
    expect(of({}, { daysOff: [{ ...off, raterId: 'ben' }] })).toEqual([]);
    expect(of({}, { daysOff: [{ ...off, raterId: 'ann', from: '2026-12-08' }] })).toEqual([]);
    expect(of({ avoidRater: { id: 'ann', name: 'Ann' } })).toEqual(['own-work']);
    expect(of({ avoidRater: { id: 'ben', name: 'Ben' } })).toEqual([]);
    const point = { kind: 'power' as const, note: null, byName: 'Foreman', at: null };
    const readiness = (ready: boolean | null) => ({
      ...{ points: [{ ...point, ready }], figuresSignedAt: null, ready: false },
    });
    expect(of({ request: wanted({ readiness: readiness(false) }) })).toEqual(['not-ready']);
    expect(of({ request: wanted({ readiness: readiness(null) }) })).toEqual([]);
  });

  it('are about what goes along', () => {
    const none = new Map([['ann', profile('ann', { instrumentIds: [] })]]);
    expect(of({}, { profiles: none })).toEqual(['instrument-missing']);
    const overdue = new Map([['tester-ann', tester('tester-ann', '2026-12-06')]]);
    expect(of({}, { instruments: overdue })).toEqual(['instrument-not-in-calibration']);
    const onTheDay = new Map([['tester-ann', tester('tester-ann', '2026-12-07')]]);
    expect(of({}, { instruments: onTheDay })).toEqual([]);
    // What needs no calibration is never out of it.
    const tape = { ...tester('tester-ann'), kind: 'tape-measure', calibrations: [] };
    const measured = wanted({ needs: { instruments: [['tape-measure']], qualifications: [] } });
    expect(of({ request: measured }, { instruments: new Map([['tester-ann', tape]]) })).toEqual([]);
    const other = visit({ id: 'two', raterId: 'ben', address: '2 Far Road', instrumentIds: ['tester-ann'] });
    expect(of({}, { visits: [other] })).toEqual(['instrument-twice']);
    const later = { ...other, startsAt: at('10:00'), endsAt: at('11:00') };
    expect(of({}, { visits: [later] })).toEqual([]);
    expect(of({ instrumentIds: ['tester-ben'] }, { visits: [other] })).toEqual([]);
  });
});
