import * as z from 'zod';

const hex32 = z.string().regex(/^[0-9a-f]{64}$/, 'A SHA-256 has 64 lower-case hexadecimal digits');
const sequence = z.int().positive();

/** The newest record of the log at a time: whoever keeps it elsewhere can tell later whether the log still has it. */
export const headSchema = z.object({
  format: z.literal('countercheck-log-head/1'),
  sequence: z.int().nonnegative().describe('0 when nothing was logged yet'),
  hash: hex32,
  at: z.iso.datetime({ offset: true }).describe('when the head was read'),
});
export type Head = z.infer<typeof headSchema>;

export const logFormat = 'countercheck-event-log/1';

/** The first line of an exported log. */
export const logHeaderSchema = z.object({ format: z.literal(logFormat), head: headSchema });

/** Every other line: a record, with its content exactly as it was hashed. */
export const logRecordSchema = z.object({
  sequence,
  version: z.int(),
  previous: hex32,
  content: z.string(),
  hash: hex32,
});
