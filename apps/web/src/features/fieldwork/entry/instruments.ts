import type { Instrument, Reading } from '@countercheck/contracts';
import {
  calibrationState,
  type CalibrationState,
  type InstrumentFacts,
  type InstrumentKind,
} from '@countercheck/measurement';

/** An instrument as the measurement package sees it, with the calibration in force on a day. */
export function factsOn(instrument: Instrument, day: string): InstrumentFacts {
  const inForce = [...instrument.calibrations]
    .sort((a, b) => b.calibratedOn.localeCompare(a.calibratedOn))
    .find(({ calibratedOn }) => calibratedOn <= day);
  return {
    id: instrument.id,
    kind: instrument.kind,
    label: instrument.label,
    accuracyPercent: instrument.accuracyPercent,
    accuracyAbsolute: instrument.accuracyAbsolute,
    resolution: instrument.resolution,
    calibratedOn: inForce?.calibratedOn ?? null,
    dueOn: inForce?.dueOn ?? null,
    ranges: inForce?.ranges ?? [],
  };
}

export interface OfferedInstrument {
  instrument: Instrument;
  facts: InstrumentFacts;
  state: CalibrationState;
}

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
      return { instrument, facts, state: calibrationState(facts, day) };
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
