import * as z from 'zod';

export const drawMethods = ['simple', 'stratified', 'systematic', 'risk-weighted'] as const;
export type DrawMethod = (typeof drawMethods)[number];

/** How many are drawn: a number, or a share in hundredths of a percent so that it is rounded without doubt. */
export const drawSizeSchema = z.union([
  z.object({ count: z.int().min(1).max(1_000_000) }),
  z.object({
    share: z.int().min(1).max(10_000).describe('hundredths of a percent: 1000 = 10 %; rounded up'),
  }),
]);
export type DrawSize = z.infer<typeof drawSizeSchema>;

/**
 * The number drawn from a population: the count, or the share rounded up; at least one, at most all.
 * Never throws.
 */
export function sampleSize(size: DrawSize, population: number): number {
  const asked = 'count' in size ? size.count : Math.ceil((population * size.share) / 10_000);
  return Math.min(Math.max(1, asked), population);
}
