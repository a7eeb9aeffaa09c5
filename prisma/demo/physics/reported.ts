import type { Random } from '../random.ts';
import { toStep } from './instrument.ts';
import type { Truth } from './truth.ts';

/** The installer's own reading: his instrument's error, rounded as he writes it; now and then too kind. */
function his(value: number, random: Random, step: number, kind = 1): number {
  return Math.max(step, toStep(value * kind * (1 + random.normal(0, 0.02)), step));
}

export interface ReportedFigures {
  systems: Record<string, number>[];
  ventilator: Record<string, number>;
  kitchen: Record<string, number>;
  baths: Record<string, number>[];
  bedrooms: Record<string, number>[];
}

/** What the installer signs for. `flattery` makes his statics that much lower than the truth. */
export function report(truth: Truth, random: Random, flattery: number): ReportedFigures {
  return {
    systems: truth.systems.map((system) => ({
      supplyStatic: his(system.supplyStatic, random, 0.005, 1.02 - flattery),
      returnStatic: his(system.returnStatic, random, 0.005, 1.02 - flattery),
      airflow: his(system.airflow, random, 10),
      ductLeakageAt25: his(system.leakage, random, 1, 0.97),
      fanPower: his(system.power, random, 5),
    })),
    ventilator: {
      supplyFlow: his(truth.ventilationSupply, random, 1),
      exhaustFlow: his(truth.ventilationExhaust, random, 1),
    },
    kitchen: {
      exhaustFlow: his(
        truth.kitchenInlets.reduce((sum, flow) => sum + flow, 0),
        random,
        1,
      ),
    },
    baths: truth.baths.map((flow) => ({ exhaustFlow: his(flow, random, 1) })),
    bedrooms: truth.bedrooms.map(({ flow }) => ({ supplyFlow: his(flow, random, 1) })),
  };
}
