import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import { emptyForm, emptyRow, hasEntries, readForm } from './entered.ts';

let count = 0;
const id = () => `id-${++count}`;
const statics = testDefinition('supply-static');
const envelope = testDefinition('envelope-leakage');

describe('readForm', () => {
  it('keeps the typed text with its unit and gives the stored unit', () => {
    const form = {
      ...emptyForm(statics, id),
      typed: { pressure: { text: '22,9', system: 'si' as const } },
    };
    const { raw, entered, unreadable } = readForm(statics, form);
    expect(raw.values['pressure']).toBeCloseTo(0.0919350447, 9);
    expect(entered).toEqual({ 'values.pressure': { text: '22,9', unit: 'Pa' } });
    expect(unreadable).toEqual({});
  });

  it('keeps an entered decimal bit for bit in the stored unit', () => {
    const form = {
      ...emptyForm(statics, id),
      typed: { pressure: { text: '0.090', system: 'us' as const } },
    };
    const { raw, entered } = readForm(statics, form);
    expect(raw.values).toEqual({ pressure: 0.09 });
    expect(entered['values.pressure']?.text).toBe('0.090');
  });

  it('says in words what is no number and leaves it out', () => {
    const form = { ...emptyForm(statics, id), typed: { pressure: { text: '1e9', system: 'us' as const } } };
    const { raw, unreadable } = readForm(statics, form);
    expect(raw.values).toEqual({});
    expect(unreadable['values.pressure']).toContain('power of ten');
  });

  it('leaves out what was left empty, unticked or not chosen', () => {
    const form = {
      ...emptyForm(statics, id),
      typed: { pressure: { text: '  ', system: 'us' as const } },
      confirmations: { filterIn: false, airHandlerOn: true },
      choices: { range: '' },
    };
    expect(readForm(statics, form).raw).toEqual({
      values: {},
      choices: {},
      rows: [],
      confirmations: { airHandlerOn: true },
    });
  });

  it('names rows by their place when nobody named them', () => {
    const row = { ...emptyRow('', id), typed: { housePressure: { text: '-50', system: 'us' as const } } };
    const { raw, entered } = readForm(envelope, { ...emptyForm(envelope, id), rows: [row, row] });
    expect(raw.rows.map(({ label }) => label)).toEqual(['Point 1', 'Point 2']);
    expect(Object.keys(entered)).toEqual(['rows.0.values.housePressure', 'rows.1.values.housePressure']);
  });
});

describe('emptyForm', () => {
  it('begins with as many rows as the test needs', () => {
    const form = emptyForm(envelope, id);
    expect(form.rows.map(({ label }) => label)).toEqual(['Point 1']);
    expect(hasEntries(form)).toBe(false);
  });
});
