import * as z from 'zod';
import { idSchema, instantSchema } from './common.ts';

const runStates = ['waiting', 'running', 'done', 'cancelled', 'interrupted', 'failed'] as const;

/** A long piece of work in the background, and how far it has come. */
export const runFields = {
  id: idSchema,
  state: z.enum(runStates).describe('interrupted = the process that worked on it ended; ask again'),
  done: z.int(),
  total: z.int().nullable().describe('null until it has been counted'),
  problem: z.string().nullable().describe('why it failed'),
  cancelAsked: z.boolean().describe('it stops at its next beat'),
  askedBy: z.string(),
  askedAt: instantSchema,
  startedAt: instantSchema.nullable(),
  endedAt: instantSchema.nullable(),
};
export const runSchema = z.object(runFields).meta({ id: 'BackgroundRun' });
export type BackgroundRun = z.infer<typeof runSchema>;
