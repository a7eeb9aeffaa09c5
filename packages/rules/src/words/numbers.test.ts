import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sayBeside, sayExact, sayNumber } from './numbers.ts';

describe('numbers in words', () => {
  it('drop trailing zeros and part thousands', () => {
    expect(sayNumber(4000, 2)).toBe('4,000');
    expect(sayNumber(1234567.5, 1)).toBe('1,234,567.5');
    expect(sayNumber(0.15, 3)).toBe('0.15');
    expect(sayNumber(100, 0)).toBe('100');
    expect(sayNumber(-0.0001, 1)).toBe('0');
    expect(sayNumber(-3.1, 1)).toBe('-3.1');
  });

  it('keep a limit that a reading’s decimals would round away', () => {
    expect(sayExact(0.085 * 1.1, 'staticPressure')).toBe('0.0935');
    expect(sayExact(240, 'airflow')).toBe('240');
  });

  it('never round a reading across its bound', () => {
    const amounts = fc.double({ min: 0.01, max: 5000, noNaN: true });
    fc.assert(
      fc.property(amounts, fc.double({ min: -0.02, max: 0.02, noNaN: true }), (bound, off) => {
        const value = bound * (1 + off);
        const said = Number(sayBeside(value, 'pressureDifference', [bound]).replaceAll(',', ''));
        // beyond the decimals that are ever shown, both may read alike
        if (Math.abs(value - bound) > 1e-4) expect(said > bound).toBe(value > bound);
      }),
    );
  });
});
