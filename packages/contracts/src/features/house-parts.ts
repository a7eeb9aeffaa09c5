import * as z from 'zod';
import { applianceKinds, fuels, ventings } from '@countercheck/assessment';
import { airflowSchema, floorAreaSchema, idSchema, roomVolumeSchema, text, volumeSchema } from '../common.ts';

export const foundations = ['slab', 'crawlspace', 'basement', 'pier'] as const;
export const ventilationKinds = ['none', 'exhaust', 'supply', 'balanced'] as const;
export const roomKinds = ['bedroom', 'bath', 'kitchen'] as const;

/** The figures of a house or plan, in stored units. */
export const houseFiguresShape = {
  conditionedFloorArea: floorAreaSchema,
  conditionedVolume: volumeSchema,
  bedrooms: z.int('Enter a whole number').min(0).max(20),
  storeys: z.number('Enter a number').min(1).max(6),
  foundation: z.enum(foundations),
  ventilationKind: z.enum(ventilationKinds),
  ventilatorDucted: z.boolean().default(false),
  designedVentilation: airflowSchema.nullish().transform((v) => v ?? null),
};

export const systemBody = z.object({
  id: idSchema.optional(),
  label: text(60),
  kind: text(80),
  hasDucts: z.boolean().default(true),
  ductsInside: z.boolean().default(false),
  designAirflow: airflowSchema.nullish().transform((v) => v ?? null),
  airHandlerAtRough: z
    .boolean()
    .nullish()
    .transform((v) => v ?? null)
    .describe('in place when the ducts were tested at rough-in; null when nobody has said'),
});
export const roomBody = z.object({
  id: idSchema.optional(),
  label: text(60),
  kind: z.enum(roomKinds),
  supplyFlow: airflowSchema.nullish().transform((v) => v ?? null),
  volume: roomVolumeSchema.nullish().transform((v) => v ?? null),
});
export const applianceBody = z.object({
  id: idSchema.optional(),
  label: text(60),
  kind: z.enum(applianceKinds),
  fuel: z.enum(fuels),
  venting: z.enum(ventings),
  location: z
    .string()
    .trim()
    .max(80)
    .nullish()
    .transform((v) => v || null),
});

/** Systems, rooms and appliances; an existing part keeps its id, a part without one is new. */
export const housePartsSchema = z
  .object({
    systems: z.array(systemBody).max(8),
    rooms: z.array(roomBody).max(40),
    appliances: z.array(applianceBody).max(20),
  })
  .meta({ id: 'HouseParts' });
export type HouseParts = z.infer<typeof housePartsSchema>;
