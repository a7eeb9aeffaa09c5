import { compileRuleSet, type ItemVerdict } from '@countercheck/rules';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from './assess.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { FileReading, HouseFile } from './types.ts';

const evaluate = compileRuleSet(commonPractice);

const withReadings = (readings: FileReading[], more: Partial<HouseFile> = {}): HouseFile => ({
  ...plainFile,
  ...more,
  readings,
});

function verdictOf(file: HouseFile, item: string, subjectId = 'house'): ItemVerdict {
  const found = assess(file, evaluate).scorecard.verdicts.find(
    (each) => each.item === item && each.subjectId === subjectId,
  );
  if (!found) throw new Error(`no verdict for ${item} on ${subjectId}`);
  return found;
}

const ducts = (subjectId: string, flow: number, pressure = 25, more: Partial<FileReading> = {}) =>
  reading('duct-leakage-total', subjectId, 'duct-tester', { values: { ductPressure: pressure, flow } }, more);
const unit = (flow: number) =>
  reading('ventilator-duct-leakage', 'ventilator', 'duct-tester', { values: { ductPressure: 25, flow } });
const envelope = (flow: number) =>
  reading('envelope-leakage', 'house', 'blower-door', {
    values: { baselineBefore: 0 },
    rows: [{ label: '1', values: { housePressure: 50, flow }, choices: {} }],
  });
const supply = (pressure: number, more: Partial<FileReading> = {}) =>
  reading('supply-static', 'down', 'manometer', { values: { pressure } }, more);

describe('from raw readings to a verdict', () => {
  it('compares a reading with the installer’s figure', () => {
    const verdict = verdictOf(withReadings([supply(0.092)]), 'supply-static', 'down');
    expect(verdict).toMatchObject({
      status: 'pass',
      reason: '0.092 in. w.c. is 108 % of the reported 0.085; limit 110 %.',
    });
    expect(verdict.trace.readingIds).toHaveLength(1);
  });

  it('compares the return side by size', () => {
    const taken = reading('return-static', 'down', 'manometer', { values: { pressure: -0.157 } });
    expect(verdictOf(withReadings([taken]), 'return-static', 'down').reason).toContain(
      '105 % of the reported 0.15',
    );
  });

  it('sums the ducts of all systems and of the ventilation unit', () => {
    const verdict = verdictOf(
      withReadings([ducts('down', 60), ducts('up', 40), unit(20)]),
      'duct-leakage-total',
    );
    expect(verdict).toMatchObject({ status: 'pass', headline: { value: 120, high: 120 } });
    expect(verdict.trace.steps.map((each) => each.working)).toContain('60 + 40 + 20');
    expect(verdict.trace.readingIds).toHaveLength(3);
  });

  it('waits for the system that is still missing, by its name', () => {
    const verdict = verdictOf(withReadings([ducts('down', 60), unit(20)]), 'duct-leakage-total');
    expect(verdict).toMatchObject({ status: 'waiting', reason: 'Waiting: the sum waits for Upstairs.' });
  });

  it('remarks on a reading that was carried to 25 Pa', () => {
    const verdict = verdictOf(
      withReadings([ducts('down', 30, 15), ducts('up', 20), unit(10)]),
      'duct-leakage-total',
    );
    expect(verdict.trace.remarks.join()).toMatch(/Downstairs: .*15 Pa/);
  });

  it('exempts ducts that are inside a tight house', () => {
    const readings = [ducts('down', 60), ducts('up', 40), unit(10), envelope(533)];
    const verdict = verdictOf(withReadings(readings), 'duct-leakage-outdoors');
    expect(verdict.status).toBe('exempt');
    expect(verdict.reason).toContain('visibly inside');
  });

  it('adds the two inlets of a kitchen hood', () => {
    const row = (flow: number) => ({ label: 'inlet', values: { flow }, choices: { deviceRange: 'widest' } });
    const raw = { choices: { mode: 'intermittent' }, rows: [row(56), row(50)] };
    const verdict = verdictOf(
      withReadings([reading('kitchen-exhaust', 'kitchen-1', 'exhaust-flow-meter', raw)]),
      'kitchen-exhaust',
      'kitchen-1',
    );
    expect(verdict).toMatchObject({ status: 'pass', headline: { value: 106 } });
  });
});

