import type { Random } from '../random.ts';
import type { DemoPlan } from '../plans.ts';

/**
 * What a house really is, before anybody measures it. Medians and spreads are a scenario of our own: common
 * practice of new houses in the trade, no published source.
 */
export interface Truth {
  /** envelope: flow (cfm) at 50 Pa and exponent */
  flow50: number;
  exponent: number;
  /** by system: duct leakage at 25 Pa (cfm), the share of it to outdoors, statics (in. w.c.), airflow (cfm), fan power (W) */
  systems: {
    leakage: number;
    outdoorShare: number;
    supplyStatic: number;
    returnStatic: number;
    airflow: number;
    power: number;
  }[];
  ventilatorLeakage: number;
  ventilationSupply: number;
  ventilationExhaust: number;
  /** by bedroom: supply flow (cfm) and the free area (in²) back to the main body */
  bedrooms: { flow: number; freeArea: number }[];
  baths: number[];
  kitchenInlets: number[];
  ambientCo: number;
  spillageSeconds: number;
  depressurization: number;
  flueCo: number;
  flueOxygen: number;
}

/** One house by the trades of one builder; `workmanship` shifts every quantity by that many spreads. */
export function buildHouse(plan: DemoPlan, workmanship: number, random: Random): Truth {
  const worse = (median: number, spread: number) =>
    random.lognormal(median, spread) * Math.exp(workmanship * Math.log(spread) * 0.5);
  const leakagePer100 = worse(3.7, 1.38);
  const share = 1 / plan.parts.systems.length;
  return {
    flow50: (worse(3.0, 1.22) * plan.conditionedVolume) / 60,
    exponent: random.normal(0.65, 0.03),
    systems: plan.parts.systems.map((system) => {
      const airflow = system.designAirflow * random.normal(0.98, 0.05);
      const resistance = random.lognormal(1, 1.25) * (airflow / system.designAirflow) ** 2;
      return {
        leakage: ((leakagePer100 * plan.conditionedFloorArea) / 100) * share * random.lognormal(0.92, 1.15),
        outdoorShare: system.ductsInside ? random.between(0.12, 0.35) : random.between(0.45, 0.8),
        supplyStatic: 0.11 * resistance,
        returnStatic: 0.14 * resistance * random.lognormal(1, 1.1),
        airflow,
        power: airflow * random.normal(0.42, 0.05),
      };
    }),
    ventilatorLeakage: plan.ventilatorDucted ? worse(9, 1.4) : 0,
    ventilationSupply: plan.designedVentilation * random.normal(1.09, 0.035),
    ventilationExhaust: plan.designedVentilation * random.normal(1.08, 0.035),
    bedrooms: plan.parts.rooms
      .filter(({ kind }) => kind === 'bedroom')
      .map(({ supplyFlow }) => {
        const flow = (supplyFlow ?? 80) * random.normal(1, 0.06);
        return { flow, freeArea: flow * random.lognormal(0.78, 1.22) };
      }),
    baths: plan.parts.rooms
      .filter(({ kind }) => kind === 'bath')
      .map(() => 62 * random.lognormal(1, 1.09) * Math.exp(-0.04 * workmanship)),
    kitchenInlets: [random.normal(58, 3.5), random.normal(56, 3.5)],
    ambientCo: Math.max(0, random.normal(1.5, 1.2)),
    spillageSeconds: Math.max(0, random.normal(18, 9)),
    depressurization: Math.max(0.1, random.normal(1.2, 0.35)),
    flueCo: Math.max(1, random.normal(28, 12)),
    flueOxygen: random.between(6, 10),
  };
}

/** Pressure (Pa) of a closed bedroom: its supply flow leaves through its free area, Q = 1.07 · A · √P. */
export function bedroomPressure({ flow, freeArea }: { flow: number; freeArea: number }): number {
  return (flow / (1.07 * freeArea)) ** 2;
}

/** What the trade does when it comes back: the weak quantities brought well inside their usual limits. */
export function correct(
  truth: Truth,
  plan: DemoPlan,
  statics: { supplyStatic: number; returnStatic: number }[],
  random: Random,
): Truth {
  const total = ((plan.conditionedFloorArea / 100) * 4.2) / plan.parts.systems.length;
  const within = (value: number, most: number) => Math.min(value, most * random.between(0.72, 0.9));
  return {
    ...truth,
    flow50: within(truth.flow50, (3.6 * plan.conditionedVolume) / 60),
    systems: truth.systems.map((system, i) => {
      // The resistance is brought down to what was reported: dampers, filter, a kinked duct.
      const supplyStatic = Math.min(
        system.supplyStatic,
        (statics[i]?.supplyStatic ?? Infinity) * random.between(0.97, 1.04),
      );
      const returnStatic = Math.min(
        system.returnStatic,
        (statics[i]?.returnStatic ?? Infinity) * random.between(0.97, 1.04),
      );
      const leakage = within(system.leakage, total);
      return {
        ...system,
        supplyStatic,
        returnStatic,
        leakage,
        outdoorShare: Math.min(system.outdoorShare, 0.5),
      };
    }),
    ventilatorLeakage: within(truth.ventilatorLeakage, 12),
    ventilationSupply: plan.designedVentilation * random.normal(1.09, 0.01),
    ventilationExhaust: plan.designedVentilation * random.normal(1.09, 0.01),
    bedrooms: truth.bedrooms.map((room) => ({
      ...room,
      freeArea: Math.max(room.freeArea, room.flow * random.between(0.68, 0.9)),
    })),
    baths: truth.baths.map((flow) => Math.max(flow, random.between(57, 66))),
    kitchenInlets: truth.kitchenInlets.map((flow) => Math.max(flow, random.between(54, 60))),
    depressurization: Math.min(truth.depressurization, random.between(0.6, 1.3)),
    spillageSeconds: Math.min(truth.spillageSeconds, random.between(5, 30)),
  };
}
