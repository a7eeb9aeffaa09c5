import canonicalize from 'canonicalize';
import * as z from 'zod';
import { algorithm } from './commitment.ts';
import { sha256Hex } from './hash.ts';
import { drawMethods, drawSizeSchema } from './method.ts';

const hex = z.string().regex(/^[0-9a-f]{64}$/, '64 lower-case hexadecimal digits');
const instant = z.iso.datetime({ offset: true });
const name = z.string().max(64);

/** A finished draw as it is handed out: everything that is needed to repeat it, and nothing else. */
export const drawRecordSchema = z.object({
  format: z.literal('countercheck draw'),
  formatVersion: z.literal(1),
  algorithm: z.literal(algorithm),
  id: name,
  title: z.string().max(300),
  purpose: z.enum(['file-review', 'field-retest']),
  population: z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null()])),
  method: z.enum(drawMethods),
  size: drawSizeSchema,
  weighing: z.record(z.string(), z.int()).nullable().describe('risk points per reason, where weighed'),
  commitment: hex,
  committedAt: instant,
  frozenAt: instant,
  drawnAt: instant,
  seed: hex,
  witness: z.string().max(500),
  frame: z.object({
    count: z.int(),
    hash: hex,
    rows: z
      .array(z.tuple([name, name, name, name, name, z.int()]))
      .describe('id, rater, builder, kind, date, weight'),
  }),
  strata: z
    .array(z.object({ rater: name, builder: name, kind: name, population: z.int(), sample: z.int() }))
    .nullable(),
  sample: z.array(z.object({ id: name, position: z.int(), chance: z.tuple([z.int(), z.int()]) })),
  recordHash: hex.describe('SHA-256 of the canonical JSON (RFC 8785) of all else but frame.rows'),
});
export type DrawRecord = z.infer<typeof drawRecordSchema>;

/**
 * The fingerprint of a record: of all but the rows, which the frame's own hash covers. Never throws for a record.
 * Source: canonical JSON is RFC 8785, by an independent library.
 */
export function recordHashOf(record: Omit<DrawRecord, 'recordHash'>): string {
  const { frame, ...rest } = record;
  const { recordHash: _, ...kept } = rest as DrawRecord;
  return sha256Hex(canonicalize({ ...kept, frame: { count: frame.count, hash: frame.hash } })!);
}
