import { describe, expect, it } from 'vitest';
import type { FiguresForm } from '@countercheck/contracts';
import { beginFigures, figureProblems, keepFigures, keptFigures } from './figures-draft.ts';

const figure = (name: string, required = false) => ({
  name,
  label: name,
  quantity: 'airflow',
  min: 1,
  max: 1000,
  required,
  help: null,
});
const subjects = [
  { id: 's1', kind: 'system', label: 'System', figures: [figure('airflow', true), figure('other')] },
];
const signed = {
  id: 's',
  revision: 1,
  figures: { s1: { airflow: 900 } },
} as unknown as FiguresForm['submissions'][number];

describe('beginFigures', () => {
  it('begins with what was signed last', () => {
    expect(beginFigures({ subjects, submissions: [signed] })).toEqual({ s1: { airflow: 900, other: null } });
    expect(beginFigures({ subjects, submissions: [] })).toEqual({ s1: { airflow: null, other: null } });
  });
});

describe('figureProblems', () => {
  it('asks for what is required and says limits in the units shown', () => {
    expect(figureProblems(subjects, { s1: { airflow: null, other: 0 } }, 'us')).toEqual({
      's1.airflow': 'Please fill this in',
      's1.other': 'At least 1 cfm',
    });
    expect(figureProblems(subjects, { s1: { airflow: 2000, other: Number.NaN } }, 'si')).toEqual({
      's1.airflow': 'At most 471.9 L/s',
      's1.other': 'Enter a number',
    });
  });
  it('finds nothing wrong with what is within', () => {
    expect(figureProblems(subjects, { s1: { airflow: 900, other: null } }, 'us')).toEqual({});
  });
});

describe('what was typed before a reload', () => {
  it('comes back, without what the form no longer asks for', () => {
    const kept = new Map<string, string>();
    const store = {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
      removeItem: (key: string) => void kept.delete(key),
    };
    keepFigures('token-token-token', { s1: { airflow: 850 }, gone: { airflow: 1 } }, store);
    const begun = beginFigures({ subjects, submissions: [signed] });
    expect(keptFigures('token-token-token', begun, store)).toEqual({ s1: { airflow: 850, other: null } });
    keepFigures('token-token-token', null, store);
    expect(keptFigures('token-token-token', begun, store)).toBeNull();
  });
});
