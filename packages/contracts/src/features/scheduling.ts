import * as z from 'zod';
import { qualifications } from '@countercheck/assessment';
import { instrumentKinds } from '@countercheck/measurement';
import {
  dateSchema,
  emailSchema,
  idParams,
  idSchema,
  instantSchema,
  okSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { mailKindSchema } from './mail-kinds.ts';
import { houseAccesses, notReadyKinds, readinessKinds, visitKinds, visitSchema } from './visits.ts';

export const visitRequestStates = ['open', 'booked', 'done', 'withdrawn'] as const;
const visitRequestSources = ['house_ready', 'reinspection', 'retest', 'office'] as const;
const deadlineWhys = ['before_drywall', 'before_closing', 'agreed'] as const;
const visitWarningCodes = [
  ...([
    'travel-too-tight',
    'instrument-missing',
    'instrument-twice',
    'instrument-not-in-calibration',
  ] as const),
  ...(['qualification-missing', 'rater-held', 'own-work', 'outside-hours', 'away'] as const),
  ...(['booked-already'] as const),
  ...(['before-earliest', 'after-deadline', 'outside-access', 'too-short', 'not-ready'] as const),
] as const;

const qualificationSchema = z.enum(qualifications).meta({ id: 'Qualification' });
const visitNeedsSchema = z
  .object({
    instruments: z
      .array(z.array(z.enum(instrumentKinds)).min(1).max(8))
      .max(20)
      .describe('each entry: any one of these kinds of instrument will do'),
    qualifications: z.array(qualificationSchema),
  })
  .meta({ id: 'VisitNeeds' });

const readinessSchema = z
  .object({
    points: z.array(
      z.object({
        kind: z.enum(readinessKinds),
        ready: z.boolean().nullable().describe('null = not answered yet'),
        note: z.string().nullable(),
        byName: z.string().nullable(),
        at: instantSchema.nullable(),
      }),
    ),
    figuresSignedAt: instantSchema.nullable().describe("when the installer's figures came in"),
    ready: z.boolean().describe('every point is answered with yes, and the figures are in'),
  })
  .meta({ id: 'Readiness' });
export type Readiness = z.infer<typeof readinessSchema>;

const placeSchema = z.object({
  id: idSchema,
  address: z.string(),
  lot: z.string(),
  community: z.string(),
  builder: z.object({ id: idSchema, name: z.string() }),
});

export const visitRequestSchema = z
  .object({
    id: idSchema,
    house: placeSchema,
    kind: z.enum(visitKinds),
    state: z.enum(visitRequestStates),
    source: z.enum(visitRequestSources),
    earliestOn: dateSchema,
    deadlineOn: dateSchema.nullable(),
    deadlineWhy: z.enum(deadlineWhys).nullable(),
    minutes: z.int().describe('at the house, without the way there'),
    needs: visitNeedsSchema,
    access: z.enum(houseAccesses).nullable(),
    accessNote: z.string().nullable().describe('where the key is, or whom to call'),
    openFrom: z.string().nullable().describe('HH:MM, from when somebody can be there; null = all day'),
    openTo: z.string().nullable(),
    avoidRater: z.object({ id: idSchema, name: z.string() }).nullable().describe('whose work is looked at'),
    note: z.string().nullable(),
    withdrawnWhy: z.string().nullable(),
    visitId: idSchema.nullable(),
    askedByName: z.string(),
    askedAt: instantSchema,
    readiness: readinessSchema,
  })
  .meta({ id: 'VisitRequest' });
export type VisitRequest = z.infer<typeof visitRequestSchema>;

const timeOfDay = z.iso
  .time({ precision: -1, message: 'A time of day, such as 09:00' })
  .nullish()
  .transform((v) => v ?? null);
const askedFor = z.object({
  earliestOn: dateSchema.nullish().transform((v) => v ?? null),
  deadlineOn: dateSchema.nullish().transform((v) => v ?? null),
  deadlineWhy: z
    .enum(deadlineWhys)
    .nullish()
    .transform((v) => v ?? null),
  access: z
    .enum(houseAccesses)
    .nullish()
    .transform((v) => v ?? null),
  accessNote: optionalText(300),
  openFrom: timeOfDay,
  openTo: timeOfDay,
  note: optionalText(),
});
const inOrder = (v: { earliestOn?: string | null | undefined; deadlineOn?: string | null | undefined }) =>
  !v.earliestOn || !v.deadlineOn || v.earliestOn <= v.deadlineOn;
const inOrderMessage = { path: ['deadlineOn'], message: 'The deadline is not before the earliest day' };
const inHours = (v: { openFrom?: string | null | undefined; openTo?: string | null | undefined }) =>
  (!v.openFrom && !v.openTo) || Boolean(v.openFrom && v.openTo && v.openFrom < v.openTo);
const inHoursMessage = { path: ['openTo'], message: 'Give both times, the later one second, or neither' };
export const askVisitBody = askedFor
  .extend({ houseId: idSchema, kind: z.enum(['rough', 'final']) })
  .refine(inOrder, inOrderMessage)
  .refine(inHours, inHoursMessage);
export const changeVisitRequestBody = askedFor
  .extend({ minutes: z.int('Whole minutes').min(15, 'At least 15 minutes').max(840, 'At most 14 hours') })
  .partial()
  .refine(inOrder, inOrderMessage)
  .refine(inHours, inHoursMessage);

const readinessBody = z.object({
  points: z
    .array(z.object({ kind: z.enum(readinessKinds), ready: z.boolean(), note: optionalText(300) }))
    .min(1)
    .max(readinessKinds.length),
});

const readinessLinkSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    email: z.string().nullable(),
    state: z.enum(['open', 'expired', 'revoked']),
    createdAt: instantSchema,
    expiresAt: instantSchema,
    lastUsedAt: instantSchema.nullable(),
  })
  .meta({ id: 'ReadinessLink' });