describe('readings that do not count', () => {
  it('wait with the reason when the instrument was out of calibration', () => {
    const verdict = verdictOf(
      withReadings([supply(0.092, { takenOn: '2027-01-01' })]),
      'supply-static',
      'down',
    );
    expect(verdict.status).toBe('waiting');
    expect(verdict.reason).toContain('its calibration was due on 2026-12-31');
  });

  it('do not push aside one that counts', () => {
    const readings = [supply(0.092), supply(0.5, { takenOn: '2027-01-01' })];
    expect(verdictOf(withReadings(readings), 'supply-static', 'down').status).toBe('pass');
  });

  it('wait with the problem when they cannot be computed', () => {
    const { measured, scorecard } = assess(withReadings([supply(-0.092)]), evaluate);
    expect(measured[0]).toMatchObject({ counts: false, problems: [{ code: 'wrong-sign' }] });
    const verdict = scorecard.verdicts.find(
      (each) => each.item === 'supply-static' && each.subjectId === 'down',
    );
    expect(verdict?.reason).toContain('swapped');
  });

  it('still stop the work', () => {
    const raw = { values: { carbonMonoxide: 80 }, confirmations: {} };
    const { scorecard } = assess(
      withReadings([reading('ambient-carbon-monoxide', 'house', 'ambient-co-monitor', raw)]),
      evaluate,
    );
    expect(scorecard.stopWork.join()).toContain('35 ppm');
    expect(scorecard.verdicts.find((each) => each.item === 'ambient-carbon-monoxide')?.status).toBe(
      'waiting',
    );
  });

  it('stop the work also where an older one counts, and the verdict tells of them', () => {
    const monitor = (carbonMonoxide: number, takenOn: string, dueOn = '2026-12-31') => {
      const raw = { values: { carbonMonoxide } };
      const made = reading('ambient-carbon-monoxide', 'house', 'ambient-co-monitor', raw, { takenOn });
      return { ...made, instrument: { ...made.instrument!, dueOn } };
    };
    const verdict = (...readings: FileReading[]) =>
      verdictOf(withReadings(readings), 'ambient-carbon-monoxide');
    const stopped = verdict(monitor(3, '2026-06-01'), monitor(80, '2026-07-01', '2026-06-30'));
    expect(stopped).toMatchObject({ status: 'pass', stopWork: expect.stringContaining('35 ppm') });
    expect(stopped.trace.remarks.join()).toContain('The newer reading of 2026-07-01 does not count');
    const aired = verdict(monitor(80, '2026-06-01'), monitor(3, '2026-07-01'));
    expect(aired).toMatchObject({ status: 'pass', stopWork: null });
    const by = verdict(monitor(80, '2026-06-01'), monitor(3, '2026-07-01', '2026-06-30'));
    expect(by).toMatchObject({ status: 'fail', stopWork: expect.stringContaining('35 ppm') });
  });

  it('are left out when their subject is gone or of another kind', () => {
    const { measured } = assess(withReadings([ducts('garage', 10), ducts('bed-1', 10)]), evaluate);
    expect(measured.map((each) => each.problems[0]?.code)).toEqual(['wrong-subject', 'wrong-subject']);
  });
});

