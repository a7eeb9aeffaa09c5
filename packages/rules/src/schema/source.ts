import * as z from 'zod';

/** Where a limit comes from; see `Source` in types.ts for the meaning of each field. */
export const sourceSchema = z
  .strictObject({
    kind: z.enum(['published', 'common-practice', 'from-memory', 'computed']),
    citation: z.string().trim().min(3),
    confirmed: z.boolean(),
  })
  .meta({
    id: 'RuleSource',
    description: 'Where the figure comes from, and whether someone confirmed it against that text',
  });
