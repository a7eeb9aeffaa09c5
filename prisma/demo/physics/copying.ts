import type { RawReading, TestKey } from '@countercheck/measurement';
import type { Random } from '../random.ts';
import { fanReading, toStep, type CarriedInstrument } from './instrument.ts';

/** How far from the installer's figure somebody writes who does not measure: enough to look like a reading. */
const jitter = 0.006;

/**
 * The reading of somebody who writes down the installer's figure, a little changed, where a figure was
 * reported; any other stays as it was measured.
 */
export function copyFigure(
  test: TestKey,
  measured: RawReading,
  reported: Record<string, number>,
  instrument: CarriedInstrument,
  random: Random,
): RawReading {
  const near = (figure: number | undefined, step: number) =>
    figure === undefined ? null : toStep(figure * (1 + random.normal(0, jitter)), step);
  const values = (changed: Record<string, number>) => ({
    ...measured,
    values: { ...measured.values, ...changed },
  });
  const shared = (total: number | null) => {
    if (total === null) return measured;
    const read = measured.rows.map((row) => row.values['flow'] ?? 0);
    const sum = read.reduce((all, flow) => all + flow, 0);
    const flows = read.map((flow) => Math.round((flow / sum) * total));
    flows[0] = total - flows.slice(1).reduce((all, flow) => all + flow, 0);
    return {
      ...measured,
      rows: measured.rows.map((row, i) => ({ ...row, values: { ...row.values, flow: flows[i] ?? 0 } })),
    };
  };
  switch (test) {
    case 'supply-static': {
      const pressure = near(reported['supplyStatic'], 0.001);
      return pressure === null ? measured : values({ pressure });
    }
    case 'return-static': {
      const pressure = near(reported['returnStatic'], 0.001);
      return pressure === null ? measured : values({ pressure: -pressure });
    }
    case 'duct-leakage-total': {
      const flow = near(reported['ductLeakageAt25'], 0.1);
      const shown = flow === null ? null : fanReading(flow, { ...instrument, gain: 0 }, random);
      if (!shown) return measured;
      return {
        ...values({ ductPressure: 25, fanPressure: shown.pressure }),
        choices: { ...measured.choices, range: shown.range },
      };
    }
    case 'whole-house-ventilation':
    case 'kitchen-exhaust':
    case 'bath-exhaust':
      return shared(near(reported['exhaustFlow'], 1));
    default:
      return measured;
  }
}
