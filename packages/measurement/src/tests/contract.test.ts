import { expect, it } from 'vitest';
import type { ChoiceDefinition, FieldDefinition, TestDefinition, TestKey } from '../types.ts';
import { testDefinition } from './registry.ts';

// What a client has to send for each test. Stored readings follow it, so a change here is a change for them.
const contract: Record<TestKey, string[]> = {
  'supply-static': [
    'system, final: manometer',
    'signed pressure staticPressure -3 to 3',
    'confirm installersTestHole airHandlerOn filterIn registersOpen',
    'gives staticPressure (staticPressure), signedPressure (staticPressure)',
  ],
  'return-static': [
    'system, final: manometer',
    'signed pressure staticPressure -3 to 3',
    'confirm installersTestHole airHandlerOn filterIn registersOpen',
    'gives staticPressure (staticPressure), signedPressure (staticPressure)',
  ],
  'bedroom-pressure': [
    'bedroom, final: manometer',
    'signed pressure pressureDifference -60 to 60',
    'confirm doorClosed airHandlerOn otherDoorsOpen',
    'gives pressure (pressureDifference), signedPressure (pressureDifference)',
  ],
  'bedroom-relief': [
    'bedroom, final: flow-hood powered-flow-hood',
    'supplyFlow airflow 1 to 1000',
    'rows 1 to 12',
    'optional freeArea openingArea 0.5 to 2000',
    'optional width length 1 to 120',
    'optional height length 0.05 to 12',
    'choice kind grille|jumper-duct|door-undercut',
    'confirm',
    'gives freeArea (openingArea), freeAreaPerFlow (openingPerFlow), predictedPressure (pressureDifference), supplyFlow (airflow)',
  ],
  'duct-leakage-rough': [
    'system, rough: duct-tester',
    'signed ductPressure pressureDifference -100 to 100',
    'optional signed fanPressure pressureDifference -1000 to 1000',
    'optional flow airflow 0 to 2000',
    'optional choice range instrument-range',
    'confirm openingsSealed outdoorIntakeSealed openToOutdoors',
    'gives leakageAt25 (airflow), reachedPressure (pressureDifference), measuredFlow (airflow)',
  ],
  'duct-leakage-total': [
    'system, final: duct-tester',
    'signed ductPressure pressureDifference -100 to 100',
    'optional signed fanPressure pressureDifference -1000 to 1000',
    'optional flow airflow 0 to 2000',
    'optional choice range instrument-range',
    'confirm airHandlerOff filterOut registersSealed outdoorIntakeSealed openToOutdoors',
    'gives leakageAt25 (airflow), reachedPressure (pressureDifference), measuredFlow (airflow)',
  ],
  'duct-leakage-outdoors': [
    'system, final: duct-tester',
    'signed housePressure pressureDifference -100 to 100',
    'signed ductToHousePressure pressureDifference -100 to 100',
    'optional signed fanPressure pressureDifference -1000 to 1000',
    'optional flow airflow 0 to 2000',
    'optional choice range instrument-range',
    'confirm airHandlerOff filterOut registersSealed outdoorIntakeSealed houseClosed combustionOff',
    'gives leakageAt25 (airflow), reachedPressure (pressureDifference), measuredFlow (airflow)',
  ],
  'ventilator-duct-leakage': [
    'ventilator, final: duct-tester',
    'signed ductPressure pressureDifference -100 to 100',
    'optional signed fanPressure pressureDifference -1000 to 1000',
    'optional flow airflow 0 to 2000',
    'optional choice range instrument-range',
    'confirm unitOff filtersOut hoodsSealed terminalsSealed',
    'gives leakageAt25 (airflow), reachedPressure (pressureDifference), measuredFlow (airflow)',
  ],
  'envelope-leakage': [
    'house, final: blower-door',
    'signed baselineBefore pressureDifference -25 to 25',
    'optional signed baselineAfter pressureDifference -25 to 25',
    'rows 1 to 40',
    'signed housePressure pressureDifference -120 to 120',
    'optional signed fanPressure pressureDifference -1000 to 1000',
    'optional flow airflow 1 to 20000',
    'optional choice range instrument-range',
    'confirm houseClosed fansOff ventilationSealed combustionOff',
    'gives flowAt50 (airflow), reachedPressure (pressureDifference), exponent (ratio), flowAt1 (airflow), rSquared (ratio)',
  ],
  'whole-house-ventilation': [
    'ventilator, final: exhaust-flow-meter flow-hood powered-flow-hood',
    'rows 1 to 40',
    'flow airflow 0 to 2000',
    'choice airstream supply|exhaust',
    'confirm normalSetting filtersIn',
    'gives supplyFlow (airflow), exhaustFlow (airflow)',
  ],
  'kitchen-exhaust': [
    'kitchen, final: exhaust-flow-meter flow-hood powered-flow-hood',
    'choice mode intermittent|continuous',
    'rows 1 to 12',
    'flow airflow 0 to 2000',
    'choice deviceRange widest|middle|narrowest|single',
    'confirm fanOn cooktopCold ductsOutdoors',
    'gives flow (airflow), intermittentFlow (airflow), continuousFlow (airflow)',
  ],
  'bath-exhaust': [
    'bath, final: exhaust-flow-meter flow-hood powered-flow-hood',
    'choice mode intermittent|continuous',
    'rows 1 to 12',
    'flow airflow 0 to 2000',
    'choice deviceRange widest|middle|narrowest|single',
    'confirm fanOn grilleClean doorClosed',
    'gives flow (airflow), intermittentFlow (airflow), continuousFlow (airflow)',
  ],
  'ambient-carbon-monoxide': [
    'house, final: ambient-co-monitor combustion-analyzer',
    'carbonMonoxide concentration 0 to 5000',
    'optional outdoorCarbonMonoxide concentration 0 to 5000',
    'confirm zeroedOutdoors',
    'gives carbonMonoxide (concentration), outdoorCarbonMonoxide (concentration)',
  ],
  spillage: [
    'appliance, final: stopwatch or none',
    'seconds duration 0 to 1800',
    'choice vent cold|warm',
    'choice ended stopped|still-spilling',
    'confirm worstCase',
    'gives stillSpilling (count), spillageTime (duration), coldVentSpillageTime (duration), warmVentSpillageTime (duration)',
  ],
  depressurization: [
    'house, final: manometer',
    'signed baseline pressureDifference -100 to 100',
    'signed worstCase pressureDifference -100 to 100',
    'confirm houseClosed worstCaseFound',
    'gives depressurization (pressureDifference), netPressure (pressureDifference)',
  ],
  'flue-carbon-monoxide': [
    'appliance, final: combustion-analyzer',
    'carbonMonoxide concentration 0 to 20000',
    'oxygen share 0 to 21',
    'confirm fiveMinutes ventingWorks beforeDilution',
    'gives carbonMonoxideAirFree (concentration), carbonMonoxideAsMeasured (concentration)',
  ],
};

