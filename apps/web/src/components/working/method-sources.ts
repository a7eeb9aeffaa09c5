import type { TestKey } from '@countercheck/measurement';
import type { Source } from '@countercheck/rules';

const seen = (citation: string): Source => ({ kind: 'published', citation, confirmed: true });
const fromMemory = (citation: string): Source => ({ kind: 'from-memory', citation, confirmed: false });
const practice: Source = {
  kind: 'common-practice',
  citation: 'common practice, no published source',
  confirmed: false,
};

const toReference = seen(
  'Flow at 25 Pa by (25 / P)^0.60: hardware manuals, addresses withheld; in ANSI/RESNET/ICC 380 and ASTM E1554 from memory',
);
const wholeSystem = seen('25 Pa with the registers sealed, across the whole system: California RA3.1.4.3');
const staticSigns = seen(
  'Supply positive, return negative: schema of an open data standard for homes (HPXML)',
);

/** Where each test's method comes from, with its mark, as in docs/sources.md. */
export const methodSources: Record<TestKey, readonly Source[]> = {
  'supply-static': [staticSigns],
  'return-static': [staticSigns],
  'bedroom-pressure': [practice],
  'bedroom-relief': [practice],
  'duct-leakage-rough': [wholeSystem, toReference],
  'duct-leakage-total': [wholeSystem, toReference],
  'duct-leakage-outdoors': [
    seen('House at 25 Pa and the ducts at 0 Pa to it: California RA3, 2008'),
    toReference,
  ],
  'ventilator-duct-leakage': [practice, toReference],
  'envelope-leakage': [
    seen('Q = C · dP^n by least squares of the logarithms, as in ISO 9972 and ASTM E779: an open textbook'),
    seen('Exponent 0.65 for a single point: documentation of an open building model library'),
  ],
  'whole-house-ventilation': [practice],
  'kitchen-exhaust': [practice],
  'bath-exhaust': [practice],
  'ambient-carbon-monoxide': [practice],
  spillage: [practice],
  depressurization: [practice],
  'flue-carbon-monoxide': [
    seen('Five minutes of main burner, venting verified first: IFGC D.6 as in IRC 2018 Appendix D'),
    fromMemory('CO air-free = CO · 20.9 / (20.9 − O₂): textbooks of combustion analysis'),
  ],
};
