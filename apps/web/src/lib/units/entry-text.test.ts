import { describe, expect, it } from 'vitest';
import { editableText, readText } from './entry-text.ts';

describe('a number as typed', () => {
  it('is yielded in the stored unit', () => {
    expect(readText('airflow', '100', 'us')).toEqual({ value: 100, problem: null });
    expect(readText('airflow', '47.2', 'si').value).toBeCloseTo(100.01, 2);
  });
  it('is nothing when empty', () => {
    expect(readText('airflow', '  ', 'us')).toEqual({ value: null, problem: null });
  });
  it('is never taken for "left out" when it is no number', () => {
    const read = readText('airflow', 'about 100', 'us');
    expect(read.value).toBeNaN();
    expect(read.problem).toContain('not a number');
  });
});

describe('a stored number as text to edit', () => {
  it('comes back as it was typed', () => {
    for (const text of ['20', '47.2', '0.5', '1300']) {
      const { value } = readText('volume', text, 'si');
      expect(editableText('volume', value, 'si')).toBe(text);
    }
  });
  it('is empty for what is no number', () => {
    expect(editableText('volume', null, 'us')).toBe('');
    expect(editableText('volume', Number.NaN, 'us')).toBe('');
  });
});
