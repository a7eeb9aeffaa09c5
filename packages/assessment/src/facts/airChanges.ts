import { airChangesPerHour, plainNumber } from '@countercheck/measurement';
import { derivedResults, type Measured } from '@countercheck/rules';

/**
 * The envelope result with air changes per hour at 50 Pa added, from the house's conditioned volume.
 * Unchanged when the volume is not above zero or the reading gives no flow at 50 Pa. Never throws.
 * @param volume ft³
 */
export function withAirChanges(measured: Measured, volume: number): Measured {
  const flow = measured.values['flowAt50'];
  if (!flow) return measured;
  const rate = airChangesPerHour(flow.value, volume);
  if (!rate.ok) return measured;
  const [result] = derivedResults['envelope-leakage']!;
  // The volume is taken as exact, so the uncertainty scales with the flow.
  const scaled = (flowPart: number | null) => (flowPart === null ? null : (flowPart * 60) / volume);
  const value = {
    ...result!,
    value: rate.value,
    unit: '1/h' as const,
    standardUncertainty: scaled(flow.standardUncertainty),
    expandedUncertainty: scaled(flow.expandedUncertainty),
    coverageFactor: flow.coverageFactor,
  };
  const working = `${plainNumber(flow.value)} × 60 / ${plainNumber(volume)}`;
  return {
    ...measured,
    values: { ...measured.values, airChangesAt50: value },
    steps: [...measured.steps, { label: 'Air changes at 50 Pa', working, value: rate.value, unit: '1/h' }],
  };
}
