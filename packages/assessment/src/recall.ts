import {
  convert,
  nativeUnit,
  testDefinitions,
  type Checked,
  type FieldDefinition,
  type InstrumentKind,
  type QuantityKind,
  type RawReading,
  type TestKey,
} from '@countercheck/measurement';
import { recallProblem } from './recall-problem.ts';
import type { FileReading, HouseFile } from './types.ts';

/**
 * What was wrong with an instrument:
 * - `offset`: it showed the true value plus `value`, in its native unit (`nativeUnit`: Pa, cfm, ppm, °F, in., s);
 * - `gain`: it showed the true value times (1 + `percent` / 100);
 * - `coefficient`: the flow worked out with the range's coefficient or table was `factor` times the true one.
 */
export type InstrumentError =
  | { kind: 'offset'; value: number }
  | { kind: 'gain'; percent: number }
  | { kind: 'coefficient'; ranges: { range: string; factor: number }[] };

/** An instrument found out of tolerance, and the days on which it was. */
export interface Recall {
  instrumentId: string;
  /** first and last day at the house, yyyy-mm-dd, both included */
  from: string;
  to: string;
  error: InstrumentError;
}

/** A reading that a recall concerns. */
export interface RecalledReading {
  readingId: string;
  test: TestKey;
  subjectId: string;
  /** ISO date at the house */
  takenOn: string;
  /** why the error cannot be taken out of it, in words; null when it was */
  whyNot: string | null;
}

export interface Corrected {
  file: HouseFile;
  /** in the order of the file; readings by other instruments or of other days are not in here */
  readings: RecalledReading[];
}

/** How many native units one stored unit is, for the quantities that a kind of instrument shows itself. */
function shownBy(kind: InstrumentKind): Partial<Record<QuantityKind, number>> {
  switch (nativeUnit(kind)) {
    case 'Pa':
      return { pressureDifference: 1, staticPressure: convert(1, 'inH2O', 'Pa') };
    case 'cfm':
      return { airflow: 1 };
    case 'ppm':
      return { concentration: 1 };
    case 'degF':
      return { temperature: 1 };
    case 'in':
      return { length: 1, height: convert(1, 'ft', 'in') };
    case 's':
      return { duration: 1 };
    default:
      return {};
  }
}

type Part = Pick<RawReading, 'values' | 'choices'>;
type Direction = 'remove' | 'add';

const rangeUnknown =
  'The reading does not say which range was on the device, so its error cannot be taken out. Measure again.';
const fanPressureEntered =
  'The fan pressure was entered, which a constant error in cfm does not tell about. Give the error by range, or measure again.';
const withoutRange = (kind: InstrumentKind) =>
  `The readings of this ${kind.replaceAll('-', ' ')} are entered as flow without a calibrated range. Give the error as offset or gain.`;

/** The factor by which the flow of a part was wrong; a string says why that cannot be told. */
function flowFactor(error: InstrumentError, part: Part, reading: FileReading): number | string {
  if (error.kind === 'gain') return 1 + error.percent / 100;
  if (error.kind !== 'coefficient') return 1;
  const { choices, rows } = testDefinitions[reading.test];
  const asked = [...choices, ...(rows?.choices ?? [])].find((each) => each.from === 'instrument-range');
  if (!asked) return withoutRange(reading.instrument!.kind);
  const range = part.choices[asked.key];
  if (range === undefined) return rangeUnknown;
  return error.ranges.find((each) => each.range === range)?.factor ?? 1;
}

interface Changed {
  part: Part;
  /** a field of it was shown by the instrument and its range is one of those in error */
  touched: boolean;
  whyNot: string | null;
}

function changePart(
  part: Part,
  fields: readonly FieldDefinition[],
  { error }: Recall,
  reading: FileReading,
  direction: Direction,
): Changed {
  const shown = shownBy(reading.instrument!.kind);
  const values = { ...part.values };
  const result: Changed = { part: { ...part, values }, touched: false, whyNot: null };
  const byFanPressure = values['fanPressure'] !== undefined && shown.airflow !== undefined;
  if (byFanPressure && error.kind === 'offset')
    return { part, touched: true, whyNot: error.value === 0 ? null : fanPressureEntered };
  for (const { key, quantity } of fields) {
    const scale = shown[quantity];
    const value = values[key];
    if (scale === undefined || value === undefined || !Number.isFinite(value)) continue;
    if (error.kind === 'offset') {
      const shift = error.value / scale;
      values[key] = direction === 'remove' ? value - shift : value + shift;
      result.touched = true;
      continue;
    }
    const factor = flowFactor(error, part, reading);
    if (typeof factor === 'string') return { part, touched: true, whyNot: factor };
    if (error.kind === 'coefficient' && factor === 1) continue;
    values[key] = direction === 'remove' ? value / factor : value * factor;
    result.touched = true;
  }
  if (!byFanPressure) return result;
  // The coefficient of the instrument is corrected for the whole reading; here only whether it was used.
  const factor = flowFactor(error, part, reading);
  const named = error.kind === 'gain' || (typeof factor === 'number' && factor !== 1);
  return { ...result, touched: result.touched || named };
}

