import {
  envelopeFlowAt,
  envelopeTarget,
  fewestFitPoints,
  fitEnvelopeTest,
  meanBaseline,
  rangeFlow,
  type EnvelopeFit,
  type Finding,
  type InstrumentFacts,
  type Problem,
  type RawReading,
  type RawRow,
} from '@countercheck/measurement';

/** One point of an envelope test as it is drawn: pressure without its sign, Pa, and flow, cfm. */
export interface DrawnPoint {
  key: string;
  label: string;
  pressure: number;
  flow: number;
  /** how far the flow lies above the line, as a share of the line; null without one */
  residual: number | null;
  /** what is wrong with it, in words */
  problem: string | null;
}

/** A flow of the line with its 95 % interval, cfm; without a fit there is none. */
export interface DrawnFlow {
  value: number;
  low: number | null;
  high: number | null;
}

export interface DrawnLine {
  exponent: number;
  /** null where the exponent is assumed from a single point */
  rSquared: number | null;
  at(pressure: number): DrawnFlow;
}

export interface DrawnFit {
  points: DrawnPoint[];
  /** one for each direction of the fan */
  lines: DrawnLine[];
  /** the result at the reference pressure, over both directions */
  atReference: DrawnFlow | null;
  /** what there is to say of the test as a whole */
  findings: Finding[];
}

interface Read {
  row: number;
  label: string;
  /** house to outdoors as read, with its sign */
  reading: number;
  /** made by the fan, without its sign */
  pressure: number;
  flow: number;
}

function flowOf(row: RawRow, instrument: InstrumentFacts | null): number | null {
  const { flow, fanPressure } = row.values;
  if (flow !== undefined) return flow;
  const range = row.choices['range'];
  if (fanPressure === undefined || range === undefined || !instrument) return null;
  const found = rangeFlow(instrument, range, fanPressure);
  return found.ok ? found.value.flow : null;
}

function readPoints(raw: RawReading, instrument: InstrumentFacts | null, baselines: number[]): Read[] {
  const baseline = baselines.length > 0 ? meanBaseline(baselines) : 0;
  return raw.rows.flatMap((each, row) => {
    const reading = each.values['housePressure'];
    const flow = flowOf(each, instrument);
    if (reading === undefined || flow === null || !(flow > 0) || reading === baseline) return [];
    return [{ row, label: each.label, reading, pressure: Math.abs(reading - baseline), flow }];
  });
}

function fitted(points: readonly Read[], baselines: readonly number[]): EnvelopeFit | null {
  if (new Set(points.map(({ pressure }) => pressure)).size < fewestFitPoints) return null;
  const [baselineBefore = 0, baselineAfter] = baselines;
  const fit = fitEnvelopeTest({
    points: points.map(({ label, reading, flow }) => ({ label, pressure: reading, flow })),
    baselineBefore,
    ...(baselineAfter === undefined ? {} : { baselineAfter }),
  });
  return fit.ok ? fit.value : null;
}

/** Through the point nearest to the reference pressure, with the exponent that is assumed there. */
function assumedLine(points: readonly Read[]): DrawnLine[] {
  const { reference, exponent } = envelopeTarget;
  const away = ({ pressure }: Read) => Math.abs(pressure - reference);
  const [nearest] = [...points].sort((a, b) => away(a) - away(b) || b.pressure - a.pressure);
  if (!nearest) return [];
  const at = (pressure: number) => ({
    value: nearest.flow * (pressure / nearest.pressure) ** exponent,
    low: null,
    high: null,
  });
  return [{ exponent, rSquared: null, at }];
}

function linesOf(fit: EnvelopeFit): DrawnLine[] {
  return fit.directions.map((direction) => ({
    exponent: direction.exponent,
    rSquared: direction.rSquared,
    at: (pressure) => {
      const flow = envelopeFlowAt([direction], pressure);
      return flow.ok ? flow.value : { value: Number.NaN, low: null, high: null };
    },
  }));
}

/**
 * What there is to draw of an envelope test while it is typed: the points that are complete, the line through them,
 * and beside each point what is wrong with it. Never throws.
 * @param problems what the test itself refused, by path
 */
export function drawnFit(
  raw: RawReading,
  instrument: InstrumentFacts | null,
  problems: readonly Problem[] = [],
): DrawnFit {
  const { baselineBefore, baselineAfter } = raw.values;
  const baselines = [baselineBefore, baselineAfter].filter((each) => each !== undefined);
  const read = readPoints(raw, instrument, baselines);
  const fit = fitted(read, baselines);
  const lines = fit ? linesOf(fit) : assumedLine(read);
  const residuals = new Map(
    fit?.directions.flatMap(({ points }) => points.map(({ index, residual }) => [index, residual] as const)),
  );
  const points = read.map(({ row, label, pressure, flow }, i): DrawnPoint => {
    const refused = problems.find(({ path, code }) => path.startsWith(`rows.${row}.`) && code !== 'missing');
    const finding = fit?.findings.find(({ point }) => point === i);
    const [line] = lines;
    const residual = residuals.get(i) ?? (line ? Math.log(flow / line.at(pressure).value) : null);
    return {
      key: String(row),
      ...{ label, pressure, flow },
      residual: residual === null ? null : Math.expm1(residual),
      problem: refused?.message ?? finding?.message ?? null,
    };
  });
  const [single] = lines;
  return {
    points,
    lines,
    atReference: fit?.figures.flowAt50 ?? single?.at(envelopeTarget.reference) ?? null,
    findings: fit?.findings.filter(({ point }) => point === null) ?? [],
  };
}
