import { describe, expect, it } from 'vitest';
import { entryFromStored, shownText } from './typed-entry.ts';

describe('shownText', () => {
  it('leaves the text alone in the system it was typed in', () => {
    expect(shownText('airflow', { text: '47.', system: 'us' }, 'us')).toBe('47.');
  });
  it('converts when the switch is turned, and comes back to what was typed', () => {
    const entry = { text: '100', system: 'us' as const };
    expect(shownText('airflow', entry, 'si')).toBe('47.1947');
    expect(shownText('airflow', entry, 'us')).toBe('100');
  });
  it('shows what is no number as it is', () => {
    expect(shownText('airflow', { text: 'abc', system: 'us' }, 'si')).toBe('abc');
  });
  it('shows nothing for nothing', () => {
    expect(shownText('airflow', undefined, 'si')).toBe('');
  });
});

describe('entryFromStored', () => {
  it('takes the stored number where the unit of the text is unknown', () => {
    expect(entryFromStored('airflow', 47, { text: '0.02', unit: 'm3/s' }, 'us')).toEqual({
      text: '47',
      system: 'us',
    });
  });
});
