import { addDays } from 'date-fns';
import type { Qualification } from '@countercheck/assessment';
import type { HouseAccess, NotReadyKind } from '@countercheck/prisma';
import { dayAt } from '../../features/assessment/index.ts';
import { openVisitRequest } from '../../features/visits/index.ts';
import { system } from '../../kernel/actor.ts';
import type { Db } from '../../kernel/database/database.ts';

interface Week {
  stories: readonly { house: { id: string }; stage: string }[];
  cast: { raters: readonly { id: string }[]; builders: readonly { userName: string }[] };
}

const everything: Qualification[] = ['airtightness', 'airflow', 'combustion-safety'];
/** hours of Monday to Friday, training and home of each rater; around the communities, all invented */
const profiles: {
  hours: [string, string];
  off?: number;
  trained: Qualification[];
  home: [number, number];
}[] = [
  { hours: ['08:00', '17:00'], trained: [...everything, 'quality-visits'], home: [41.0, -91.35] },
  { hours: ['07:30', '16:00'], trained: everything, home: [40.93, -91.2] },
  { hours: ['08:00', '17:00'], trained: [...everything, 'quality-visits'], home: [41.12, -91.42] },
  { hours: ['08:00', '16:30'], trained: ['airtightness', 'airflow'], home: [40.85, -91.08] },
  { hours: ['09:00', '17:30'], off: 5, trained: everything, home: [41.2, -91.5] },
];
const access: [HouseAccess, string][] = [
  ['contact', 'The superintendent is on the site from seven; 555-0170'],
  ['key', 'Box at the electric meter, code with the office'],
  ['open', 'The site office opens at eight'],
];
const mornings: [NotReadyKind, string][] = [
  ['no_power', 'The meter was not set; the electrician comes on Thursday.'],
  ['registers_missing', 'No grilles upstairs, boots covered with film.'],
  ['air_handler_off', 'Control board not wired yet.'],
  ['work_going_on', 'Floors just sealed, nobody may walk on them.'],
];

/** Who works when, what is asked for in the coming week and how far the sites are with it. */
export async function planWeek(db: Db, { stories, cast }: Week): Promise<void> {
  const { timezone } = await db.company.update({
    where: { id: 1 },
    data: { officeLatitude: 41.03, officeLongitude: -91.28 },
  });
  for (const [index, { hours, off, trained, home }] of profiles.entries()) {
    const userId = cast.raters[index]?.id;
    if (!userId) continue;
    const [from, to] = hours;
    const workingHours = [1, 2, 3, 4, 5]
      .filter((weekday) => weekday !== off)
      .map((weekday) => ({ weekday, from, to }));
    const [homeLatitude, homeLongitude] = home;
    const data = { qualifications: trained, workingHours, homeLatitude, homeLongitude };
    await db.raterProfile.create({ data: { userId, ...data } });
    await db.instrument.updateMany({
      where: { active: true, label: { endsWith: ` ${index + 1}` } },
      data: { carriedById: userId },
    });
  }
  const day = (later: number) => dayAt(addDays(new Date(), later), timezone);
  const at = (stage: string) => stories.filter((story) => story.stage === stage);

  for (const [index, { house }] of at('ready_to_book').entries()) {
    const [how, where] = access[index % access.length]!;
    const request = await openVisitRequest(db, system, null, {
      ...{ houseId: house.id, kind: 'final', source: 'house_ready' },
      ...{ earliestOn: day(index % 3), deadlineOn: day(3 + index), deadlineWhy: 'before_closing' },
      ...{ access: how, accessNote: where },
    });
    const points = (['power', 'air_handler', 'registers', 'appliances'] as const).slice(0, index);
    await db.readinessPoint.createMany({
      data: points.map((kind, place) => ({
        ...{ requestId: request.id, kind, ready: !(index === 3 && place === 2) },
        note: index === 3 && place === 2 ? 'Grilles come on Friday' : null,
        byName: 'Site office',
      })),
    });
  }
  for (const [index, { house }] of at('awaiting_figures').slice(0, 2).entries())
    await openVisitRequest(db, system, null, {
      ...{ houseId: house.id, kind: index === 0 ? 'rough' : 'final', source: 'house_ready' },
      ...{ earliestOn: day(2), deadlineOn: day(6) },
      deadlineWhy: index === 0 ? 'before_drywall' : 'before_closing',
    });
  const asked = await db.reinspectionRequest.findMany({ where: { state: 'asked' } });
  for (const { id, houseId, note } of asked) {
    const visit = await db.visit.findFirst({
      where: { houseId, state: 'submitted' },
      orderBy: { submittedAt: 'desc' },
    });
    await openVisitRequest(db, system, null, {
      ...{ houseId, kind: 'reinspection', source: 'reinspection', reinspectionRequestId: id, note },
      avoidRaterId: visit?.raterId ?? null,
    });
  }
  const booked = await db.visit.findMany({ where: { state: { in: ['booked', 'in_progress'] } } });
  for (const { id, houseId, kind } of booked) {
    const request = await openVisitRequest(db, system, null, { houseId, kind, source: 'office' });
    if (request.state === 'open')
      await db.visitRequest.update({ where: { id: request.id }, data: { state: 'booked', visitId: id } });
  }
  for (const [index, [notReadyKind, cause]] of mornings.entries()) {
    const house = at('ready_to_book')[index]?.house;
    const raterId = cast.raters[index % cast.raters.length]?.id;
    if (!house || !raterId) continue;
    const startsAt = addDays(new Date(), -(4 + 3 * index));
    const endsAt = new Date(startsAt.getTime() + 7_200_000);
    await db.visit.create({
      data: {
        ...{ houseId: house.id, raterId, kind: 'final', state: 'not_ready' },
        ...{ startsAt, endsAt, notReadyKind, cause },
      },
    });
  }
}
