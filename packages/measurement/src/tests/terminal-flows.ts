import { type EntryPart, required } from '../entry/part.ts';
import { type FlowSum, sumFlows } from '../flow/sum.ts';
import type { FieldDefinition, InstrumentFacts, InstrumentKind } from '../types.ts';
import { standardUncertainty } from '../uncertainty.ts';

/** Devices that read the flow of a terminal. */
export const terminalInstruments: readonly InstrumentKind[] = [
  'exhaust-flow-meter',
  'flow-hood',
  'powered-flow-hood',
];

/** The flow through one terminal or inlet, cfm. Zero is plausible: a fan may be dead or its duct blocked. */
export const terminalFlowField: FieldDefinition = {
  key: 'flow',
  label: 'Flow',
  quantity: 'airflow',
  min: 0,
  max: 2000,
  required: true,
  signed: false,
};

/**
 * The sum of the flows of rows read with one instrument, cfm; its uncertainties add (`sumFlows`, shared).
 * Never throws for rows that passed `readEntry`.
 */
export function sumOfRows(rows: EntryPart[], instrument: InstrumentFacts | null, label: string): FlowSum {
  const parts = rows.map((row) => {
    const flow = required(row, 'flow');
    return { label: row.label, flow, standardUncertainty: standardUncertainty(instrument, flow, 'airflow') };
  });
  return sumFlows(parts, 'shared', label);
}
