import * as z from 'zod';
import { dateSchema, idParams, idSchema, instantSchema, optionalText, pageOf, pageQuery } from '../common.ts';
import { defineRoute } from '../route.ts';
import { runFields } from '../runs.ts';
import { visitKinds } from './visits.ts';

export const stopStates = ['kept', 'proposed', 'accepted', 'rejected'] as const;

const coordinatesSchema = z.object({ latitude: z.number(), longitude: z.number() });
const named = z.object({ id: idSchema, name: z.string() });

/** A visit as a plan has it: new, moved, or left where it is booked. */
const stopSchema = z
  .object({
    id: idSchema,
    state: z.enum(stopStates).describe('kept = booked already and left as it is'),
    house: z.object({
      id: idSchema,
      address: z.string(),
      lot: z.string(),
      community: z.string(),
      ...coordinatesSchema.shape,
    }),
    kind: z.enum(visitKinds),
    requestId: idSchema.nullable().describe('the request that it answers'),
    visitId: idSchema.nullable().describe('the booked visit: kept, moved, or booked by accepting it'),
    startsAt: instantSchema,
    endsAt: instantSchema,
    driveMinutes: z.number().describe('from the place before'),
    driveKm: z.number(),
    before: z
      .object({ rater: z.string(), startsAt: instantSchema, endsAt: instantSchema })
      .nullable()
      .describe('where it is booked today, when the plan moves it'),
    refusal: z.string().nullable().describe('why it could not be booked when somebody accepted it'),
    decidedBy: z.string().nullable(),
    choice: z
      .object({
        able: z.int().describe('raters of the plan who could do it, this one too'),
        instead: z
          .object({
            rater: z.string(),
            more: z.number().describe('minutes of driving and what counts like them'),
          })
          .nullable()
          .describe('the best place with another rater while all else stays; null = none has room'),
      })
      .nullable()
      .describe('why this rater; null for what stays as booked'),
  })
  .meta({ id: 'PlanStop' });
export type PlanStop = z.infer<typeof stopSchema>;

const daySchema = z
  .object({
    rater: named,
    date: dateSchema,
    start: coordinatesSchema,
    end: coordinatesSchema,
    leavesAt: instantSchema,
    returnsAt: instantSchema,
    pause: z.object({ from: instantSchema, to: instantSchema }).nullable(),
    driveMinutes: z.number().describe('with the way back'),
    driveKm: z.number(),
    stops: z.array(stopSchema),
  })
  .meta({ id: 'PlanDay' });
export type PlanDay = z.infer<typeof daySchema>;

const unplacedSchema = z.object({
  address: z.string(),
  houseId: idSchema,
  requestId: idSchema.nullable(),
  visitId: idSchema.nullable().describe('a booked visit that no longer fits; it stays booked'),
  kind: z.enum(visitKinds),
  why: z.string(),
});

const summaryFields = {
  ...runFields,
  from: dateSchema,
  to: dateSchema,
  replan: z.boolean(),
  note: z.string().nullable(),
  proposed: z.int().describe('new and moved visits that wait for a decision'),
  accepted: z.int(),
  unplaced: z.int().nullable(),
  driveMinutes: z.number().nullable(),
};
export const planSummarySchema = z.object(summaryFields).meta({ id: 'WeekPlanSummary' });
export type WeekPlanSummary = z.infer<typeof planSummarySchema>;
export const weekPlanSchema = z
  .object({
    ...summaryFields,
    raters: z.array(named),
    driveKm: z.number().nullable(),
    travel: z
      .object({
        circuity: z.number().describe('road over straight line'),
        speed: z.number().describe('km/h'),
        extraMinutes: z.number().describe('added to each drive'),
        service: z.boolean().describe('the times are those of the routing service'),
        trouble: z.string().nullable().describe('why the routing service could not be used'),
      })
      .nullable()
      .describe('where the times on the road come from; null for plans from before it was kept so'),
    proved: z.boolean().describe('no plan can do better by its weights'),
    cost: z
      .number()
      .nullable()
      .describe('by the weights, in minutes of driving; null for plans from before it was kept'),
    bound: z.number().nullable().describe('no plan at all costs less than this; null when none was found'),
    days: z.array(daySchema),
    unplacedVisits: z.array(unplacedSchema),
    notes: z.array(z.string()).describe('days and people that were left out, and why'),
  })
  .meta({ id: 'WeekPlan' });
export type WeekPlan = z.infer<typeof weekPlanSchema>;

