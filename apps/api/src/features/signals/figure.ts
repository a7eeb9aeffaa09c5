import { tableFlow } from '@countercheck/measurement';
import type { Figure, InstrumentDoubt, Shown } from '@countercheck/signals';
import type { ReadingRow } from './readings.ts';

/** The exponent of duct leakage, common practice, no published source; as the measurement package takes it. */
const ductExponent = 0.6;

const reportedKey: Record<string, string> = {
  'supply-static': 'supplyStatic',
  'return-static': 'returnStatic',
  'duct-leakage-total': 'ductLeakageAt25',
  'whole-house-ventilation': 'exhaustFlow',
  'kitchen-exhaust': 'exhaustFlow',
  'bath-exhaust': 'exhaustFlow',
};
const statics = ['supply-static', 'return-static'];
const flows = ['whole-house-ventilation', 'kitchen-exhaust', 'bath-exhaust'];
const setPoints = ['ductPressure', 'housePressure', 'baselineBefore', 'baselineAfter', 'ductToHousePressure'];
/** What a manometer shows in inches of water column. */
const inchStep = 0.001;
const fanStep = 0.1;

function sumOfFlows({ raw, test }: ReadingRow): number | null {
  const rows = raw.rows.filter(
    ({ choices }) => test !== 'whole-house-ventilation' || choices['airstream'] !== 'supply',
  );
  if (rows.length === 0) return null;
  return rows.reduce((sum, { values }) => sum + (values['flow'] ?? 0), 0);
}

function fanFlow(row: ReadingRow): number | null {
  const { flow, fanPressure } = row.raw.values;
  if (flow !== undefined) return flow;
  const range = row.ranges?.find((each) => each.range === row.raw.choices['range']);
  if (!range || fanPressure === undefined) return null;
  if (range.table) {
    const read = tableFlow(range.table, fanPressure);
    return read.ok ? read.value.flow : null;
  }
  return range.c === null || range.n === null ? null : range.c * Math.abs(fanPressure) ** range.n;
}

/** In the stored unit of the test; an envelope in the unit of its verdict. Null when it cannot be worked out. */
function valueOf(row: ReadingRow): number | null {
  const { test, raw, verdict_value } = row;
  if (flows.includes(test)) return sumOfFlows(row);
  if (test === 'envelope-leakage') return row.stands ? verdict_value : null;
  if (test === 'duct-leakage-total') {
    const [flow, pressure] = [fanFlow(row), Math.abs(raw.values['ductPressure'] ?? 0)];
    return flow === null || pressure === 0 ? null : flow * (25 / pressure) ** ductExponent;
  }
  const { pressure } = raw.values;
  return pressure === undefined ? null : Math.abs(pressure);
}

function stepOf(field: string, { test, resolution }: ReadingRow): number | null {
  if (field === 'fanPressure') return fanStep;
  if (statics.includes(test)) return inchStep;
  return resolution;
}

function shownOf(row: ReadingRow): Shown[] {
  const all = [row.raw.values, ...row.raw.rows.map(({ values }) => values)];
  return all.flatMap((values, i) =>
    Object.entries(values).map(([key, value]) => ({
      field: `${row.test} ${key}${i > 1 ? ` ${i}` : ''}`,
      value: Math.abs(value),
      step: stepOf(key, row),
      setPoint: setPoints.includes(key),
    })),
  );
}

/** A number typed in the display's own unit that lies between two of its steps. */
function finer(row: ReadingRow): boolean {
  const { resolution, raw, entered, test } = row;
  if (!resolution || (!flows.includes(test) && test !== 'bedroom-pressure')) return false;
  const own = flows.includes(test) ? 'cfm' : 'Pa';
  return [
    ['', raw.values] as const,
    ...raw.rows.map(({ values }, i) => [`rows.${i}.`, values] as const),
  ].some(([prefix, values]) =>
    Object.entries(values).some(([key, value]) => {
      if (entered[`${prefix}values.${key}`]?.unit !== own) return false;
      const steps = Math.abs(value) / resolution;
      return Math.abs(steps - Math.round(steps)) > 1e-3;
    }),
  );
}