it.each(Object.entries(contract))('%s takes what it took', (key, lines) => {
  expect(outline(testDefinition(key as TestKey))).toEqual(lines);
});

function outline(test: TestDefinition): string[] {
  const optional = test.instrumentRequired ? '' : ' or none';
  const rows = test.rows;
  return [
    `${test.subject}, ${test.stage}: ${test.instrumentKinds.join(' ')}${optional}`,
    ...test.fields.map(field),
    ...test.choices.map(choice),
    ...(rows
      ? [`rows ${rows.min} to ${rows.max}`, ...rows.fields.map(field), ...rows.choices.map(choice)]
      : []),
    `confirm ${test.confirmations.map(({ key }) => key).join(' ')}`.trim(),
    `gives ${test.gives.map(({ key, quantity }) => `${key} (${quantity})`).join(', ')}`,
  ];
}

function field({ key, quantity, min, max, required, signed }: FieldDefinition): string {
  return `${required ? '' : 'optional '}${signed ? 'signed ' : ''}${key} ${quantity} ${min} to ${max}`;
}

function choice({ key, required, from, options }: ChoiceDefinition): string {
  const offered = from === 'options' ? options.map(({ value }) => value).join('|') : from;
  return `${required ? '' : 'optional '}choice ${key} ${offered}`;
}
