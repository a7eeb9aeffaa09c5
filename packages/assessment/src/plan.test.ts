import { compileRuleSet } from '@countercheck/rules';
import { describe, expect, it } from 'vitest';
import { assess } from './assess.ts';
import { fileProblems } from './consistency.ts';
import { proposedOrder, testsOpen } from './open.ts';
import { itemsToRevisit } from './revisit.ts';
import { subjectsOf } from './subjects.ts';
import { commonPractice, plainFile, reading } from './test/house.ts';
import type { HouseFile } from './types.ts';

const evaluate = compileRuleSet(commonPractice);
const cardOf = (file: HouseFile) => assess(file, evaluate).scorecard;
const ducts = (subjectId: string, flow: number) =>
  reading('duct-leakage-total', subjectId, 'duct-tester', { values: { ductPressure: 25, flow } });

describe('the subjects of a house', () => {
  it('are the house, its systems, rooms, ventilation and appliances', () => {
    expect(subjectsOf(plainFile).map((each) => `${each.kind} ${each.id}`)).toEqual([
      'house house',
      'system down',
      'system up',
      'bedroom bed-1',
      'bath bath-1',
      'kitchen kitchen-1',
      'ventilator ventilator',
      'appliance wh',
      'appliance dryer',
    ]);
    const without = { ...plainFile, house: { ...plainFile.house, ventilationKind: 'none' as const } };
    expect(subjectsOf(without).some((each) => each.kind === 'ventilator')).toBe(false);
  });
});

describe('the tests still open', () => {
  it('are those of waiting items without a reading that counts', () => {
    const file = { ...plainFile, readings: [ducts('down', 60)] };
    const open = testsOpen(cardOf(file), file).map((each) => `${each.test}/${each.subjectId}`);
    expect(open).toContain('duct-leakage-total/up');
    expect(open).not.toContain('duct-leakage-total/down');
    expect(open).toContain('ventilator-duct-leakage/ventilator');
    expect(open).toContain('spillage/wh');
    expect(open).not.toContain('spillage/dryer');
    expect(new Set(open).size).toBe(open.length);
  });

  it('are ordered safety first, and what may exempt before what may be exempt', () => {
    const order = proposedOrder(cardOf(plainFile), plainFile).map((each) => each.test);
    expect(order[0]).toBe('ambient-carbon-monoxide');
    expect(order.indexOf('envelope-leakage')).toBeLessThan(order.indexOf('duct-leakage-outdoors'));
    expect(order.indexOf('duct-leakage-total')).toBeLessThan(order.indexOf('duct-leakage-outdoors'));
  });
});

describe('what a reinspection looks at', () => {
  it('is the failed item and what rests on its readings', () => {
    const unit = reading('ventilator-duct-leakage', 'ventilator', 'duct-tester', {
      values: { ductPressure: 25, flow: 20 },
    });
    const file = { ...plainFile, readings: [ducts('down', 100), ducts('up', 100), unit] };
    const items = itemsToRevisit(cardOf(file)).map((each) => `${each.item} ${each.because}`);
    expect(items).toEqual(['duct-leakage-total failed', 'duct-leakage-outdoors depends']);
  });

  it('is nothing where nothing failed', () => {
    expect(itemsToRevisit(cardOf(plainFile))).toEqual([]);
  });
});

describe('a file that contradicts itself', () => {
  it('is told of a bedroom that is not listed and of an id used twice', () => {
    expect(fileProblems(plainFile)).toEqual([]);
    const more = { ...plainFile, house: { ...plainFile.house, bedrooms: 2 } };
    expect(fileProblems(more)).toEqual(['The house has 2 bedrooms, its file lists 1.']);
    const twice = { ...plainFile, systems: [...plainFile.systems, plainFile.systems[0]!] };
    const none = { ...plainFile, systems: [] };
    expect(fileProblems(none)).toEqual([expect.stringContaining('lists no heating or cooling system')]);
    expect(fileProblems(twice)).toEqual(['The file uses an id more than once: down.']);
  });
});
