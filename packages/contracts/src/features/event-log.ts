import * as z from 'zod';
import { headSchema, proofSchema } from '@countercheck/seal';
import { dateSchema, idParams, instantSchema } from '../common.ts';
import { defineRoute } from '../route.ts';

export const recordedHeadSchema = z.object({
  day: dateSchema,
  ...headSchema.pick({ sequence: true, hash: true }).shape,
  readAt: instantSchema,
  recipient: z.string().nullable().describe('who was sent it that day'),
});
export type RecordedHead = z.infer<typeof recordedHeadSchema>;

const keepers = ['quality', 'administrator'] as const;
const tag = 'Event log';

export const eventLog = {
  head: defineRoute({
    method: 'GET',
    path: '/event-log/head',
    tag,
    summary: 'The head of the chained event log now, and those recorded once a day, newest first',
    access: keepers,
    response: z
      .object({ head: headSchema, recipient: z.string().nullable(), recorded: z.array(recordedHeadSchema) })
      .meta({ id: 'LogHeads' }),
  }),
  records: defineRoute({
    method: 'GET',
    path: '/event-log/records',
    tag,
    summary: 'The whole log with its chain, as JSON lines: its head first, then every record',
    access: keepers,
    form: 'bytes',
    response: z.unknown(),
  }),
  proof: defineRoute({
    method: 'GET',
    path: '/releases/:id/proof',
    tag,
    summary:
      'That a file was released as it is: the record of its release and the way from there to a head of the log',
    access: ['builder', 'office', 'quality', 'administrator'],
    params: idParams,
    response: proofSchema.meta({ id: 'ReleaseProof' }),
    errors: ['not-found'],
  }),
};
