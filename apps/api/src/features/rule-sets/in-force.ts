import type { RuleSet } from '@countercheck/prisma';
import { dayAt, isoDate } from '../assessment/index.ts';

/** Why no house can be judged by a set yet, in words, or null; its first day is one at the houses. */
export function notYetInForce(
  { title, version, effectiveOn }: Pick<RuleSet, 'title' | 'version' | 'effectiveOn'>,
  timezone: string,
): string | null {
  const begins = isoDate(effectiveOn);
  return begins > dayAt(new Date(), timezone) ? `${title} (${version}) takes effect on ${begins}.` : null;
}
