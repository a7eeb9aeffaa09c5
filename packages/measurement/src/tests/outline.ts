import type { TestDefinition, TestKey } from '../types.ts';
import {
  carryMonitor,
  fanAndFlames,
  hotFlue,
  ladder,
  liveEquipment,
  localRulesFirst,
  offAtTheSwitch,
  stopAndVentilate,
} from './cautions.ts';

/** What is read of a test before anybody begins it, apart from its form and its reckoning. */
export type TestOutline = Pick<TestDefinition, 'title' | 'subject' | 'stage' | 'cautions'>;

/** Every test in outline. A page that only names tests loads this and not what computes them. */
export const testOutlines: Record<TestKey, TestOutline> = {
  'supply-static': {
    title: 'Supply static pressure',
    subject: 'system',
    stage: 'final',
    cautions: [liveEquipment, ladder, localRulesFirst],
  },
  'return-static': {
    title: 'Return static pressure',
    subject: 'system',
    stage: 'final',
    cautions: [liveEquipment, ladder, localRulesFirst],
  },
  'bedroom-pressure': {
    title: 'Bedroom pressure',
    subject: 'bedroom',
    stage: 'final',
    cautions: [liveEquipment, localRulesFirst],
  },
  'bedroom-relief': {
    title: 'Bedroom relief openings',
    subject: 'bedroom',
    stage: 'final',
    cautions: [ladder, localRulesFirst],
  },
  'duct-leakage-rough': {
    title: 'Duct leakage at rough-in',
    subject: 'system',
    stage: 'rough',
    cautions: [offAtTheSwitch, ladder, localRulesFirst],
  },
  'duct-leakage-total': {
    title: 'Total duct leakage',
    subject: 'system',
    stage: 'final',
    cautions: [offAtTheSwitch, ladder, localRulesFirst],
  },
  'duct-leakage-outdoors': {
    title: 'Duct leakage to outdoors',
    subject: 'system',
    stage: 'final',
    cautions: [fanAndFlames, offAtTheSwitch, ladder, localRulesFirst],
  },
  'ventilator-duct-leakage': {
    title: 'Ventilator duct leakage',
    subject: 'ventilator',
    stage: 'final',
    cautions: [offAtTheSwitch, ladder, localRulesFirst],
  },
  'envelope-leakage': {
    title: 'Envelope leakage',
    subject: 'house',
    stage: 'final',
    cautions: [fanAndFlames, localRulesFirst],
  },
  'whole-house-ventilation': {
    title: 'Whole-house ventilation',
    subject: 'ventilator',
    stage: 'final',
    cautions: [ladder, localRulesFirst],
  },
  'kitchen-exhaust': {
    title: 'Kitchen exhaust',
    subject: 'kitchen',
    stage: 'final',
    cautions: ['Keep the flow device and yourself off a hot cooktop.', ladder, localRulesFirst],
  },
  'bath-exhaust': {
    title: 'Bath exhaust',
    subject: 'bath',
    stage: 'final',
    cautions: [ladder, localRulesFirst],
  },
  'ambient-carbon-monoxide': {
    title: 'Carbon monoxide in the air',
    subject: 'house',
    stage: 'final',
    cautions: [stopAndVentilate, carryMonitor],
  },
  spillage: {
    title: 'Spillage',
    subject: 'appliance',
    stage: 'final',
    cautions: [stopAndVentilate, carryMonitor, hotFlue],
  },
  depressurization: {
    title: 'Depressurization of the combustion zone',
    subject: 'house',
    stage: 'final',
    cautions: [stopAndVentilate, carryMonitor],
  },
  'flue-carbon-monoxide': {
    title: 'Carbon monoxide in the flue',
    subject: 'appliance',
    stage: 'final',
    cautions: [stopAndVentilate, carryMonitor, hotFlue],
  },
};
