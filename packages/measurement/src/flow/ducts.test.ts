import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { monteCarlo } from '../uncertainty/monte-carlo.ts';
import {
  ductLeakageIndoors,
  ductLeakagePerFloorArea,
  ductLeakageShare,
  houseDuctLeakage,
} from './duct-rates.ts';
import type { ReferenceTarget } from './flow-at-reference.ts';
import { budgetedFlowAtReference, exponentError } from './reference-uncertainty.ts';
import { type FlowPart, sumFlows } from './sum.ts';

const ducts: ReferenceTarget = { reference: 25, exponent: 0.6, lowestShare: 0.4, label: 'Leakage at 25 Pa' };
const house: ReferenceTarget = { reference: 50, exponent: 0.65, lowestShare: 0.3, label: 'Leakage at 50 Pa' };

function given<T>(found: { ok: true; value: T } | { ok: false; problem: { message: string } }): T {
  if (!found.ok) throw new Error(found.problem.message);
  return found.value;
}

describe('exponentError', () => {
  // A house at 50 Pa with 0.65 assumed: computed independently.
  it.each([
    [0.5, [-16.52, -12.84, -9.87, -7.38, -5.21, -3.29, -1.57]],
    [0.6, [-5.84, -4.48, -3.41, -2.52, -1.77, -1.11, -0.53]],
    [0.7, [6.2, 4.69, 3.53, 2.59, 1.8, 1.12, 0.53]],
    [0.8, [19.79, 14.73, 10.96, 7.96, 5.5, 3.4, 1.59]],
  ])('of a house whose exponent is %s, read at 15 to 45 Pa, is %s %%', (exponent, errors) => {
    const found = [15, 20, 25, 30, 35, 40, 45].map((p) => given(exponentError(-p, exponent, house)));
    found.forEach((error, i) => expect(error).toBeCloseTo(errors[i] ?? NaN, 2));
  });

  it('is nothing at the reference pressure or for the right exponent', () => {
    expect(exponentError(25, 0.9, ducts)).toEqual({ ok: true, value: 0 });
    expect(exponentError(10, 0.6, ducts)).toEqual({ ok: true, value: 0 });
  });

  it('refuses what has no error', () => {
    for (const pressure of [0, NaN, Infinity])
      expect(exponentError(pressure, 0.6, ducts)).toMatchObject({
        problem: { path: 'pressure', code: 'zero-pressure' },
      });
    for (const exponent of [0, NaN, Infinity])
      expect(exponentError(10, exponent, ducts)).toMatchObject({
        problem: { path: 'exponent', code: 'bad-exponent' },
      });
    expect(exponentError(10, 0.6, { ...ducts, reference: NaN })).toMatchObject({
      problem: { code: 'bad-target' },
    });
  });
});

describe('budgetedFlowAtReference', () => {
  const uncertainties = { flow: 1.2, pressure: 0.15, exponent: 0.1 / Math.sqrt(3) };

  it('has the three parts, the largest first', () => {
    const { flow, budget, remark } = given(budgetedFlowAtReference(70, 15, ducts, uncertainties));
    expect(flow).toBeCloseTo(95.1059, 4);
    expect(remark).toBe('extrapolated from 15 Pa');
    expect(budget.parts.map(({ label }) => label)).toEqual([
      'Error of the assumed exponent',
      'Error of the flow',
      'Error of the pressure reached',
    ]);
    const parts = [
      1.2 * 1.3587,
      (0.6 * 95.1059 * 0.15) / 15,
      (95.1059 * Math.log(25 / 15) * 0.1) / Math.sqrt(3),
    ];
    expect(budget.standardUncertainty).toBeCloseTo(Math.hypot(...parts), 3);
    expect(budget.unit).toBe('cfm');
  });

  it('agrees with a simulation to 2 %, at the lowest pressure still taken', () => {
    for (const pressure of [10, 15, 20, 25]) {
      const { budget } = given(budgetedFlowAtReference(70, -pressure, ducts, uncertainties));
      const drawn = monteCarlo(
        ([q, p, n]) => q! * (25 / p!) ** n!,
        [
          { value: 70, u: 1.2 },
          { value: pressure, u: 0.15 },
          { value: 0.6, u: uncertainties.exponent, distribution: 'rectangular' },
        ],
        11,
        100_000,
      );
      const ratio = given(drawn).standardUncertainty / budget.standardUncertainty;
      expect(Math.abs(ratio - 1)).toBeLessThan(0.02);
    }
  });

  it('has the exponent’s part that the table of its errors has, to first order', () => {
    fc.assert(
      fc.property(fc.double({ min: 10, max: 60, noNaN: true }), (pressure) => {
        const { flow, budget } = given(
          budgetedFlowAtReference(70, pressure, ducts, { flow: 0, pressure: 0, exponent: 0.001 }),
        );
        const error = (flow * given(exponentError(pressure, 0.601, ducts))) / 100;
        expect(budget.standardUncertainty).toBeCloseTo(Math.abs(error), 3);
      }),
    );
  });

  it('passes on refusals', () => {
    expect(budgetedFlowAtReference(70, 9, ducts, uncertainties)).toMatchObject({
      problem: { code: 'below-lowest-pressure' },
    });
    expect(budgetedFlowAtReference(70, 20, ducts, { ...uncertainties, flow: -1 })).toMatchObject({
      problem: { code: 'bad-part' },
    });
  });
});

