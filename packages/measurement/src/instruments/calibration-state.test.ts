import { describe, expect, it } from 'vitest';
import { instrument } from '../testing/instruments.ts';
import { instrumentKinds } from '../types.ts';
import { calibrationState, calibrationStateFor, kindsWithoutCalibration } from './calibration-state.ts';
import { nativeUnit } from './native-unit.ts';

const gauge = instrument('manometer', { label: 'Gauge 2', calibratedOn: '2026-01-15', dueOn: '2027-01-15' });

describe('calibrationState', () => {
  it.each(['2026-01-15', '2026-06-01', '2027-01-15'])('counts on %s', (day) => {
    expect(calibrationState(gauge, day)).toEqual({
      counts: true,
      words: 'Gauge 2 was calibrated on 2026-01-15, due on 2027-01-15.',
    });
  });

  it.each([
    [
      {},
      '2026-01-14',
      'Gauge 2 was used on 2026-01-14, before its calibration of 2026-01-15; the reading does not count.',
    ],
    [
      {},
      '2027-01-16',
      'Gauge 2 was used on 2027-01-16, after its calibration was due on 2027-01-15; the reading does not count.',
    ],
    [
      { calibratedOn: null },
      '2026-06-01',
      'Gauge 2 had no calibration on 2026-06-01; the reading does not count.',
    ],
    [
      { dueOn: null },
      '2026-06-01',
      'Gauge 2 has no date on which its calibration was due; the reading does not count.',
    ],
    [
      { calibratedOn: 'x2026-01-15' },
      '2026-06-01',
      'Gauge 2 had no calibration on 2026-06-01; the reading does not count.',
    ],
    [
      { dueOn: '2027-01-15T00' },
      '2026-06-01',
      'Gauge 2 has no date on which its calibration was due; the reading does not count.',
    ],
    [{}, '1 June', 'Gauge 2 was used on an unreadable date (1 June); the reading does not count.'],
  ])('does not count with %o on %s', (part, day, words) => {
    expect(calibrationState({ ...gauge, ...part }, day)).toEqual({ counts: false, words });
  });

  it('asks no record of a watch or a tape measure, and of every other kind', () => {
    for (const kind of instrumentKinds) {
      const bare = instrument(kind, { calibratedOn: null, dueOn: null });
      expect(calibrationState(bare, '2026-06-01').counts).toBe(kindsWithoutCalibration.includes(kind));
    }
    expect(calibrationState(instrument('tape-measure'), 'never')).toEqual({
      counts: true,
      words: 'A tape measure needs no calibration record.',
    });
  });
});

describe('calibrationStateFor', () => {
  it('looks at the instrument when there is one', () => {
    expect(calibrationStateFor({ instrumentRequired: false }, gauge, '2030-01-01').counts).toBe(false);
    expect(calibrationStateFor({ instrumentRequired: true }, gauge, '2026-06-01').counts).toBe(true);
  });

  it('lets a test without an instrument count only when it needs none', () => {
    expect(calibrationStateFor({ instrumentRequired: true }, null, '2026-06-01')).toEqual({
      counts: false,
      words: 'No instrument is recorded; the reading does not count.',
    });
    expect(calibrationStateFor({ instrumentRequired: false }, null, '2026-06-01')).toEqual({
      counts: true,
      words: 'This test needs no calibrated instrument.',
    });
  });
});

it('keeps accuracies in the unit the instrument reads', () => {
  const units = instrumentKinds.map((kind) => `${kind} ${nativeUnit(kind)}`);
  expect(units).toEqual([
    'manometer Pa',
    'blower-door cfm',
    'duct-tester cfm',
    'flow-hood cfm',
    'powered-flow-hood cfm',
    'exhaust-flow-meter cfm',
    'combustion-analyzer ppm',
    'ambient-co-monitor ppm',
    'thermometer degF',
    'tape-measure in',
    'stopwatch s',
  ]);
});
