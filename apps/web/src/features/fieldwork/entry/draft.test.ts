import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import type { Reading } from '@countercheck/contracts';
import { changed, draftFrom, emptyDraft, emptyRow, hasEntries, readDraft } from './draft.ts';

let count = 0;
const id = () => `id-${++count}`;
const statics = testDefinition('supply-static');
const envelope = testDefinition('envelope-leakage');

describe('readDraft', () => {
  it('keeps the typed text with its unit and gives the stored unit', () => {
    const draft = {
      ...emptyDraft(statics, id),
      typed: { pressure: { text: '22,9', system: 'si' as const } },
    };
    const { raw, entered, unreadable } = readDraft(statics, draft);
    expect(raw.values['pressure']).toBeCloseTo(0.0919350447, 9);
    expect(entered).toEqual({ 'values.pressure': { text: '22,9', unit: 'Pa' } });
    expect(unreadable).toEqual({});
  });

  it('keeps an entered decimal bit for bit in the stored unit', () => {
    const draft = {
      ...emptyDraft(statics, id),
      typed: { pressure: { text: '0.090', system: 'us' as const } },
    };
    const { raw, entered } = readDraft(statics, draft);
    expect(raw.values).toEqual({ pressure: 0.09 });
    expect(entered['values.pressure']?.text).toBe('0.090');
  });

  it('says in words what is no number and leaves it out', () => {
    const draft = { ...emptyDraft(statics, id), typed: { pressure: { text: '1e9', system: 'us' as const } } };
    const { raw, unreadable } = readDraft(statics, draft);
    expect(raw.values).toEqual({});
    expect(unreadable['values.pressure']).toContain('power of ten');
  });

  it('leaves out what was left empty, unticked or not chosen', () => {
    const draft = {
      ...emptyDraft(statics, id),
      typed: { pressure: { text: '  ', system: 'us' as const } },
      confirmations: { filterIn: false, airHandlerOn: true },
      choices: { range: '' },
    };
    expect(readDraft(statics, draft).raw).toEqual({
      values: {},
      choices: {},
      rows: [],
      confirmations: { airHandlerOn: true },
    });
  });

  it('names rows by their place when nobody named them', () => {
    const row = { ...emptyRow('', id), typed: { housePressure: { text: '-50', system: 'us' as const } } };
    const { raw, entered } = readDraft(envelope, { ...emptyDraft(envelope, id), rows: [row, row] });
    expect(raw.rows.map(({ label }) => label)).toEqual(['Point 1', 'Point 2']);
    expect(Object.keys(entered)).toEqual(['rows.0.values.housePressure', 'rows.1.values.housePressure']);
  });
});

describe('emptyDraft', () => {
  it('begins with as many rows as the test needs', () => {
    const draft = emptyDraft(envelope, id);
    expect(draft.rows.map(({ label }) => label)).toEqual(['Point 1']);
    expect(hasEntries(draft)).toBe(false);
  });
});

describe('draftFrom', () => {
  it('gives back what was typed, in the unit it was typed in', () => {
    const raw = {
      values: { pressure: 0.0919350447 },
      choices: {},
      rows: [],
      confirmations: { filterIn: true },
    };
    const reading = {
      raw,
      entered: { 'values.pressure': { text: '22,9', unit: 'Pa' } },
      conditions: {},
      instrument: null,
    };
    const draft = draftFrom(reading as unknown as Reading, statics, 'us', id);
    expect(draft.typed).toEqual({ pressure: { text: '22,9', system: 'si' } });
    expect(readDraft(statics, draft).raw.values['pressure']).toBeCloseTo(0.0919350447, 9);
    expect(hasEntries(draft)).toBe(true);
  });

  it('shows the stored number when the typed text is not known', () => {
    const raw = { values: { pressure: 0.092 }, choices: {}, rows: [], confirmations: {} };
    const reading = { raw, entered: {}, conditions: { note: 'windy' }, instrument: null };
    const draft = draftFrom(reading as unknown as Reading, statics, 'us', id);
    expect(draft.typed['pressure']).toEqual({ text: '0.092', system: 'us' });
    expect(draft.note).toBe('windy');
  });
});

describe('changed', () => {
  it('keeps the id while nothing was sent, and takes a new one afterwards', () => {
    const draft = emptyDraft(statics, () => 'first');
    expect(changed(draft, { note: 'a' }, id)).toMatchObject({ id: 'first', note: 'a' });
    const sent = { ...draft, takenAt: '2026-03-10T08:00:00Z' };
    expect(changed(sent, { note: 'b' }, () => 'second')).toMatchObject({ id: 'second', takenAt: null });
  });
});
