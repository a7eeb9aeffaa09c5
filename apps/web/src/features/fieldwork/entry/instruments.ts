import type { Instrument, Reading } from '@countercheck/contracts';
import {
  calibrationState,
  type CalibrationState,
  type InstrumentFacts,
  type InstrumentKind,
  type TestDefinition,
} from '@countercheck/measurement';
import { datesShown } from '../../../lib/dates.ts';
import { factsOn } from '../../../lib/instrument-facts.ts';

export interface OfferedInstrument {
  instrument: Instrument;
  facts: InstrumentFacts;
  state: CalibrationState;
}

/** An instrument as its case says it. */
export const instrumentName = ({
  instrument,
  facts,
}: Pick<OfferedInstrument, 'instrument' | 'facts'>): string => `${facts.label} (${instrument.serial})`;

/** Whether a test is read from a display that moves with the wind, so that a time is averaged over. */
export const movingDisplays = ({ instrumentKinds }: Pick<TestDefinition, 'instrumentKinds'>): boolean =>
  instrumentKinds.some((kind) => kind === 'manometer' || kind === 'blower-door' || kind === 'duct-tester');

/** The instruments a test can be done with, those that count first; one taken out of use is not offered. */
export function offeredInstruments(
  instruments: readonly Instrument[],
  kinds: readonly InstrumentKind[],
  day: string,
): OfferedInstrument[] {
  return instruments
    .filter(({ kind, active }) => active && kinds.includes(kind))
    .map((instrument) => {
      const facts = factsOn(instrument, day);
      const state = calibrationState(facts, day);
      return { instrument, facts, state: { ...state, words: datesShown(state.words) } };
    })
    .sort(
      (a, b) => Number(b.state.counts) - Number(a.state.counts) || a.facts.label.localeCompare(b.facts.label),
    );
}

/** The one already in the rater's hand: used last on this visit, else the only one that counts. */
export function usualInstrument(
  offered: readonly OfferedInstrument[],
  readings: readonly Reading[],
): string | null {
  const usable = offered.filter(({ state }) => state.counts).map(({ facts }) => facts.id);
  const last = [...readings]
    .sort((a, b) => b.takenAt.localeCompare(a.takenAt))
    .find(({ instrument }) => instrument && usable.includes(instrument.id));
  return last?.instrument?.id ?? (usable.length === 1 ? (usable[0] ?? null) : null);
}
