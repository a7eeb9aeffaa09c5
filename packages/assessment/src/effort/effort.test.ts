import { compileRuleSet } from '@countercheck/rules';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess.ts';
import { commonPractice, plainFile, reading } from '../test/house.ts';
import type { HouseFile } from '../types.ts';
import { effortMinutes, visitBaseMinutes } from './minutes.ts';
import { visitEffort } from './index.ts';

const evaluate = compileRuleSet(commonPractice);
const effort = (file: HouseFile, kind: 'rough' | 'final' | 'reinspection' | 'quality') =>
  visitEffort(assess(file, evaluate).scorecard, file, kind);
const leaking = {
  ...plainFile,
  readings: [
    reading('duct-leakage-total', 'down', 'duct-tester', { values: { ductPressure: 25, flow: 400 } }),
    reading('duct-leakage-total', 'up', 'duct-tester', { values: { ductPressure: 25, flow: 400 } }),
    reading('ventilator-duct-leakage', 'ventilator', 'duct-tester', {
      values: { ductPressure: 25, flow: 5 },
    }),
  ],
};

describe('the effort of a visit', () => {
  it('grows with the house and comes in quarters of an hour', () => {
    const whole = effort(plainFile, 'final');
    const oneSystem = effort({ ...plainFile, systems: plainFile.systems.slice(0, 1) }, 'final');
    expect(whole.minutes % 15).toBe(0);
    expect(whole.minutes).toBeGreaterThan(oneSystem.minutes);
    expect(whole.parts.find(({ test }) => test === 'duct-leakage-total')).toEqual({
      ...{ test: 'duct-leakage-total', subjects: 2 },
      minutes: 2 * effortMinutes['duct-leakage-total'].each,
    });
  });

  it('counts one set-up a group, and a test that may be spared by its share', () => {
    const { minutes, parts } = effort(plainFile, 'final');
    const tests = parts.reduce((sum, each) => sum + each.minutes, 0);
    const groups = new Map<string, number>();
    for (const { test } of parts) {
      const { group, share, setUp } = effortMinutes[test];
      groups.set(group, Math.max(groups.get(group) ?? 0, share * setUp));
    }
    const setUps = [...groups.values()].reduce((a, b) => a + b, 0);
    const exact = visitBaseMinutes + tests + setUps;
    expect(minutes).toBeGreaterThanOrEqual(exact);
    expect(minutes - exact).toBeLessThan(15);
    expect(groups.get('ducts')).toBe(20);
  });

  it('asks for the instruments and the training of its tests, alternatives together', () => {
    const needs = effort(plainFile, 'final');
    expect(needs.instruments).toContainEqual(['duct-tester']);
    expect(needs.instruments.flat()).not.toContain('stopwatch');
    expect(needs.qualifications).toEqual(['airtightness', 'airflow', 'combustion-safety']);
    const electric = { ...plainFile, appliances: [] };
    expect(effort(electric, 'final').qualifications).not.toContain('combustion-safety');
  });

  it('at a reinspection is what failed and what hangs on it', () => {
    const again = effort(leaking, 'reinspection');
    expect(again.parts.map(({ test }) => test)).toContain('duct-leakage-total');
    expect(again.parts.map(({ test }) => test)).not.toContain('bath-exhaust');
    expect(again.minutes).toBeLessThan(effort(plainFile, 'final').minutes);
  });

  it('at a quality visit is everything again, by somebody who may', () => {
    const quality = effort(leaking, 'quality');
    expect(quality.parts.map(({ test }) => test)).toContain('duct-leakage-total');
    expect(quality.qualifications).toContain('quality-visits');
  });

  it('is a walk through the house where nothing waits', () => {
    expect(effort(plainFile, 'rough')).toEqual({
      ...{ minutes: 30, parts: [], instruments: [], qualifications: [] },
    });
  });
});
