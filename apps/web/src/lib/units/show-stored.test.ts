import { expect, it } from 'vitest';
import { knownKind, showStored } from './show-stored.ts';

it('knows a stored unit by its name', () => {
  expect(showStored(100, 'cfm', 'si')).toBe('47.2 L/s');
  expect(showStored(3, '1', 'us')).toBe('3');
  expect(showStored(3, 'furlong', 'us')).toBe('3 furlong');
});

it('knows a kind by its name', () => {
  expect(knownKind('airflow')).toBe('airflow');
  expect(knownKind('toString')).toBeNull();
});
