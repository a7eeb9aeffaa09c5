import type { InstrumentFacts, RawReading, TestKey } from '@countercheck/measurement';
import type { DecisionRule } from '@countercheck/rules';

/** One house as the assessment sees it: plain data, the same on the server, in the browser and in a replay. */
export interface HouseFile {
  house: {
    conditionedFloorAreaFt2: number;
    conditionedVolumeFt3: number;
    bedrooms: number;
    storeys: number;
    climateZone: string;
    foundation: string;
    ventilationKind: 'none' | 'exhaust' | 'supply' | 'balanced';
    /** the ventilator has ducts of its own that are part of total leakage */
    ventilatorDucted: boolean;
    designedVentilationCfm: number | null;
  };
  systems: {
    id: string;
    label: string;
    hasDucts: boolean;
    ductsInside: boolean;
    designAirflowCfm: number | null;
    /** the air handler was in place when the ducts were tested at rough-in; null or absent when not known */
    airHandlerAtRough?: boolean | null;
  }[];
  rooms: {
    id: string;
    label: string;
    kind: 'bedroom' | 'bath' | 'kitchen';
    supplyFlowCfm: number | null;
    volumeFt3: number | null;
  }[];
  appliances: { id: string; label: string; kind: ApplianceKind; fuel: Fuel; venting: Venting }[];
  /** the signed figures in force, by subject id; figures not given are null */
  reported: ReportedFigures;
  /** which revision `reported` is; absent where figures were never opened again after they had been frozen */
  reportedRevision?: number | undefined;
  /** what was in force before figures were opened again for a reinspection, oldest first */
  earlierFigures?: { revision: number; figures: ReportedFigures }[] | undefined;
  /** subjects (id) × tests whose reported figures are still hidden from the rater (blind second reading) */
  hidden: { test: TestKey; subjectId: string }[];
  /** how the company decides results near a limit; absent means simple acceptance */
  decisionRule?: DecisionRule | undefined;
  readings: FileReading[];
}

/** Figures that an installer signed, by subject id and figure, in stored units. */
export type ReportedFigures = Record<string, Record<string, number | null>>;

export const applianceKinds = [
  'furnace',
  'boiler',
  'water-heater',
  'fireplace',
  'room-heater',
  'range',
  'dryer',
] as const;
export type ApplianceKind = (typeof applianceKinds)[number];
export const fuels = ['natural-gas', 'propane', 'oil', 'wood', 'electric'] as const;
export type Fuel = (typeof fuels)[number];
export const ventings = [
  'atmospheric',
  'fan-assisted',
  'power-vented',
  'direct-vent',
  'unvented',
  'none',
] as const;
export type Venting = (typeof ventings)[number];

/** A reading that has not been superseded, with its instrument as it was on that day. */
export interface FileReading {
  id: string;
  test: TestKey;
  subjectId: string;
  raw: RawReading;
  instrument: InstrumentFacts | null;
  /** calendar date at the house, yyyy-mm-dd */
  takenOn: string;
  /** the instant, ISO 8601 in UTC: of several readings of one day the last counts; absent where only the day is known */
  takenAt?: string | undefined;
  visitId: string;
  /** the revision of the installer's figures in force when it was read; absent means the first */
  figuresRevision?: number | undefined;
}