function doubtsOf(row: ReadingRow): InstrumentDoubt[] {
  if (row.instrument_id === null) return [];
  const outside = [row.raw, ...row.raw.rows].some(({ values, choices }) => {
    const range = row.ranges?.find((each) => each.range === choices['range']);
    const pressure = Math.abs(values['fanPressure'] ?? 0);
    return range !== undefined && pressure > 0 && (pressure < range.minPa || pressure > range.maxPa);
  });
  return [
    ...(finer(row) ? ['finer-than-display' as const] : []),
    ...(outside ? ['outside-range' as const] : []),
    ...(row.calibrated === false ? ['not-calibrated' as const] : []),
    ...(row.overdue ? ['calibration-overdue' as const] : []),
  ];
}

/** Standard uncertainty by the stated accuracy, the larger of its two parts, as a rectangular distribution. */
function uncertaintyOf(row: ReadingRow, value: number | null): number | null {
  if (value === null || row.accuracy_percent === null) return null;
  const share = (Math.abs(value) * row.accuracy_percent) / 100;
  const isFlow = flows.includes(row.test) || row.test === 'duct-leakage-total';
  return Math.max(share, isFlow ? (row.accuracy_absolute ?? 0) : 0) / Math.sqrt(3);
}

/** Of a limit with two sides the one that the verdict's value is nearer to. */
function nearerBound({
  verdict_value: value,
  verdict_low: low,
  verdict_high: high,
}: ReadingRow): Figure['limit'] {
  if (value === null) return null;
  const sides = [
    ...(low !== null && low > 0 ? [{ value: low, inside: 'above' as const }] : []),
    ...(high !== null && high > 0 ? [{ value: high, inside: 'below' as const }] : []),
  ];
  return sides.sort((a, b) => Math.abs(value - a.value) - Math.abs(value - b.value))[0] ?? null;
}

/**
 * How many times its limit's unit a value is, where somebody else's reading stands for it now: a first visit's failure
 * must be held against its limit after a colleague's reinspection too, or failures would be missing. Ducts are judged
 * by cfm per 100 ft² at present; an envelope's value is that of its verdict.
 */
const unitWithoutVerdict = ({ test, floor_area }: ReadingRow): number =>
  test === 'duct-leakage-total' ? floor_area / 100 : 1;

/**
 * The rows of one rater as figures. The limit is turned into the unit of the value by what the verdict made of the
 * reading that stands, so that a reading that a correction replaced is held against it too.
 */
export function figuresOf(rows: readonly ReadingRow[]): Figure[] {
  const placeOf = new Map<string, Map<string, string>>();
  const unitOf = new Map<string, number>();
  for (const row of rows) {
    const value = valueOf(row);
    if (row.stands && value && row.verdict_value)
      unitOf.set(`${row.house_id}/${row.test}/${row.subject_id}`, value / row.verdict_value);
  }
  return rows.map((row) => {
    const { house_id: houseId, test, subject_id: subjectId } = row;
    const places = placeOf.get(`${houseId}/${test}`) ?? new Map<string, string>();
    placeOf.set(`${houseId}/${test}`, places);
    if (!places.has(subjectId)) places.set(subjectId, String(places.size + 1));
    const value = valueOf(row);
    const unit = unitOf.get(`${houseId}/${test}/${subjectId}`) ?? unitWithoutVerdict(row);
    const bound = nearerBound(row);
    const key = reportedKey[test];
    return {
      ...{ readingId: row.id, houseId, raterId: row.rater_id, instrumentId: row.instrument_id },
      ...{ item: test, place: places.get(subjectId)!, at: row.taken_at.getTime(), value },
      uncertainty: uncertaintyOf(row, value),
      reported: (key && row.reported?.[key]) || null,
      installerId: row.installer_id,
      plan: row.plan_id,
      limit: bound && { ...bound, value: bound.value * unit },
      readAgain: row.read_again,
      shown: shownOf(row),
      doubts: doubtsOf(row),
    };
  });
}