/** The instrument's calibration with the wrong part of its coefficients or tables taken out, for fan pressures. */
function changeRanges(
  { error }: Recall,
  instrument: NonNullable<FileReading['instrument']>,
  direction: Direction,
) {
  const factorOf = (range: string) =>
    error.kind === 'gain'
      ? 1 + error.percent / 100
      : error.kind === 'coefficient'
        ? (error.ranges.find((each) => each.range === range)?.factor ?? 1)
        : 1;
  return instrument.ranges.map((each) => {
    const factor = factorOf(each.range);
    if (factor === 1) return each;
    const scaled = (flow: number) => (direction === 'remove' ? flow / factor : flow * factor);
    const c = each.c === null ? null : scaled(each.c);
    if (!each.table) return { ...each, c };
    return { ...each, c, table: each.table.map((row) => ({ ...row, flow: scaled(row.flow) })) };
  });
}

function changeReading(
  reading: FileReading,
  recall: Recall,
  direction: Direction,
): { reading: FileReading; recalled: RecalledReading | null } {
  const { instrument, takenOn } = reading;
  if (!instrument || instrument.id !== recall.instrumentId) return { reading, recalled: null };
  if (takenOn < recall.from || takenOn > recall.to) return { reading, recalled: null };
  const { fields, rows } = testDefinitions[reading.test];
  const top = changePart(reading.raw, fields, recall, reading, direction);
  const parts = reading.raw.rows.map((row) => ({
    row,
    changed: changePart(row, rows?.fields ?? [], recall, reading, direction),
  }));
  const all = [top, ...parts.map((each) => each.changed)];
  if (!all.some((each) => each.touched)) return { reading, recalled: null };
  const whyNot = all.find((each) => each.whyNot !== null)?.whyNot ?? null;
  const { id, test, subjectId } = reading;
  const recalled = { readingId: id, test, subjectId, takenOn, whyNot };
  if (whyNot !== null) return { reading, recalled };
  const raw: RawReading = {
    ...reading.raw,
    values: top.part.values,
    rows: parts.map(({ row, changed }) => ({ ...row, values: changed.part.values })),
  };
  const ranges = changeRanges(recall, instrument, direction);
  return { reading: { ...reading, raw, instrument: { ...instrument, ranges } }, recalled };
}

function change(file: HouseFile, recall: Recall, direction: Direction): Checked<Corrected> {
  const wrong = recallProblem(recall);
  if (wrong) return { ok: false, problem: wrong };
  const changed = file.readings.map((each) => changeReading(each, recall, direction));
  return {
    ok: true,
    value: {
      file: { ...file, readings: changed.map((each) => each.reading) },
      readings: changed.flatMap((each) => each.recalled ?? []),
    },
  };
}

/**
 * A house's file as it would read had the instrument been right: the error is taken out of every number that
 * the instrument itself showed, on the days of the recall. Offset: true = shown − e; gain: true = shown / (1 +
 * g/100); coefficient: actual flow = flow / factor, through c or every flow of the range's table for a fan pressure
 * and directly for a flow entered with its range. Other quantities of the same reading (a pressure typed beside a fan's flow) stay. Nothing of
 * the given file is changed. Never throws.
 * Problems: those of `recallProblem`. A reading whose error cannot be told stays as it is, with `whyNot`.
 * Source of the model (zero, span and coefficient errors): common practice, no published source.
 */
export function withoutError(file: HouseFile, recall: Recall): Checked<Corrected> {
  return change(file, recall, 'remove');
}

/** The other way round: the file as the instrument would have shown it with that error. As `withoutError`. */
export function withError(file: HouseFile, recall: Recall): Checked<Corrected> {
  return change(file, recall, 'add');
}