export const askPlanBody = z
  .object({
    from: dateSchema.describe('first day; today when it is planned again'),
    to: dateSchema,
    raterIds: z.array(idSchema).min(1, 'Choose at least one rater').max(200),
    awayRaterIds: z
      .array(idSchema)
      .max(200)
      .default([])
      .describe(
        'raters who cannot go any more: what they have booked is given to others, when planned again',
      ),
    requestIds: z
      .array(idSchema)
      .max(2000)
      .nullish()
      .transform((v) => v ?? null)
      .describe('the open requests to plan; all of them when left out'),
    replan: z
      .boolean()
      .default(false)
      .describe('booked visits that have not begun may move, as few as possible'),
    seconds: z.int().min(1).max(60).default(8).describe('how long it searches'),
    note: optionalText(500),
  })
  .refine(({ from, to }) => from <= to, {
    path: ['to'],
    message: 'The last day does not lie before the first',
  })
  .refine(({ replan, awayRaterIds }) => replan || awayRaterIds.length === 0, {
    path: ['awayRaterIds'],
    message: 'What is booked is given to others only when it is planned again',
  })
  .refine(({ raterIds, awayRaterIds }) => !awayRaterIds.some((id) => raterIds.includes(id)), {
    path: ['awayRaterIds'],
    message: 'Whoever is away cannot be chosen too',
  })
  .refine(({ from, to }) => (Date.parse(to) - Date.parse(from)) / 86_400_000 < 14, {
    path: ['to'],
    message: 'At most 14 days at once',
  });

const stopsBody = z.object({ stopIds: z.array(idSchema).min(1).max(2000) });

const latitude = z.number('Enter a number').min(-90).max(90).nullable();
const longitude = z.number('Enter a number').min(-180).max(180).nullable();
export const planningSettingsBody = z
  .object({
    officeLatitude: latitude,
    officeLongitude: longitude,
    circuity: z
      .number('Enter a number')
      .min(1, 'No road is shorter than the straight line: at least 1')
      .max(5, 'At most 5')
      .describe('road over straight line'),
    speed: z
      .number('Enter a number')
      .min(5, 'Too slow: at least 5 km/h, 3.1 mph')
      .max(130, 'Too fast: at most 130 km/h, 80.7 mph')
      .describe('km/h'),
    routingUrl: z
      .url({ protocol: /^https?$/, message: 'An address that begins with http:// or https://' })
      .max(500)
      .nullable()
      .describe('a routing service that answers with a table of minutes; see docs/planning.md'),
  })
  .refine((v) => (v.officeLatitude === null) === (v.officeLongitude === null), {
    path: ['officeLongitude'],
    message: 'Give both or neither',
  });
export type PlanningSettings = z.infer<typeof planningSettingsBody>;

const keepers = ['office', 'administrator'] as const;
const tag = 'Planning';

export const planning = {
  list: defineRoute({
    method: 'GET',
    path: '/plans',
    tag,
    summary: 'Plans that were asked for, newest first',
    access: keepers,
    query: pageQuery,
    response: pageOf(planSummarySchema),
  }),
  ask: defineRoute({
    method: 'POST',
    path: '/plans',
    tag,
    summary: 'Have the open requests planned: who goes where in which order; nothing is booked',
    access: keepers,
    status: 201,
    body: askPlanBody,
    response: weekPlanSchema,
    errors: ['invalid-input', 'not-found'],
  }),
  show: defineRoute({
    method: 'GET',
    path: '/plans/:id',
    tag,
    summary: 'A plan: how far it is, and what it proposes',
    access: keepers,
    params: idParams,
    response: weekPlanSchema,
    errors: ['not-found'],
  }),
  cancel: defineRoute({
    method: 'POST',
    path: '/plans/:id/cancel',
    tag,
    summary: 'Cancel a plan that waits or is worked out',
    access: keepers,
    params: idParams,
    response: weekPlanSchema,
    errors: ['not-found', 'conflict'],
  }),
  accept: defineRoute({
    method: 'POST',
    path: '/plans/:id/acceptance',
    tag,
    summary: 'Book, or move, what was proposed; each visit for itself, refusals stand beside it in words',
    access: keepers,
    params: idParams,
    body: stopsBody,
    response: weekPlanSchema,
    errors: ['not-found', 'conflict'],
  }),
  reject: defineRoute({
    method: 'POST',
    path: '/plans/:id/rejection',
    tag,
    summary: 'Set aside what was proposed',
    access: keepers,
    params: idParams,
    body: stopsBody,
    response: weekPlanSchema,
    errors: ['not-found', 'conflict'],
  }),
  settings: defineRoute({
    method: 'GET',
    path: '/planning-settings',
    tag,
    summary: 'Where the office is and how time on the road is worked out',
    access: keepers,
    response: planningSettingsBody.meta({ id: 'PlanningSettings' }),
  }),
  changeSettings: defineRoute({
    method: 'PUT',
    path: '/planning-settings',
    tag,
    summary: 'Change where the office is and how time on the road is worked out',
    access: ['administrator'],
    body: planningSettingsBody,
    response: planningSettingsBody,
  }),
};
