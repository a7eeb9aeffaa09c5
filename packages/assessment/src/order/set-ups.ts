import type { TestKey } from '@countercheck/measurement';

/** What stands, hangs or runs for a test. Of one kind there is one: connected elsewhere, it is set up anew. */
export type Rig =
  'monitor' | 'worst-case' | 'blower-door' | 'duct-tester' | 'probes' | 'air-handler' | 'flow-device';

/** The stretches of work: what one needs would spoil the next, so each is finished before another begins. */
export const stretches = ['combustion', 'tightness', 'air'] as const;
export type Stretch = (typeof stretches)[number];

export const rigWords: Record<Rig, { setUp: string; still: string }> = {
  monitor: {
    setUp: 'zero the CO monitor outdoors; it stays on your body',
    still: 'the CO monitor is on your body',
  },
  'worst-case': {
    setUp: 'set fans and doors to the worst case',
    still: 'fans and doors are still set to the worst case',
  },
  'blower-door': { setUp: 'put the fan in the doorway', still: 'the fan is still in the doorway' },
  'duct-tester': {
    setUp: 'connect the duct tester and seal the registers',
    still: 'the duct tester is still connected',
  },
  probes: { setUp: 'put the probes in the test holes', still: 'the probes are still connected' },
  'air-handler': {
    setUp: 'open every register and run the air handler',
    still: 'the air handler is still running',
  },
  'flow-device': { setUp: 'take the flow hood or flow meter', still: 'the flow device is in your hand' },
};

interface SetUp {
  stretch: Stretch;
  rigs: readonly Rig[];
  /** place within the stretch; tests of one place are done subject by subject */
  place: number;
}

/** These are connected to one part of the house at a time. */
export const connected: readonly Rig[] = ['duct-tester', 'probes'];

/** What each test needs. Common practice, no published source. */
export const setUps: Record<TestKey, SetUp> = {
  'ambient-carbon-monoxide': { stretch: 'combustion', rigs: ['monitor'], place: 0 },
  depressurization: { stretch: 'combustion', rigs: ['monitor', 'worst-case'], place: 1 },
  spillage: { stretch: 'combustion', rigs: ['monitor', 'worst-case'], place: 2 },
  'flue-carbon-monoxide': { stretch: 'combustion', rigs: ['monitor', 'worst-case'], place: 2 },
  'envelope-leakage': { stretch: 'tightness', rigs: ['blower-door'], place: 0 },
  'duct-leakage-rough': { stretch: 'tightness', rigs: ['duct-tester'], place: 1 },
  'duct-leakage-total': { stretch: 'tightness', rigs: ['duct-tester'], place: 1 },
  'duct-leakage-outdoors': { stretch: 'tightness', rigs: ['blower-door', 'duct-tester'], place: 1 },
  'ventilator-duct-leakage': { stretch: 'tightness', rigs: ['duct-tester'], place: 2 },
  'supply-static': { stretch: 'air', rigs: ['air-handler', 'probes'], place: 0 },
  'return-static': { stretch: 'air', rigs: ['air-handler', 'probes'], place: 0 },
  'bedroom-pressure': { stretch: 'air', rigs: ['air-handler'], place: 1 },
  'bedroom-relief': { stretch: 'air', rigs: ['air-handler', 'flow-device'], place: 2 },
  'whole-house-ventilation': { stretch: 'air', rigs: ['flow-device'], place: 3 },
  'kitchen-exhaust': { stretch: 'air', rigs: ['flow-device'], place: 4 },
  'bath-exhaust': { stretch: 'air', rigs: ['flow-device'], place: 5 },
};
