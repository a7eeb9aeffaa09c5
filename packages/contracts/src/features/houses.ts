import * as z from 'zod';
import {
  climateZoneSchema,
  idParams,
  idSchema,
  instantSchema,
  optionalText,
  pageOf,
  pageQuery,
  text,
} from '../common.ts';
import { defineRoute } from '../route.ts';
import { runFields } from '../runs.ts';
import { eventSchema } from './administration.ts';
import { applianceBody, houseFiguresShape, housePartsSchema, roomBody, systemBody } from './house-parts.ts';

/** Where a house stands in its life, in the order it usually goes. */
export const houseStages = [
  'awaiting_figures',
  'ready_to_book',
  'booked',
  'in_testing',
  'corrections',
  'reinspection_asked',
  'in_review',
  'returned',
  'released',
] as const;
export const houseStageSchema = z.enum(houseStages).meta({ id: 'HouseStage' });
export type HouseStage = z.infer<typeof houseStageSchema>;

export const houseSummarySchema = z
  .object({
    id: idSchema,
    address: z.string(),
    lot: z.string(),
    stage: houseStageSchema,
    builder: z.object({ id: idSchema, name: z.string() }),
    community: z.object({ id: idSchema, name: z.string() }),
    plan: z.object({ id: idSchema, name: z.string() }).nullable(),
    climateZone: climateZoneSchema,
    conditionedFloorArea: z.number(),
    openFailedItems: z.int(),
    revision: z.int(),
    updatedAt: instantSchema,
  })
  .meta({ id: 'HouseSummary' });
export type HouseSummary = z.infer<typeof houseSummarySchema>;

export const houseDetailSchema = z
  .object({
    ...houseSummarySchema.shape,
    ...houseFiguresShape,
    note: z.string().nullable(),
    latitude: z.number().nullable(),
    longitude: z.number().nullable(),
    createdAt: instantSchema,
    ruleSet: z.object({ id: idSchema, key: z.string(), version: z.string(), title: z.string() }),
    systems: z.array(systemBody.extend({ id: idSchema })),
    rooms: z.array(roomBody.extend({ id: idSchema })),
    appliances: z.array(applianceBody.extend({ id: idSchema })),
    counts: z.object({
      pass: z.int(),
      fail: z.int(),
      exempt: z.int(),
      'not-applicable': z.int(),
      waiting: z.int(),
    }),
  })
  .meta({ id: 'HouseDetail' });
export type HouseDetail = z.infer<typeof houseDetailSchema>;

export const houseBody = z.object({
  communityId: idSchema,
  planId: idSchema.nullish().transform((v) => v ?? null),
  address: text(200),
  lot: text(40),
  climateZone: climateZoneSchema,
  ...houseFiguresShape,
  ruleSetId: idSchema.optional().describe("the company's default when left out"),
  note: optionalText(),
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
  parts: housePartsSchema,
});
export type HouseBody = z.input<typeof houseBody>;

export const houseFilter = pageQuery.extend({
  search: z.string().trim().max(100).optional().describe('part of the address or lot'),
  stage: houseStageSchema.optional(),
  builderId: idSchema.optional(),
  communityId: idSchema.optional(),
  order: z.enum(['updated', 'address', 'lot']).default('updated'),
});

/** Columns of the file of houses; community and plan by name within the builder. */
export const importColumns = [
  'lot',
  'address',
  'community',
  'plan',
  'climate_zone',
  'floor_area_ft2',
  'volume_ft3',
  'bedrooms',
  'designed_ventilation_cfm',
  'note',
] as const;
export const importPreviewSchema = z
  .object({
    rows: z.array(
      z.object({
        line: z.int(),
        values: z.record(z.string(), z.string()),
        problems: z.array(z.object({ column: z.string().nullable(), message: z.string() })),
      }),
    ),
    good: z.int(),
    bad: z.int(),
    problems: z.array(z.string()).describe('problems of the file as a whole'),
  })
  .meta({ id: 'ImportPreview' });
export type ImportPreview = z.infer<typeof importPreviewSchema>;
export const houseImportSchema = z
  .object({
    ...runFields,
    builder: z.object({ id: idSchema, name: z.string() }),
    houses: z.int(),
  })
  .meta({ id: 'HouseImport' })
  .describe('the run that computes the verdicts of the houses loaded; after a stop it goes on where it was');
export type HouseImport = z.infer<typeof houseImportSchema>;
const importBody = z.object({
  builderId: idSchema,
  csv: z.string().min(1, 'The file is empty').max(5_000_000, 'At most 5 MB'),
});

const keepers = ['office', 'administrator'] as const;
const readers = ['office', 'rater', 'quality', 'administrator'] as const;
const tag = 'Houses';

export const houses = {
  list: defineRoute({
    method: 'GET',
    path: '/houses',
    tag,
    summary: 'Houses, filtered; a builder gets its own only',
    access: [...readers, 'builder'],
    query: houseFilter,
    response: pageOf(houseSummarySchema),
  }),
  show: defineRoute({
    method: 'GET',
    path: '/houses/:id',
    tag,
    summary: 'One house with its parts',
    access: [...readers, 'builder'],
    params: idParams,
    response: houseDetailSchema,
    errors: ['not-found'],
  }),
  register: defineRoute({
    method: 'POST',
    path: '/houses',
    tag,
    summary: 'Register a house',
    access: keepers,
    status: 201,
    body: houseBody,
    response: houseDetailSchema,
    errors: ['already-exists', 'not-found'],
  }),
  change: defineRoute({
    method: 'PATCH',
    path: '/houses/:id',
    tag,
    summary: 'Change a house; parts with readings cannot be removed',
    access: keepers,
    params: idParams,
    body: houseBody.omit({ ruleSetId: true }).partial().extend({ expectedUpdatedAt: instantSchema }),
    response: houseDetailSchema,
    errors: ['not-found', 'conflict', 'file-sealed', 'already-exists'],
  }),
  previewImport: defineRoute({
    method: 'POST',
    path: '/houses/import/preview',
    tag,
    summary: 'Check a CSV file of houses; nothing is stored',
    access: keepers,
    body: importBody,
    response: importPreviewSchema,
    errors: ['not-found'],
  }),
  import: defineRoute({
    method: 'POST',
    path: '/houses/import',
    tag,
    summary: 'Load a CSV file of houses, all or nothing',
    access: keepers,
    status: 201,
    body: importBody,
    response: z.object({ created: z.int(), importId: idSchema }),
    errors: ['import-has-errors', 'not-found'],
  }),
  imports: defineRoute({
    method: 'GET',
    path: '/houses/imports',
    tag,
    summary: 'Files of houses that were loaded, newest first, and how many of their houses are judged yet',
    access: keepers,
    query: pageQuery,
    response: pageOf(houseImportSchema),
  }),
  events: defineRoute({
    method: 'GET',
    path: '/houses/:id/events',
    tag,
    summary: 'What happened to a house',
    access: readers,
    params: idParams,
    query: pageQuery,
    response: pageOf(eventSchema),
    errors: ['not-found'],
  }),
};
