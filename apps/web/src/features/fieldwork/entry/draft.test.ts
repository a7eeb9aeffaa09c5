import { describe, expect, it } from 'vitest';
import { testDefinition } from '@countercheck/measurement';
import type { Reading } from '@countercheck/contracts';
import { hasEntries, readForm } from '../../../components/reading-form/index.ts';
import { changed, draftFrom, emptyDraft, timedBy } from './draft.ts';

let count = 0;
const id = () => `id-${++count}`;
const statics = testDefinition('supply-static');

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
    expect(readForm(statics, draft).raw.values['pressure']).toBeCloseTo(0.0919350447, 9);
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

describe('timedBy', () => {
  const timer = { path: 'values.pressure', seconds: 30, until: 5_000 };

  it('keeps a time that is over, and not one that still runs or was stopped', () => {
    expect(timedBy({ timer, timed: { '': 10 } }, 5_000)).toEqual({ '': 10, 'values.pressure': 30 });
    expect(timedBy({ timer, timed: {} }, 4_999)).toEqual({});
    expect(timedBy({ timer: null, timed: {} }, 9_000)).toEqual({});
  });

  it('comes back with a reading that is corrected', () => {
    const raw = { values: {}, choices: {}, rows: [], confirmations: {} };
    const conditions = { averagedSeconds: { 'values.pressure': 30 } };
    const reading = { raw, entered: {}, conditions, instrument: null } as unknown as Reading;
    expect(draftFrom(reading, statics, 'us', id).timed).toEqual({ 'values.pressure': 30 });
  });
});
