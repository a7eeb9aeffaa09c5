import * as z from 'zod';
import {
  decisionRuleSchema,
  emailSchema,
  idParams,
  idSchema,
  instantSchema,
  okSchema,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { roleSchema, staff } from '../roles.ts';
import { defineRoute } from '../route.ts';
import { unitSystemSchema } from './session.ts';

export const companySchema = z
  .object({
    name: z.string(),
    timezone: z.string(),
    unitSystem: unitSystemSchema,
    blindSecondReading: z.boolean(),
    requireSecondFactor: z.boolean(),
    installerLinkDays: z.int(),
    defaultRuleSetId: idSchema.nullable(),
    decisionRule: decisionRuleSchema,
    logHeadEmail: z.string().nullable().describe('who is sent the head of the event log once a day'),
    updatedAt: instantSchema,
  })
  .meta({ id: 'Company' });
export type Company = z.infer<typeof companySchema>;

export const userSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    email: z.string(),
    role: roleSchema,
    builder: z.object({ id: idSchema, name: z.string() }).nullable(),
    active: z.boolean(),
    invited: z.boolean().describe('has not set a password yet'),
    secondFactor: z.boolean(),
    lastSignInAt: instantSchema.nullable(),
    openSessions: z.int(),
  })
  .meta({ id: 'User' });
export type User = z.infer<typeof userSchema>;

export const mailSchema = z
  .object({
    id: idSchema,
    recipient: z.string(),
    subject: z.string(),
    body: z.string(),
    createdAt: instantSchema,
    sentAt: instantSchema.nullable(),
    attempts: z.int(),
    lastError: z.string().nullable(),
  })
  .meta({ id: 'Mail' });

export const eventSchema = z
  .object({
    id: z.string(),
    at: instantSchema,
    actorKind: z.string(),
    actorName: z.string(),
    action: z.string(),
    recordType: z.string(),
    recordId: z.string(),
    houseId: idSchema.nullable(),
    before: z.unknown(),
    after: z.unknown(),
    reason: z.string().nullable(),
    requestId: z.string().nullable(),
  })
  .meta({ id: 'Event' });
export type EventRecord = z.infer<typeof eventSchema>;

const admin = ['administrator'] as const;
const tag = 'Administration';
const inviteBody = z
  .object({ name: text(120), email: emailSchema, role: roleSchema, builderId: idSchema.nullish() })
  .refine((v) => (v.role === 'builder') === Boolean(v.builderId), {
    path: ['builderId'],
    message: 'A builder user belongs to a builder, the others do not',
  });

export const administration = {
  company: defineRoute({
    method: 'GET',
    path: '/company',
    tag,
    summary: 'The company and its options',
    access: staff,
    response: companySchema,
  }),
  changeCompany: defineRoute({
    method: 'PATCH',
    path: '/company',
    tag,
    summary: 'Change the company options; another decision rule judges the open houses again',
    access: admin,
    body: z
      .object({
        name: text(120),
        timezone: text(60),
        unitSystem: unitSystemSchema,
        blindSecondReading: z.boolean(),
        requireSecondFactor: z.boolean(),
        installerLinkDays: z.int().min(1).max(365),
        defaultRuleSetId: idSchema.nullable(),
        decisionRule: decisionRuleSchema,
        logHeadEmail: emailSchema.nullable(),
      })
      .partial(),
    response: companySchema,
  }),
  users: defineRoute({
    method: 'GET',
    path: '/users',
    tag,
    summary: 'Users, filtered',
    access: admin,
    query: pageQuery.extend({
      role: roleSchema.optional(),
      search: z.string().trim().max(100).optional(),
      active: z.stringbool().optional(),
    }),
    response: pageOf(userSchema),
  }),
  invite: defineRoute({
    method: 'POST',
    path: '/users',
    tag,
    summary: 'Invite a user by email',
    access: admin,
    status: 201,
    body: inviteBody,
    response: userSchema,
    errors: ['already-exists'],
  }),
  changeUser: defineRoute({
    method: 'PATCH',
    path: '/users/:id',
    tag,
    summary: 'Change a user; deactivating ends the sessions',
    access: admin,
    params: idParams,
    body: z
      .object({ name: text(120), role: roleSchema, builderId: idSchema.nullable(), active: z.boolean() })
      .partial(),
    response: userSchema,
    errors: ['not-found', 'conflict'],
  }),
  inviteAgain: defineRoute({
    method: 'POST',
    path: '/users/:id/invitation',
    tag,
    summary: 'Send the invitation or a reset link again',
    access: admin,
    params: idParams,
    response: okSchema,
    errors: ['not-found', 'conflict'],
  }),
  endSessions: defineRoute({
    method: 'DELETE',
    path: '/users/:id/sessions',
    tag,
    summary: 'End all sessions of a user (lost phone)',
    access: admin,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  resetSecondFactor: defineRoute({
    method: 'DELETE',
    path: '/users/:id/second-factor',
    tag,
    summary: "Remove a user's lost authenticator",
    access: admin,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  mail: defineRoute({
    method: 'GET',
    path: '/mail',
    tag,
    summary: 'Mail written by the service',
    access: admin,
    query: pageQuery.extend({ search: z.string().trim().max(100).optional() }),
    response: z.object({ ...pageOf(mailSchema).shape, delivery: z.enum(['smtp', 'outbox-only']) }),
  }),
  events: defineRoute({
    method: 'GET',
    path: '/events',
    tag,
    summary: 'The append-only event log',
    access: ['administrator', 'quality'],
    query: pageQuery.extend({
      houseId: idSchema.optional(),
      action: z.string().max(80).optional(),
      actorId: idSchema.optional(),
    }),
    response: pageOf(eventSchema),
  }),
};