export const readinessLinkBody = z.object({
  name: text(120),
  email: emailSchema.nullish().transform((v) => v ?? null),
  days: z.int().min(1).max(90).default(14),
});

const visitWarningSchema = z
  .object({ code: z.enum(visitWarningCodes), text: z.string() })
  .meta({ id: 'VisitWarning' });
export type VisitWarning = z.infer<typeof visitWarningSchema>;

const boardVisitSchema = z
  .object({
    visit: visitSchema,
    minutesNeeded: z.int().nullable(),
    instruments: z.array(z.object({ id: idSchema, label: z.string(), kind: z.string() })),
    warnings: z.array(visitWarningSchema),
  })
  .meta({ id: 'BoardVisit' });
export type BoardVisit = z.infer<typeof boardVisitSchema>;

const workingHoursSchema = z
  .array(
    z.object({
      weekday: z.int().min(1).max(7).describe('1 = Monday'),
      from: z.iso.time({ precision: -1 }),
      to: z.iso.time({ precision: -1 }),
    }),
  )
  .max(7)
  .refine((days) => new Set(days.map(({ weekday }) => weekday)).size === days.length, 'One line a weekday')
  .refine((days) => days.every(({ from, to }) => from < to), 'The day ends after it begins')
  .meta({ id: 'WorkingHours' });
export type WorkingHours = z.infer<typeof workingHoursSchema>;

const coordinate = (most: number) => z.number('Enter a number').min(-most).max(most).nullable();
export const raterProfileBody = z
  .object({
    qualifications: z.array(qualificationSchema),
    workingHours: workingHoursSchema,
    breakMinutes: z.int().min(0).max(180),
    startsAtHome: z.boolean(),
    homeLatitude: coordinate(90),
    homeLongitude: coordinate(180),
    instrumentIds: z.array(idSchema).max(200).describe('the instruments in his kit'),
  })
  .refine((v) => (v.homeLatitude === null) === (v.homeLongitude === null), {
    path: ['homeLongitude'],
    message: 'Give both or neither',
  });
