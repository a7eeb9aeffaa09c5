import { airFreeCarbonMonoxide, oxygenInAir } from '../combustion/air-free.ts';
import { defineTest } from '../entry/define-test.ts';
import { type Entry, required } from '../entry/part.ts';
import { gave, refused } from '../outcome.ts';
import type { TestOutcome } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';
import { plainNumber } from '../units/round.ts';
import { type Given, measured } from './measured.ts';

const gives = [
  { key: 'carbonMonoxideAirFree', label: 'Carbon monoxide, air-free', quantity: 'concentration' },
  { key: 'carbonMonoxideAsMeasured', label: 'Carbon monoxide, as measured', quantity: 'concentration' },
] as const satisfies Given[];

/**
 * Carbon monoxide in an appliance's flue gas (ppm), as measured and air-free (`airFreeCarbonMonoxide`).
 * Refused: oxygen of 20 % and more. Five minutes of main burner: IFGC Appendix D.6 as seen in the IRC's
 * Appendix D (docs/sources.md, Measurement 5).
 */
export const flueCarbonMonoxide = defineTest({
  key: 'flue-carbon-monoxide',
  how: 'After the main burner has run for five minutes and the venting is seen to work, put the analyser’s probe into the flue gas ahead of any dilution air and read carbon monoxide and oxygen together.',
  instrumentKinds: ['combustion-analyzer'],
  instrumentRequired: true,
  fields: [
    {
      key: 'carbonMonoxide',
      label: 'Carbon monoxide as measured',
      quantity: 'concentration',
      min: 0,
      max: 20000,
      required: true,
      signed: false,
    },
    { key: 'oxygen', label: 'Oxygen', quantity: 'share', min: 0, max: 21, required: true, signed: false },
  ],
  choices: [],
  rows: null,
  confirmations: [
    { key: 'fiveMinutes', label: 'The main burner has run for at least five minutes' },
    { key: 'ventingWorks', label: 'The venting was seen to work' },
    { key: 'beforeDilution', label: 'The probe is in the flue gas ahead of any dilution air' },
  ],
  gives: [...gives],
  work: inTheFlue,
});

function inTheFlue(entry: Entry): TestOutcome {
  const ppm = required(entry, 'carbonMonoxide');
  const oxygen = required(entry, 'oxygen');
  const found = airFreeCarbonMonoxide(ppm, oxygen);
  if (!found.ok) return refused(found.problem);
  const airFree = found.value;
  const u = standardUncertainty(entry.instrument, ppm, 'concentration');
  const factor = oxygenInAir / (oxygenInAir - oxygen);
  const working = `${plainNumber(ppm)} × ${oxygenInAir} / (${oxygenInAir} − ${plainNumber(oxygen)})`;
  return gave(
    [measured(gives[0], airFree, u === null ? null : u * factor), measured(gives[1], ppm, u)],
    [{ label: gives[0].label, working, value: airFree, unit: 'ppm' }],
  );
}
