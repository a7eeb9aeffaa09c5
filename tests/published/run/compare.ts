import type { Agreement } from './check.ts';

export interface Figure {
  key: string;
  expected: unknown;
  found: unknown;
  /** |found − expected|; null for what is no number */
  difference: number | null;
  agrees: boolean;
}

/** The largest difference that still counts as agreement with an expected number. */
function allowance(expected: number, agreement: Agreement): number {
  if ('absolute' in agreement) return agreement.absolute;
  if ('relative' in agreement) return agreement.relative * Math.abs(expected);
  if ('decimals' in agreement) return 0.5 * 10 ** -agreement.decimals;
  if ('exact' in agreement || expected === 0) return 0;
  return 0.5 * 10 ** (Math.floor(Math.log10(Math.abs(expected))) + 1 - agreement.digits);
}

/** One expected figure beside the found one. Words, flags and null must be the very same. */
export function compare(key: string, expected: unknown, found: unknown, agreement: Agreement): Figure {
  if (typeof expected !== 'number' || typeof found !== 'number') {
    const agrees = JSON.stringify(expected) === JSON.stringify(found);
    return { key, expected, found, difference: null, agrees };
  }
  const difference = Math.abs(found - expected);
  // Half a unit of the last digit is itself a binary number; room for that and nothing else.
  const room = allowance(expected, agreement) * (1 + 1e-9);
  return { key, expected, found, difference, agrees: difference <= room };
}

/** Agreement in words, for the table. */
export function agreementWords(agreement: Agreement): string {
  if ('exact' in agreement) return 'exact';
  const [kind = '', amount = 0] = Object.entries(agreement)[0] ?? [];
  if (kind === 'relative') return `${amount * 100} %`;
  return kind === 'absolute' ? `± ${amount}` : `${amount} ${kind}`;
}
