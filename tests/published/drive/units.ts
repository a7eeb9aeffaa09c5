import { airChangesPerHour, convert } from '@countercheck/measurement';
import { figures } from '../run/figures.ts';
import type { Driver } from './index.ts';

/** Air changes of a room given in metric units, through the functions that work in the trade's. */
const roomFlow: Driver = ({ volumeM3, flowM3PerHour }) => {
  const flow = convert(Number(flowM3PerHour), 'm3/h', 'cfm');
  const { value } = figures(airChangesPerHour(flow, convert(Number(volumeM3), 'm3', 'ft3')));
  return { airChanges: value };
};

export const units = { roomFlow };