export const raterProfileSchema = z
  .object({
    rater: z.object({ id: idSchema, name: z.string() }),
    ...raterProfileBody.shape,
    instruments: z.array(z.object({ id: idSchema, label: z.string(), kind: z.string() })),
    held: z.string().nullable().describe('why the quality manager holds him; null when he may go'),
    heldFrom: instantSchema.nullable().describe('from when on he is held'),
  })
  .meta({ id: 'RaterProfile' });
export type RaterProfile = z.infer<typeof raterProfileSchema>;

export const dayOffBody = z
  .object({
    raterId: idSchema.nullable().describe('null = nobody works, such as on a holiday'),
    from: dateSchema,
    to: dateSchema.describe('the last day of them'),
    why: text(120),
  })
  .refine(({ from, to }) => from <= to, {
    path: ['to'],
    message: 'The last day does not lie before the first',
  });
const dayOffSchema = z
  .object({ id: idSchema, ...dayOffBody.shape, rater: z.string().nullable(), byName: z.string() })
  .meta({ id: 'DayOff' });
export type DayOff = z.infer<typeof dayOffSchema>;

export const mailChoicesBody = z.object({
  notify: z.boolean().describe('whether one wants any notices of results and visits'),
  muted: z.array(mailKindSchema),
});

const keepers = ['office', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const withBuilder = [...readers, 'builder'] as const;
const tokenParams = z.object({ token: z.string().min(10).max(200) });
const linkErrors = ['link-unknown', 'link-expired', 'link-revoked'] as const;
const tag = 'Scheduling';

export const scheduling = {
  requests: defineRoute({
    method: 'GET',
    path: '/visit-requests',
    tag,
    summary: 'Visits asked for, those that are due first; a builder gets those of its houses',
    access: withBuilder,
    query: pageQuery.extend({
      state: z.enum(visitRequestStates).optional(),
      kind: z.enum(visitKinds).optional(),
      houseId: idSchema.optional(),
      builderId: idSchema.optional(),
    }),
    response: pageOf(visitRequestSchema),
  }),
  request: defineRoute({
    method: 'GET',
    path: '/visit-requests/:id',
    tag,
    summary: 'One request with its readiness list',
    access: withBuilder,
    params: idParams,
    response: visitRequestSchema,
    errors: ['not-found'],
  }),
  ask: defineRoute({
    method: 'POST',
    path: '/visit-requests',
    tag,
    summary: 'Ask for a visit; a builder says that a house is ready at rough-in or finished',
    access: ['office', 'administrator', 'builder'],
    status: 201,
    body: askVisitBody,
    response: visitRequestSchema,
    errors: ['not-found', 'conflict', 'file-sealed', 'not-allowed'],
  }),
  changeRequest: defineRoute({
    method: 'PATCH',
    path: '/visit-requests/:id',
    tag,
    summary: 'Change an open request',
    access: keepers,
    params: idParams,
    body: changeVisitRequestBody,
    response: visitRequestSchema,
    errors: ['not-found', 'conflict'],
  }),
  withdraw: defineRoute({
    method: 'POST',
    path: '/visit-requests/:id/withdrawal',
    tag,
    summary: 'Withdraw an open request, with the reason',
    access: ['office', 'administrator', 'builder'],
    params: idParams,
    body: z.object({ why: text(500) }),
    response: visitRequestSchema,
    errors: ['not-found', 'conflict'],
  }),
  answerReadiness: defineRoute({
    method: 'PUT',
    path: '/visit-requests/:id/readiness',
    tag,
    summary: 'Answer points of the readiness list',
    access: ['office', 'administrator', 'builder'],
    params: idParams,
    body: readinessBody,
    response: visitRequestSchema,
    errors: ['not-found', 'conflict'],
  }),
  readinessLinks: defineRoute({
    method: 'GET',
    path: '/visit-requests/:id/readiness-links',
    tag,
    summary: 'Links sent for the readiness list of a request',
    access: readers,
    params: idParams,
    response: z.array(readinessLinkSchema),
    errors: ['not-found'],
  }),
  sendReadinessLink: defineRoute({
    method: 'POST',
    path: '/visit-requests/:id/readiness-links',
    tag,
    summary: 'Make a personal link to the readiness list; mailed when there is an address',
    access: keepers,
    status: 201,
    params: idParams,
    body: readinessLinkBody,
    response: z.object({
      link: readinessLinkSchema,
      url: z.string().describe('shown once; only its hash is kept'),
    }),
    errors: ['not-found', 'conflict'],
  }),
  revokeReadinessLink: defineRoute({
    method: 'DELETE',
    path: '/readiness-links/:id',
    tag,
    summary: 'Withdraw a link to a readiness list',
    access: keepers,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  readinessForm: defineRoute({
    method: 'GET',
    path: '/ready/:token',
    tag,
    summary: 'The readiness list that a link opens',
    access: ['readiness-link'],
    params: tokenParams,
    response: z.object({
      company: z.string(),
      name: z.string(),
      house: placeSchema.omit({ id: true }).extend({ builder: z.string() }),
      kind: z.enum(visitKinds),
      earliestOn: dateSchema,
      deadlineOn: dateSchema.nullable(),
      open: z.boolean().describe('false when the visit was made or is no longer asked for'),
      expiresAt: instantSchema,
      readiness: readinessSchema,
    }),
    errors: linkErrors,
  }),
  confirmReadiness: defineRoute({
    method: 'PUT',
    path: '/ready/:token',
    tag,
    summary: 'Answer points of the readiness list by a link',
    access: ['readiness-link'],
    params: tokenParams,
    body: readinessBody,
    response: readinessSchema,
    errors: [...linkErrors, 'conflict'],
  }),
  notReady: defineRoute({
    method: 'GET',
    path: '/not-ready',
    tag,
    summary: 'Visits that found a house not ready, counted per builder and cause',
    access: withBuilder,
    query: z.object({ from: dateSchema, to: dateSchema }),
    response: z.object({
      builders: z.array(
        z.object({
          builder: z.object({ id: idSchema, name: z.string() }),
          visits: z.int().describe('visits in the span that were made or found the house not ready'),
          notReady: z.int(),
          causes: z.partialRecord(z.enum(notReadyKinds), z.int()),
        }),
      ),
      newest: z.array(
        z.object({
          visitId: idSchema,
          house: placeSchema,
          rater: z.string(),
          at: instantSchema,
          kind: z.enum(notReadyKinds),
          cause: z.string().nullable(),
        }),
      ),
    }),
  }),
  board: defineRoute({
    method: 'GET',
    path: '/board',
    tag,
    summary: 'Seven days of every rater, with what is doubtful about each visit',
    access: ['office', 'administrator', 'quality'],
    query: z.object({ from: dateSchema }),
    response: z.object({
      raters: z.array(raterProfileSchema),
      visits: z.array(boardVisitSchema),
      daysOff: z.array(dayOffSchema).describe('those that touch the seven days'),
    }),
  }),
  tryVisit: defineRoute({
    method: 'GET',
    path: '/visit-warnings',
    tag,
    summary: 'What would be doubtful about a visit if it were booked or moved so',
    access: keepers,
    query: z.object({
      houseId: idSchema,
      raterId: idSchema,
      kind: z.enum(visitKinds),
      startsAt: instantSchema,
      endsAt: instantSchema,
      visitId: idSchema.optional().describe('the visit that would be moved'),
      requestId: idSchema.optional(),
    }),
    response: z.array(visitWarningSchema),
    errors: ['not-found'],
  }),
  setInstruments: defineRoute({
    method: 'PUT',
    path: '/visits/:id/instruments',
    tag,
    summary: 'Say which instruments go along on a visit',
    access: keepers,
    params: idParams,
    body: z.object({ instrumentIds: z.array(idSchema).max(50) }),
    response: boardVisitSchema,
    errors: ['not-found', 'visit-closed'],
  }),
  profiles: defineRoute({
    method: 'GET',
    path: '/rater-profiles',
    tag,
    summary: 'When the raters work, what they may do and carry',
    access: readers,
    response: z.array(raterProfileSchema),
  }),
  changeProfile: defineRoute({
    method: 'PUT',
    path: '/rater-profiles/:id',
    tag,
    summary: "Change a rater's working hours, start, qualifications and kit",
    access: keepers,
    params: idParams,
    body: raterProfileBody,
    response: raterProfileSchema,
    errors: ['not-found'],
  }),
  daysOff: defineRoute({
    method: 'GET',
    path: '/days-off',
    tag,
    summary: 'Days on which a rater, or nobody, works; those that are not over, earliest first',
    access: ['office', 'quality', 'administrator'],
    response: z.array(dayOffSchema),
  }),
  enterDayOff: defineRoute({
    method: 'POST',
    path: '/days-off',
    tag,
    summary: 'Enter days on which a rater, or nobody, works; what is booked then stays and is warned of',
    access: keepers,
    status: 201,
    body: dayOffBody,
    response: dayOffSchema,
  }),
  removeDayOff: defineRoute({
    method: 'DELETE',
    path: '/days-off/:id',
    tag,
    summary: 'Take days off back',
    access: keepers,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  calendarLink: defineRoute({
    method: 'GET',
    path: '/calendar-link',
    tag,
    summary: "Whether one's calendar has an address",
    access: ['rater'],
    response: z.object({
      open: z.object({ createdAt: instantSchema, lastReadAt: instantSchema.nullable() }).nullable(),
    }),
  }),
  makeCalendarLink: defineRoute({
    method: 'POST',
    path: '/calendar-link',
    tag,
    summary: "Make a private address for one's calendar; an earlier one stops working",
    access: ['rater'],
    status: 201,
    response: z.object({ url: z.string().describe('shown once; only its hash is kept') }),
  }),
  withdrawCalendarLink: defineRoute({
    method: 'DELETE',
    path: '/calendar-link',
    tag,
    summary: "Withdraw the address of one's calendar",
    access: ['rater'],
    response: okSchema,
  }),
  calendar: defineRoute({
    method: 'GET',
    path: '/calendars/:token',
    tag,
    summary: "A rater's visits as iCalendar, for the programme that holds the address",
    access: ['calendar-link'],
    form: 'bytes',
    params: tokenParams,
    response: z.string(),
    errors: ['link-unknown', 'link-revoked'],
  }),
  mailPreferences: defineRoute({
    method: 'GET',
    path: '/mail-preferences',
    tag,
    summary: 'Which mail one does not want',
    access: withBuilder,
    response: z.object({ muted: z.array(mailKindSchema) }),
  }),
  changeMailPreferences: defineRoute({
    method: 'PUT',
    path: '/mail-preferences',
    tag,
    summary: 'Say which mail one does not want',
    access: withBuilder,
    body: z.object({ muted: z.array(mailKindSchema) }),
    response: z.object({ muted: z.array(mailKindSchema) }),
  }),
  makeMailLink: defineRoute({
    method: 'POST',
    path: '/contacts/:id/mail-link',
    tag,
    summary: 'Make a link to what a contact wants mail of; those of earlier letters stop working',
    access: keepers,
    status: 201,
    params: idParams,
    response: z.object({ url: z.string().describe('shown once; only its hash is kept') }),
    errors: ['not-found'],
  }),
  withdrawMailLinks: defineRoute({
    method: 'DELETE',
    path: '/contacts/:id/mail-link',
    tag,
    summary: "Withdraw the links in a contact's mail; the next letter carries a new one",
    access: keepers,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  mailChoices: defineRoute({
    method: 'GET',
    path: '/mail-choices/:token',
    tag,
    summary: 'What the contact whose mail carries the link wants to hear of; reading it changes nothing',
    access: ['mail-link'],
    params: tokenParams,
    response: mailChoicesBody.extend({
      company: z.string(),
      name: z.string(),
      email: z.string().nullable(),
    }),
    errors: ['link-unknown', 'link-revoked'],
  }),
  changeMailChoices: defineRoute({
    method: 'PUT',
    path: '/mail-choices/:token',
    tag,
    summary: 'Say which mail one wants, by the link in it',
    access: ['mail-link'],
    params: tokenParams,
    body: mailChoicesBody,
    response: mailChoicesBody,
    errors: ['link-unknown', 'link-revoked'],
  }),
};