describe('sumFlows by instrument', () => {
  const part = (flow: number, standardUncertainty: number | null, instrument?: string | null): FlowPart => ({
    label: `Terminal ${flow}`,
    flow,
    standardUncertainty,
    ...(instrument === undefined ? {} : { instrument }),
  });

  it('adds errors of one instrument and combines those of several', () => {
    const parts = [part(50, 3, 'A'), part(60, 1, 'A'), part(40, 3, 'B')];
    expect(sumFlows(parts, 'by-instrument', 'Sum').standardUncertainty).toBe(5);
    expect(sumFlows(parts, 'shared', 'Sum').standardUncertainty).toBe(7);
    expect(sumFlows(parts, 'independent', 'Sum').standardUncertainty).toBeCloseTo(Math.sqrt(19), 12);
  });

  it('takes parts without a name as read with one instrument, and knows nothing when a part does not', () => {
    expect(sumFlows([part(50, 3), part(60, 4, null)], 'by-instrument', '').standardUncertainty).toBe(7);
    expect(sumFlows([part(50, null, 'A')], 'by-instrument', '').standardUncertainty).toBeNull();
    expect(sumFlows([], 'by-instrument', '').standardUncertainty).toBe(0);
  });
});

describe('houseDuctLeakage', () => {
  const systems: FlowPart[] = [
    { label: 'Upper floor', flow: 73, standardUncertainty: 3, instrument: 'tester 1' },
    { label: 'Lower floor', flow: 50, standardUncertainty: 4, instrument: 'tester 2' },
  ];

  // 123 cfm over 2,400 ft² are 5.125 per 100 ft²: example file of the public data format (seen).
  it('sums the systems and divides by the floor of the house', () => {
    const { total, perFloorArea } = given(houseDuctLeakage(systems, 2400));
    expect(total).toMatchObject({
      value: 123,
      unit: 'cfm',
      standardUncertainty: 5,
      expandedUncertainty: 10,
      steps: [{ label: 'All ducts of the house', working: '73 + 50' }],
    });
    expect(perFloorArea).toMatchObject({
      value: 5.125,
      unit: 'cfm/100ft2',
      standardUncertainty: expect.closeTo(500 / 2400, 12),
      steps: [{ working: '123 × 100 / 2400' }],
    });
    expect(given(houseDuctLeakage(systems, null)).perFloorArea).toBeNull();
  });

  it('does not depend on the order of the systems', () => {
    const systemsOf = fc.array(
      fc.record({ flow: fc.nat(300), u: fc.nat(20), instrument: fc.constantFrom('A', 'B') }),
      {
        minLength: 1,
        maxLength: 5,
      },
    );
    fc.assert(
      fc.property(systemsOf, (drawn) => {
        const list = drawn.map(({ flow, u, instrument }) => ({
          label: '',
          flow,
          standardUncertainty: u,
          instrument,
        }));
        const there = given(houseDuctLeakage(list, 2000));
        const back = given(houseDuctLeakage([...list].reverse(), 2000));
        expect(back.total.value).toBe(there.total.value);
        expect(back.total.standardUncertainty).toBeCloseTo(there.total.standardUncertainty ?? NaN, 9);
      }),
    );
  });

  it('refuses a house without systems, a leakage below zero and a floor of nothing', () => {
    expect(houseDuctLeakage([], 2400)).toMatchObject({ problem: { code: 'no-systems' } });
    expect(houseDuctLeakage([systems[0]!, { ...systems[1]!, flow: -1 }], 2400)).toMatchObject({
      problem: {
        path: 'systems.1.flow',
        code: 'below-zero',
        message: expect.stringContaining('Lower floor'),
      },
    });
    expect(houseDuctLeakage([{ ...systems[0]!, standardUncertainty: -1 }], 2400)).toMatchObject({
      problem: { code: 'bad-uncertainty' },
    });
    expect(houseDuctLeakage(systems, 0)).toMatchObject({
      problem: { path: 'floorArea', code: 'not-above-zero' },
    });
    const unknown = [{ ...systems[0]!, standardUncertainty: null }];
    expect(given(houseDuctLeakage(unknown, 2400)).perFloorArea?.standardUncertainty).toBeNull();
  });
});

