import type { Item } from '@countercheck/rules';
import { describe, expect, it } from 'vitest';
import { criterionWords } from './criterion-words.ts';
import { limitWords } from './limit-words.ts';

const item: Item = {
  item: 'duct-leakage-total',
  title: 'Total duct leakage',
  stage: 'final',
  subject: 'house',
  tests: ['duct-leakage-total'],
  limit: { kind: 'per-area', value: 4, unit: 'cfm/100ft2' },
  options: [{ option: 'a', title: 'One way', require: [{ check: 'recorded', quantity: 'house.bedrooms' }] }],
  source: { kind: 'common-practice', citation: 'common practice', confirmed: false },
  correction: 'Seal the ducts.',
  trade: 'hvac-installer',
  cautions: [],
  safety: false,
};
const titles = new Map([['duct-leakage-total', 'Total duct leakage']]);

describe('a criterion in words', () => {
  it("uses the item's limit when it has none of its own", () => {
    const words = criterionWords({ check: 'at-most', quantity: 'measured.leakageAt25' }, item, titles, 'us');
    expect(words).toContain('at most 4 cfm per 100 ft² of conditioned floor');
  });
  it('tells what the installer reported from what was read', () => {
    const statics: Item = { ...item, subject: 'system', tests: ['supply-static'] };
    const limit = { kind: 'constant', value: 110, unit: '%' } as const;
    const criterion = {
      check: 'at-most-share-of',
      quantity: 'measured.staticPressure',
      of: 'reported.supplyStatic',
      magnitude: true,
      limit,
    } as const;
    expect(criterionWords(criterion, statics, titles, 'us')).toMatch(
      /: at most 110 % of the reported supply static pressure$/,
    );
  });
  it('says yes and no for what is true or not', () => {
    const words = criterionWords(
      { check: 'is', quantity: 'house.allDuctsInside', value: true },
      item,
      titles,
      'us',
    );
    expect(words).toBe('all ducts and air handlers visibly inside conditioned space: yes');
  });
});

describe('a limit in words', () => {
  it('puts zones with the same number together', () => {
    const limit = { kind: 'by-zone', unit: '1/h', zones: { '1': 5, '2': 5, '3': 4 } } as const;
    expect(limitWords(limit, item, titles, 'us')).toBe('5 1/h in climate zone 1, 2; 4 1/h in climate zone 3');
  });
  it('names the item whose limit it is a share of', () => {
    const limit = { kind: 'factor-of', item: 'duct-leakage-total', factor: 0.5 } as const;
    expect(limitWords(limit, item, titles, 'us')).toBe('50 % of the limit of “Total duct leakage”');
  });
  it('converts a constant', () => {
    const limit = { kind: 'constant', value: 50, unit: 'cfm' } as const;
    expect(limitWords(limit, item, titles, 'si')).toBe('23.6 L/s');
  });
});
