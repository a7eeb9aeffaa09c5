import { describe, expect, it } from 'vitest';
import type { Comparison } from '@countercheck/rules';
import { comparisonFigures } from './figures.ts';

const comparison = (low: number | null, high: number | null, value: number | null = 120) =>
  ({ quantity: 'airflow', value, low, high }) as Comparison;

describe('comparisonFigures', () => {
  it('follows the units that are switched on', () => {
    expect(comparisonFigures(comparison(100, null), 'us')).toBe('120 cfm; at least 100 cfm will do');
    expect(comparisonFigures(comparison(null, 100), 'si')).toBe('56.6 L/s; at most 47.2 L/s will do');
    expect(comparisonFigures(comparison(90, 100), 'us')).toBe('120 cfm; between 90 cfm and 100 cfm will do');
  });
  it('says nothing where there is nothing to compare', () => {
    expect(comparisonFigures(comparison(1, 2, null), 'us')).toBeNull();
    expect(comparisonFigures(comparison(null, null), 'us')).toBeNull();
  });
});
