import { expect, it } from 'vitest';
import { stepsTo } from './steps-to.ts';

const step = (value: number, unit: string) => ({ label: '', working: '', value, unit });
const steps = [step(1, 'Pa'), step(2, 'cfm'), step(3, 'cfm')];

it('ends where the number is reached', () => {
  expect(stepsTo({ value: 2, unit: 'cfm' }, steps)).toEqual(steps.slice(0, 2));
  expect(stepsTo({ value: 3, unit: 'cfm' }, steps)).toEqual(steps);
});

it('shows everything for a number that no line gives', () => {
  expect(stepsTo({ value: 1, unit: 'cfm' }, steps)).toEqual(steps);
});
