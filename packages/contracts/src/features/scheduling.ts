import * as z from 'zod';
import { qualifications } from '@countercheck/assessment';
import { instrumentKinds } from '@countercheck/measurement';

export const qualificationSchema = z.enum(qualifications).meta({ id: 'Qualification' });
export const visitNeedsSchema = z
  .object({
    instruments: z
      .array(z.array(z.enum(instrumentKinds)).min(1).max(8))
      .max(20)
      .describe('each entry: any one of these kinds of instrument will do'),
    qualifications: z.array(qualificationSchema),
  })
  .meta({ id: 'VisitNeeds' });

export const workingHoursSchema = z
  .array(
    z.object({
      weekday: z.int().min(1).max(7).describe('1 = Monday'),
      from: z.iso.time({ precision: -1 }),
      to: z.iso.time({ precision: -1 }),
    }),
  )
  .max(7)
  .refine((days) => new Set(days.map(({ weekday }) => weekday)).size === days.length, 'One line a weekday')
  .refine((days) => days.every(({ from, to }) => from < to), 'The day ends after it begins')
  .meta({ id: 'WorkingHours' });
export type WorkingHours = z.infer<typeof workingHoursSchema>;