describe('several readings of one test', () => {
  it('count by the newest, in whatever order the file lists them', () => {
    const old = supply(0.2, { takenOn: '2026-05-01' });
    const fresh = supply(0.09, { takenOn: '2026-06-01' });
    for (const readings of [
      [old, fresh],
      [fresh, old],
    ])
      expect(verdictOf(withReadings(readings), 'supply-static', 'down').status).toBe('pass');
  });

  it('of one day count by the hour, whatever their ids are', () => {
    const morning = supply(0.2, { id: 'z', takenAt: '2026-06-01T09:00:00.000Z' });
    const evening = supply(0.09, { id: 'a', takenAt: '2026-06-01T16:00:00.000Z' });
    expect(verdictOf(withReadings([morning, evening]), 'supply-static', 'down').status).toBe('pass');
    const late = { ...evening, instrument: { ...evening.instrument!, dueOn: '2026-05-31' } };
    expect(verdictOf(withReadings([morning, late]), 'supply-static', 'down').status).toBe('fail');
  });

  it('give one scorecard for every order of the readings', () => {
    const readings = [
      ducts('down', 60),
      ducts('up', 40),
      unit(20),
      envelope(533),
      supply(0.092),
      supply(0.1),
    ];
    const wanted = assess(withReadings(readings), evaluate).scorecard;
    fc.assert(
      fc.property(fc.shuffledSubarray(readings, { minLength: readings.length }), (shuffled) => {
        expect(assess(withReadings(shuffled), evaluate).scorecard).toEqual(wanted);
      }),
      { numRuns: 30 },
    );
  });
});

describe('the blind second reading', () => {
  const hidden: HouseFile['hidden'] = [{ test: 'supply-static', subjectId: 'down' }];
  const figures = { supplyStatic: 0.08317, returnStatic: 0.15, airflow: 1043.71 };

  it('shows the hidden figures nowhere, and the others', () => {
    const readings = [
      supply(0.092),
      reading('return-static', 'down', 'manometer', { values: { pressure: -0.157 } }),
    ];
    const file = withReadings(readings, { hidden, reported: { down: figures } });
    const { scorecard, facts } = assess(file, evaluate);
    const text = JSON.stringify({ scorecard, facts });
    expect(text).not.toContain('0.083');
    expect(text).not.toContain('1043');
    expect(verdictOf(file, 'return-static', 'down').status).toBe('pass');
    expect(verdictOf(file, 'supply-static', 'down').reason).toContain('stays hidden');
  });
});

describe('figures signed again for a reinspection', () => {
  const reopened: Partial<HouseFile> = {
    reported: { down: { supplyStatic: 0.2, returnStatic: 0.4 }, up: { supplyStatic: 0.5 } },
    reportedRevision: 3,
    earlierFigures: [{ revision: 1, figures: { down: { supplyStatic: 0.085, returnStatic: 0.15 } } }],
  };
  const inputsOf = (file: HouseFile, subjectId = 'down') =>
    verdictOf(file, 'supply-static', subjectId).trace.inputs.filter(({ from }) => from === 'reported');

  it('do not touch what was read before them', () => {
    const before = withReadings([supply(0.2, { figuresRevision: 1 })], reopened);
    expect(verdictOf(before, 'supply-static', 'down').status).toBe('fail');
    expect(inputsOf(before)).toMatchObject([{ value: 0.085, revision: 1 }]);
  });

  it('judge what was read after them, and only that', () => {
    const readAgain = withReadings(
      [
        supply(0.3, { figuresRevision: 1 }),
        supply(0.2, { takenOn: '2026-06-08', figuresRevision: 3 }),
        reading('return-static', 'down', 'manometer', { values: { pressure: -0.15 } }),
      ],
      reopened,
    );
    expect(verdictOf(readAgain, 'supply-static', 'down').status).toBe('pass');
    expect(inputsOf(readAgain)).toMatchObject([{ value: 0.2, revision: 3 }]);
    expect(verdictOf(readAgain, 'return-static', 'down').reason).toContain('of the reported 0.15');
  });

  it('go by the reading that governs: one out of calibration brings no new figure into force', () => {
    const { instrument } = supply(0.2);
    const late = supply(0.2, {
      takenOn: '2026-06-08',
      figuresRevision: 3,
      instrument: { ...instrument!, dueOn: '2026-06-07' },
    });
    const file = withReadings([supply(0.2, { figuresRevision: 1 }), late], reopened);
    expect(inputsOf(file)).toMatchObject([{ value: 0.085, revision: 1 }]);
  });

  it('wait in force where nothing was read yet, without a revision where there is one only', () => {
    expect(inputsOf(withReadings([], reopened), 'up')).toMatchObject([{ value: 0.5, revision: 3 }]);
    expect(inputsOf(withReadings([supply(0.09)]))[0]).not.toHaveProperty('revision');
  });
});
