import * as z from 'zod';
import {
  climateZoneSchema,
  emailSchema,
  idParams,
  idSchema,
  okSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { mailKindSchema } from './mail-kinds.ts';
import { houseFiguresShape, housePartsSchema } from './house-parts.ts';

export const contactBody = z.object({
  name: text(120),
  duty: optionalText(120),
  email: emailSchema.nullish().transform((v) => v ?? null),
  phone: optionalText(40),
  notify: z.boolean().default(true),
  mutedMail: z.array(mailKindSchema).default([]).describe('kinds of mail that this person does not want'),
});
export const contactSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    duty: z.string().nullable(),
    email: z.string().nullable(),
    phone: z.string().nullable(),
    notify: z.boolean(),
    mutedMail: z.array(mailKindSchema),
  })
  .meta({ id: 'BuilderContact' });

export const communityBody = z.object({
  name: text(120),
  jurisdiction: optionalText(120),
  climateZone: climateZoneSchema,
  latitude: z
    .number()
    .min(-90)
    .max(90)
    .nullish()
    .transform((v) => v ?? null),
  longitude: z
    .number()
    .min(-180)
    .max(180)
    .nullish()
    .transform((v) => v ?? null),
});
export const communitySchema = z
  .object({
    id: idSchema,
    builderId: idSchema,
    name: z.string(),
    jurisdiction: z.string().nullable(),
    climateZone: climateZoneSchema,
    latitude: z.number().nullable(),
    longitude: z.number().nullable(),
    houses: z.int(),
  })
  .meta({ id: 'Community' });
export type Community = z.infer<typeof communitySchema>;

export const planBody = z.object({ name: text(120), ...houseFiguresShape, parts: housePartsSchema });
export const planSchema = z
  .object({
    id: idSchema,
    builderId: idSchema,
    active: z.boolean(),
    houses: z.int(),
    ...planBody.shape,
    name: z.string(),
  })
  .meta({ id: 'Plan' });
export type Plan = z.infer<typeof planSchema>;

export const builderBody = z.object({
  name: text(120),
  phone: optionalText(40),
  address: optionalText(300),
  note: optionalText(),
});
export const builderSchema = z
  .object({
    id: idSchema,
    name: z.string(),
    phone: z.string().nullable(),
    address: z.string().nullable(),
    note: z.string().nullable(),
    active: z.boolean(),
    communities: z.int(),
    houses: z.int(),
    openFailedItems: z.int(),
  })
  .meta({ id: 'Builder' });
export type Builder = z.infer<typeof builderSchema>;

export const builderDetailSchema = z
  .object({
    ...builderSchema.shape,
    contacts: z.array(contactSchema),
    communityList: z.array(communitySchema),
    planList: z.array(planSchema),
  })
  .meta({ id: 'BuilderDetail' });
export type BuilderDetail = z.infer<typeof builderDetailSchema>;

const keepers = ['office', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const tag = 'Builders';

export const builders = {
  list: defineRoute({
    method: 'GET',
    path: '/builders',
    tag,
    summary: 'Builders, filtered',
    access: readers,
    query: pageQuery.extend({ search: z.string().trim().max(100).optional() }),
    response: pageOf(builderSchema),
  }),
  show: defineRoute({
    method: 'GET',
    path: '/builders/:id',
    tag,
    summary: 'One builder with contacts, communities and plans',
    access: readers,
    params: idParams,
    response: builderDetailSchema,
    errors: ['not-found'],
  }),
  register: defineRoute({
    method: 'POST',
    path: '/builders',
    tag,
    summary: 'Register a builder',
    access: keepers,
    status: 201,
    body: builderBody,
    response: builderSchema,
    errors: ['already-exists'],
  }),
  change: defineRoute({
    method: 'PATCH',
    path: '/builders/:id',
    tag,
    summary: 'Change a builder',
    access: keepers,
    params: idParams,
    body: builderBody.extend({ active: z.boolean() }).partial(),
    response: builderSchema,
    errors: ['not-found', 'already-exists'],
  }),
  addContact: defineRoute({
    method: 'POST',
    path: '/builders/:id/contacts',
    tag,
    summary: 'Add a contact',
    access: keepers,
    status: 201,
    params: idParams,
    body: contactBody,
    response: contactSchema,
    errors: ['not-found'],
  }),
  changeContact: defineRoute({
    method: 'PATCH',
    path: '/contacts/:id',
    tag,
    summary: 'Change a contact',
    access: keepers,
    params: idParams,
    body: contactBody.partial(),
    response: contactSchema,
    errors: ['not-found'],
  }),
  removeContact: defineRoute({
    method: 'DELETE',
    path: '/contacts/:id',
    tag,
    summary: 'Remove a contact',
    access: keepers,
    params: idParams,
    response: okSchema,
    errors: ['not-found'],
  }),
  addCommunity: defineRoute({
    method: 'POST',
    path: '/builders/:id/communities',
    tag,
    summary: 'Add a community',
    access: keepers,
    status: 201,
    params: idParams,
    body: communityBody,
    response: communitySchema,
    errors: ['not-found', 'already-exists'],
  }),
  changeCommunity: defineRoute({
    method: 'PATCH',
    path: '/communities/:id',
    tag,
    summary: 'Change a community',
    access: keepers,
    params: idParams,
    body: communityBody.partial(),
    response: communitySchema,
    errors: ['not-found', 'already-exists'],
  }),
  addPlan: defineRoute({
    method: 'POST',
    path: '/builders/:id/plans',
    tag,
    summary: 'Add a plan',
    access: keepers,
    status: 201,
    params: idParams,
    body: planBody,
    response: planSchema,
    errors: ['not-found', 'already-exists'],
  }),
  changePlan: defineRoute({
    method: 'PATCH',
    path: '/plans/:id',
    tag,
    summary: 'Change a plan; houses already registered stay as they are',
    access: keepers,
    params: idParams,
    body: planBody.extend({ active: z.boolean() }).partial(),
    response: planSchema,
    errors: ['not-found', 'already-exists'],
  }),
};
