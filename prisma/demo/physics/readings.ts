import { testDefinition, type RawReading, type TestKey } from '@countercheck/measurement';
import type { DemoPlan } from '../plans.ts';
import type { Random } from '../random.ts';
import { fanReading, show, toStep, type CarriedInstrument } from './instrument.ts';
import { bedroomPressure, type Truth } from './truth.ts';

/** What is measured: a test on the n-th subject of its kind. */
export interface Task {
  test: TestKey;
  /** position among the subjects of the kind */
  index: number;
}

type Part = Partial<Pick<RawReading, 'values' | 'choices' | 'rows'>>;

const row = (label: string, values: Record<string, number>, choices: Record<string, string>) => ({
  label,
  values,
  choices,
});

/** A fan's reading as its pressure on a range; small flows under every range are read direct. */
function fanPart(
  flow: number,
  instrument: CarriedInstrument,
  random: Random,
): { values: Record<string, number>; choices: Record<string, string> } {
  const seen = fanReading(flow, instrument, random);
  if (!seen) return { values: { flow: show(flow, instrument, random) }, choices: {} };
  return { values: { fanPressure: seen.pressure }, choices: { range: seen.range } };
}

function ducts(
  truth25: number,
  instrument: CarriedInstrument,
  random: Random,
  pressureKey: string,
  extra: Record<string, number> = {},
): Part {
  const pressure = toStep(random.normal(25.1, 0.25), 0.1);
  const fan = fanPart(truth25 * (pressure / 25) ** 0.6, instrument, random);
  return { values: { [pressureKey]: pressure, ...extra, ...fan.values }, choices: fan.choices };
}

function envelope(truth: Truth, instrument: CarriedInstrument, random: Random): Part {
  const baseline = toStep(random.normal(-0.8, 0.5), 0.1);
  const points = random.chance(0.5) ? [60, 50, 40, 30, 20, 15] : [50];
  const rows = points.map((target, i) => {
    const induced = target + random.normal(0, 0.4);
    const flow = truth.flow50 * (induced / 50) ** truth.exponent;
    const fan = fanPart(flow, instrument, random);
    return row(
      `Point ${i + 1}`,
      { housePressure: toStep(-induced + baseline, 0.1), ...fan.values },
      fan.choices,
    );
  });
  return {
    values: { baselineBefore: baseline, baselineAfter: toStep(baseline + random.normal(0, 0.2), 0.1) },
    rows,
  };
}

function ventilation(truth: Truth, plan: DemoPlan, instrument: CarriedInstrument, random: Random): Part {
  const exhaustShares = [0.55, 0.45];
  const exhaust = exhaustShares.map((share, i) =>
    row(
      i === 0 ? 'Hall bath' : 'Laundry',
      { flow: show(truth.ventilationExhaust * share, instrument, random) },
      { airstream: 'exhaust' },
    ),
  );
  const supply = row(
    'Outdoor hood',
    { flow: show(truth.ventilationSupply, instrument, random) },
    { airstream: 'supply' },
  );
  return { rows: plan.ventilationKind === 'balanced' ? [supply, ...exhaust] : exhaust };
}

function part(task: Task, truth: Truth, plan: DemoPlan, instrument: CarriedInstrument, random: Random): Part {
  const system = truth.systems[task.index] ?? truth.systems[0];
  const room = truth.bedrooms[task.index] ?? truth.bedrooms[0];
  if (!system || !room) return {};
  switch (task.test) {
    case 'supply-static':
      return { values: { pressure: Math.max(0.001, show(system.supplyStatic, instrument, random, 0.001)) } };
    case 'return-static':
      return { values: { pressure: -Math.max(0.001, show(system.returnStatic, instrument, random, 0.001)) } };
    case 'bedroom-pressure':
      return { values: { pressure: show(bedroomPressure(room), instrument, random) } };
    case 'bedroom-relief': {
      const undercut = row('Opening 1', { width: 30, height: 0.75 }, { kind: 'door-undercut' });
      const grille = row(
        'Opening 2',
        { freeArea: toStep(Math.max(1, room.freeArea - 22.5), 1) },
        { kind: 'grille' },
      );
      return { values: { supplyFlow: show(room.flow, instrument, random) }, rows: [undercut, grille] };
    }
    case 'duct-leakage-rough':
    case 'duct-leakage-total':
      return ducts(system.leakage, instrument, random, 'ductPressure');
    case 'duct-leakage-outdoors':
      return ducts(system.leakage * system.outdoorShare, instrument, random, 'housePressure', {
        ductToHousePressure: toStep(random.normal(0, 0.1), 0.1),
      });
    case 'ventilator-duct-leakage':
      return ducts(truth.ventilatorLeakage, instrument, random, 'ductPressure');
    case 'envelope-leakage':
      return envelope(truth, instrument, random);
    case 'whole-house-ventilation':
      return ventilation(truth, plan, instrument, random);
    case 'kitchen-exhaust':
      return {
        choices: { mode: 'intermittent' },
        rows: truth.kitchenInlets.map((flow, i) =>
          row(
            i === 0 ? 'Left' : 'Right',
            { flow: show(flow, instrument, random) },
            { deviceRange: 'widest' },
          ),
        ),
      };
    case 'bath-exhaust':
      return {
        choices: { mode: 'intermittent' },
        rows: [
          row(
            'Inlet 1',
            { flow: show(truth.baths[task.index] ?? 60, instrument, random) },
            { deviceRange: random.chance(0.8) ? 'widest' : 'middle' },
          ),
        ],
      };
    case 'ambient-carbon-monoxide':
      return {
        values: { carbonMonoxide: show(truth.ambientCo, instrument, random), outdoorCarbonMonoxide: 0 },
      };
    case 'spillage':
      return {
        values: { seconds: Math.round(truth.spillageSeconds) },
        choices: { vent: 'cold', ended: 'stopped' },
      };
    case 'depressurization': {
      const baseline = toStep(random.normal(-0.4, 0.3), 0.1);
      return { values: { baseline, worstCase: toStep(baseline - truth.depressurization, 0.1) } };
    }
    case 'flue-carbon-monoxide':
      return {
        values: {
          carbonMonoxide: show(truth.flueCo, instrument, random),
          oxygen: toStep(truth.flueOxygen, 0.1),
        },
      };
  }
}

/** The raw reading a rater would write down for the task, every confirmation ticked. */
export function readTask(
  task: Task,
  truth: Truth,
  plan: DemoPlan,
  instrument: CarriedInstrument,
  random: Random,
): RawReading {
  const { values = {}, choices = {}, rows = [] } = part(task, truth, plan, instrument, random);
  const confirmations = Object.fromEntries(
    testDefinition(task.test).confirmations.map(({ key }) => [key, true]),
  );
  return { values, choices, rows, confirmations };
}
