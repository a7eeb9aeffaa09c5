import { testDefinition, type InstrumentKind, type TestKey } from '@countercheck/measurement';
import type { HouseFile } from '@countercheck/assessment';
import { emptyForm, type EnteredForm } from '../../components/reading-form/index.ts';
import { madeUp } from './made-up.ts';

/** One range of a made-up flow device: flow = c × pressure ^ n; null while it is not filled in. */
export interface MadeUpRange {
  range: string;
  c: number | null;
  n: number | null;
  minPa: number | null;
  maxPa: number | null;
}

/** An instrument that belongs to nobody; its accuracy is in its own unit. */
export interface MadeUpInstrument {
  kind: InstrumentKind;
  accuracyPercent: number | null;
  accuracyAbsolute: number | null;
  resolution: number | null;
  ranges: MadeUpRange[];
}

/** Tests whose limits look at an appliance. */
export const combustion: readonly TestKey[] = [
  'ambient-carbon-monoxide',
  'spillage',
  'depressurization',
  'flue-carbon-monoxide',
];

type Appliance = HouseFile['appliances'][number];

/** The few facts of a house that one test's limits may ask for; numbers in stored units. */
export interface HouseFacts {
  floorArea: number | null;
  volume: number | null;
  climateZone: string;
  ductsInside: boolean;
  ventilationKind: HouseFile['house']['ventilationKind'];
  designedVentilation: number | null;
  appliance: Appliance['kind'];
  fuel: Appliance['fuel'];
  venting: Appliance['venting'];
}

/** Everything on the calculator's page that a link carries. */
export interface CalculatorState {
  test: TestKey;
  form: EnteredForm;
  instrument: MadeUpInstrument;
  facts: HouseFacts;
  /** the installer's figures, by their key */
  reported: Record<string, number | null>;
  /** key and version, `common-practice 2026.1`; null for none, empty for the one that comes first */
  ruleSet: string | null;
}

const usualFacts: HouseFacts = {
  floorArea: 2400,
  volume: 19_200,
  climateZone: '4A',
  ductsInside: false,
  ventilationKind: 'exhaust',
  designedVentilation: 60,
  appliance: 'water-heater',
  fuel: 'natural-gas',
  venting: 'atmospheric',
};

export function begin(test: TestKey): CalculatorState {
  const definition = testDefinition(test);
  return {
    test,
    form: emptyForm(definition),
    instrument: madeUp(definition.instrumentKinds[0] ?? 'manometer'),
    facts: usualFacts,
    reported: {},
    ruleSet: '',
  };
}

/** Another test on the same house and against the same rules; what was typed for the former one goes. */
export function withTest(state: CalculatorState, test: TestKey): CalculatorState {
  const fresh = begin(test);
  const kept = testDefinition(test).instrumentKinds.includes(state.instrument.kind);
  return {
    ...state,
    test,
    form: fresh.form,
    reported: {},
    ...(kept ? {} : { instrument: fresh.instrument }),
  };
}
