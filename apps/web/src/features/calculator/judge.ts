import { assess, type HouseFile } from '@countercheck/assessment';
import {
  testOutlines,
  type InstrumentFacts,
  type RawReading,
  type SubjectKind,
} from '@countercheck/measurement';
import type { Evaluate, ItemVerdict } from '@countercheck/rules';
import { combustion, type CalculatorState } from './state.ts';

/** The id of the one thing of each kind that the calculator's house has. */
const subjectIds: Record<SubjectKind, string> = {
  house: 'house',
  system: 'system',
  bedroom: 'bedroom',
  bath: 'bath',
  kitchen: 'kitchen',
  ventilator: 'ventilator',
  appliance: 'appliance',
};

const known = (value: number | null) => (value !== null && Number.isFinite(value) ? value : 0);

interface Reading {
  raw: RawReading;
  instrument: InstrumentFacts | null;
  day: string;
}

/** A house made of what the test asks for and no more, so that no other reading is waited for. */
function houseFor(
  { test, facts, reported }: CalculatorState,
  { raw, instrument, day }: Reading,
  decisionRule?: HouseFile['decisionRule'],
): HouseFile {
  const { subject } = testOutlines[test];
  const only = <T>(kinds: readonly SubjectKind[], part: T) => (kinds.includes(subject) ? [part] : []);
  const room = (kind: 'bedroom' | 'bath' | 'kitchen', label: string) =>
    only([kind], { id: subjectIds[kind], label, kind, supplyFlowCfm: null, volumeFt3: null });
  const ownDucts = test === 'ventilator-duct-leakage';
  const subjectId = subjectIds[subject];
  return {
    house: {
      conditionedFloorAreaFt2: known(facts.floorArea),
      conditionedVolumeFt3: known(facts.volume),
      bedrooms: 3,
      storeys: 1,
      climateZone: facts.climateZone,
      foundation: 'slab',
      ventilationKind: ownDucts ? 'balanced' : subject === 'ventilator' ? facts.ventilationKind : 'none',
      ventilatorDucted: ownDucts,
      designedVentilationCfm: facts.designedVentilation,
    },
    // Rooms are judged only where a ducted system moves air into them.
    systems: only(['system', 'bedroom'], {
      id: subjectIds.system,
      label: 'System',
      hasDucts: true,
      ductsInside: facts.ductsInside,
      designAirflowCfm: null,
      airHandlerAtRough: true,
    }),
    rooms: [...room('bedroom', 'Bedroom'), ...room('bath', 'Bath'), ...room('kitchen', 'Kitchen')],
    // The combustion tests of a house concern it only while something in it burns.
    appliances: only(combustion.includes(test) ? [subject] : [], {
      id: subjectIds.appliance,
      label: 'Appliance',
      kind: facts.appliance,
      fuel: facts.fuel,
      venting: facts.venting,
    }),
    reported: { [subjectId]: reported },
    hidden: [],
    decisionRule,
    readings: [{ id: 'reading', test, subjectId, raw, instrument, takenOn: day, visitId: 'calculator' }],
  };
}

/** The items that this test serves, judged on that house; those that concern it come first. */
export function judge(
  state: CalculatorState,
  reading: Reading,
  evaluate: Evaluate,
  decisionRule?: HouseFile['decisionRule'],
): ItemVerdict[] {
  const { verdicts } = assess(houseFor(state, reading, decisionRule), evaluate).scorecard;
  const served = verdicts.filter(({ tests }) => tests.includes(state.test));
  const applying = served.filter(({ status }) => status !== 'not-applicable');
  return applying.length > 0 ? applying : served;
}
