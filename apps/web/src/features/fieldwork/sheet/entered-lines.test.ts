import { describe, expect, it } from 'vitest';
import { enteredLines } from './entered-lines.ts';

describe('enteredLines', () => {
  it('shows what was typed, row by row, whatever the units shown now', () => {
    const row = { label: 'Hall', values: { housePressure: -50, flow: 1000 }, choices: {} };
    const raw = { values: { baselineBefore: -1 }, choices: {}, confirmations: {}, rows: [row] };
    const entered = { 'rows.0.values.housePressure': { text: '-50.0', unit: 'Pa' } };
    expect(enteredLines({ test: 'envelope-leakage', raw, entered }, 'us')).toEqual([
      { label: 'Baseline before', text: '-1.0 Pa' },
      { label: 'Hall, House pressure to outdoors', text: '-50.0 Pa' },
      ...enteredLines(
        {
          test: 'envelope-leakage',
          raw: { ...raw, values: {}, rows: [{ ...row, values: { flow: 1000 } }] },
          entered: {},
        },
        'us',
      ),
    ]);
  });

  it('shows a choice in its words', () => {
    const raw = {
      values: { seconds: 30 },
      choices: { vent: 'cold', ended: 'stopped' },
      confirmations: {},
      rows: [],
    };
    expect(enteredLines({ test: 'spillage', raw, entered: {} }, 'us')[0]).toEqual({
      label: 'Vent when the appliance was lit',
      text: 'Cold',
    });
  });

  it('says over how long a number was averaged', () => {
    const raw = { values: { pressure: 0.09 }, choices: {}, confirmations: {}, rows: [] };
    const conditions = { averagedSeconds: { '': 60, 'values.pressure': 30 } };
    const reading = { test: 'supply-static' as const, raw, entered: {}, conditions };
    expect(enteredLines(reading, 'us')).toEqual([
      { label: 'Averaged over', text: '60 s' },
      { label: 'Pressure', text: '0.090 in. w.c., averaged over 30 s' },
    ]);
  });

  it('says which way the clock of the phone was off', () => {
    const raw = { values: {}, choices: {}, confirmations: {}, rows: [] };
    const told = (clockAheadMinutes: number) =>
      enteredLines({ test: 'supply-static', raw, entered: {}, conditions: { clockAheadMinutes } }, 'us')[0]!
        .text;
    expect([told(12), told(-180)]).toEqual([
      'set right: the phone’s clock was 12 min ahead',
      'set right: the phone’s clock was 180 min behind',
    ]);
  });
});
