import * as z from 'zod';

export const idSchema = z.uuid();
/** Nothing of a house lies outside; a calendar of a database has no year 0. */
const years = /^(19|20|21)/;
export const dateSchema = z.iso.date().regex(years, 'A day between 1900 and 2199');
export const instantSchema = z.iso.datetime({ offset: true }).regex(years, 'A time between 1900 and 2199');
export const idParams = z.object({ id: idSchema });

/** A short text a person typed: trimmed, not empty. */
export const text = (max = 200) =>
  z.string().trim().min(1, 'Please fill this in').max(max, `At most ${max} characters`);
/** A short text that may be left out: trimmed, null when nothing is left. */
export const optionalText = (max = 2000) =>
  z
    .string()
    .trim()
    .max(max, `At most ${max} characters`)
    .nullish()
    .transform((value) => value || null);
export const emailSchema = z
  .string()
  .trim()
  .toLowerCase()
  .pipe(z.email('This is not an email address').max(254));

export const pageQuery = z.object({
  page: z.coerce.number().int().min(1).max(100_000).default(1),
  pageSize: z.coerce.number().int().min(1).max(100).default(25),
});

/** One page of a list that the database filtered, ordered and counted. */
export const pageOf = <Item extends z.ZodType>(item: Item) =>
  z.object({ items: z.array(item), total: z.int(), page: z.int(), pageSize: z.int() });

/** Numbers of a house, each in the stored unit named. The bounds are of the plausible. */
export const floorAreaSchema = z
  .number('Enter a number')
  .min(100, 'At least 100 ft²')
  .max(100_000, 'At most 100,000 ft²')
  .describe('conditioned floor area, ft²');
export const volumeSchema = z
  .number('Enter a number')
  .min(500, 'At least 500 ft³')
  .max(2_000_000, 'At most 2,000,000 ft³')
  .describe('conditioned volume, ft³');
export const airflowSchema = z
  .number('Enter a number')
  .min(0, 'Not below 0')
  .max(10_000, 'At most 10,000 cfm')
  .describe('airflow, cfm');
export const roomVolumeSchema = z.number('Enter a number').min(10).max(50_000).describe('room volume, ft³');

export const climateZones = [
  '0A',
  '0B',
  '1A',
  '1B',
  '2A',
  '2B',
  '3A',
  '3B',
  '3C',
  '4A',
  '4B',
  '4C',
  '5A',
  '5B',
  '5C',
  '6A',
  '6B',
  '7',
  '8',
] as const;
export const climateZoneSchema = z
  .enum(climateZones, 'Not a climate zone (for example 4A)')
  .meta({ id: 'ClimateZone' });

/**
 * How a result near its limit is decided (JCGM 106): the result alone decides, or a guard band of `factor` times
 * the expanded uncertainty lies between the limit and what is accepted.
 */
export const decisionRuleSchema = z
  .discriminatedUnion('rule', [
    z.object({ rule: z.literal('simple-acceptance') }),
    z.object({
      rule: z.literal('guard-band'),
      factor: z
        .number('Enter a number')
        .min(0.1, 'At least 0.1')
        .max(2, 'At most 2')
        .describe('width of the guard band, in expanded uncertainties'),
    }),
  ])
  .meta({ id: 'DecisionRule' });

export const okSchema = z.object({ ok: z.literal(true) });
export const nothing = z.null();