describe('duct leakage as a rate', () => {
  // First: the same example file (seen). The others computed.
  it.each([
    [123, 2400, 5.125],
    [96, 2400, 4],
    [72, 2400, 3],
  ])('%s cfm over %s ft² are %s per 100 ft²', (leakage, floorArea, rate) => {
    expect(given(ductLeakagePerFloorArea({ leakage, floorArea })).value).toBe(rate);
  });

  // Limits of California RA3 2008, table RA3.1-2 (seen), as shares of 1,200 cfm.
  it.each([
    [72, 6],
    [180, 15],
    [120, 10],
    [48, 4],
  ])('%s cfm of 1,200 are %s %%', (leakage, share) => {
    const found = given(ductLeakageShare({ leakage, airflow: 1200 }));
    expect(found).toMatchObject({ value: share, unit: '%', steps: [{ working: `100 × ${leakage} / 1200` }] });
  });

  it('carries the uncertainty of both numbers', () => {
    const rate = given(
      ductLeakagePerFloorArea({ leakage: 100, floorArea: 2000 }, { leakage: 3, floorArea: 40 }),
    );
    expect(rate.standardUncertainty).toBeCloseTo(5 * Math.hypot(0.03, 0.02), 12);
    const share = given(ductLeakageShare({ leakage: 60, airflow: 1200 }, { leakage: 3, airflow: 60 }));
    expect(share.standardUncertainty).toBeCloseTo(5 * Math.hypot(0.05, 0.05), 12);
    expect(
      given(ductLeakageShare({ leakage: 60, airflow: 1200 }, { leakage: 3 })).standardUncertainty,
    ).toBeNull();
  });

  it('refuses nothing to divide by, and uncertainties that are none', () => {
    expect(ductLeakageShare({ leakage: 60, airflow: 0 })).toMatchObject({ problem: { path: 'airflow' } });
    expect(ductLeakageShare({ leakage: -60, airflow: 1 })).toMatchObject({ problem: { path: 'leakage' } });
    expect(ductLeakageShare({ leakage: 60, airflow: 1 }, { leakage: -1 }).ok).toBe(false);
    expect(ductLeakagePerFloorArea({ leakage: NaN, floorArea: 1 })).toMatchObject({
      problem: { path: 'leakage' },
    });
    expect(ductLeakagePerFloorArea({ leakage: 1, floorArea: 1 }, { floorArea: NaN }).ok).toBe(false);
  });
});

describe('ductLeakageIndoors', () => {
  it('is total less to outdoors', () => {
    expect(given(ductLeakageIndoors({ total: 100, outdoors: 60 }, { total: 4, outdoors: 3 }))).toMatchObject({
      value: 40,
      standardUncertainty: 5,
      remarks: [],
      steps: [{ working: '100 − 60' }],
    });
    expect(given(ductLeakageIndoors({ total: 60, outdoors: 60 }))).toMatchObject({
      value: 0,
      standardUncertainty: null,
      remarks: [],
    });
  });

  it('states zero within the uncertainty and refuses beyond it', () => {
    const stated = { total: 4, outdoors: 3 };
    expect(given(ductLeakageIndoors({ total: 100, outdoors: 110 }, stated))).toMatchObject({
      value: 0,
      remarks: [expect.stringContaining('zero is stated')],
      steps: [{ working: '100 − 110, stated as zero', value: 0 }],
    });
    expect(ductLeakageIndoors({ total: 100, outdoors: 110.1 }, stated)).toMatchObject({
      problem: {
        path: 'outdoors',
        code: 'outdoors-above-total',
        message: expect.stringContaining('110.1 cfm leak outdoors, more than the 100 cfm'),
      },
    });
    expect(ductLeakageIndoors({ total: 100, outdoors: 100.1 })).toMatchObject({
      problem: { code: 'outdoors-above-total' },
    });
    expect(ductLeakageIndoors({ total: -1, outdoors: 1 })).toMatchObject({ problem: { path: 'total' } });
    expect(ductLeakageIndoors({ total: 1, outdoors: NaN })).toMatchObject({ problem: { path: 'outdoors' } });
    expect(ductLeakageIndoors({ total: 1, outdoors: 1 }, { total: -1 }).ok).toBe(false);
  });
});
