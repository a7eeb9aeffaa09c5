import { normalCdf } from '@countercheck/distributions';
import { type Checked, computed, problem } from '../outcome.ts';
import { limitProblem } from './chance.ts';

/** What is known of the things measured and of the measurement, all in one unit. */
export interface RiskGiven {
  /** how the true values are spread before anything is measured: normal */
  prior: { mean: number; standardDeviation: number };
  /** standard uncertainty of one measurement: normal */
  standardUncertainty: number;
  /** limits of the true value; null when there is none */
  low: number | null;
  high: number | null;
  /** limits of the result; those of the true value when left out */
  acceptLow?: number | null;
  acceptHigh?: number | null;
}

export interface Risks {
  /** chance that a thing conforms, before it is measured */
  conforming: number;
  /** chance that a result is accepted */
  accepted: number;
  /** chance that a thing is accepted and does not conform (false acceptance) */
  consumer: number;
  /** chance that a thing is refused and conforms (false rejection) */
  producer: number;
  /** share of the accepted that does not conform; 0 when nothing is accepted */
  acceptedWrongly: number;
}

/**
 * Consumer's and producer's risk over many things, by integration of the prior:
 * R_C = ∫ outside the limits of g(η) · P(accepted | η) dη and R_P = ∫ inside of g(η) · (1 − P(accepted | η)) dη;
 * all chances, dimensionless. Simpson's rule between the points where an integrand bends; good to 1e-9.
 * Problems: `not-a-number`, `bad-spread` (a standard deviation or uncertainty that is not above zero),
 * `limits-reversed`. Never throws. Source: JCGM 106:2012, 9.5 (from memory); inputs of its resistor example
 * seen in public text, its results computed independently; table of false acceptance at a ratio of 4 seen in
 * the tests of an open uncertainty calculator (docs/sources.md, Measurement 15).
 */
export function globalRisk(given: RiskGiven): Checked<Risks> {
  const { prior, standardUncertainty: u, low, high } = given;
  const { acceptLow = low, acceptHigh = high } = given;
  if (!Number.isFinite(prior.mean)) return problem('prior', 'not-a-number', 'The mean is not a number.');
  const spread = [prior.standardDeviation, u];
  if (!spread.every((part) => part > 0 && part < Infinity))
    return problem('prior', 'bad-spread', 'Standard deviation and uncertainty must be above zero.');
  const limits = limitProblem(low, high) ?? limitProblem(acceptLow, acceptHigh);
  if (limits) return limits;
  const inside = between(low, high);
  const accept = between(acceptLow, acceptHigh);
  const density = normalDensity(prior.mean, prior.standardDeviation);
  const accepted = (eta: number) => normalCdf((accept.to - eta) / u) - normalCdf((accept.from - eta) / u);
  const bends = [accept.from, accept.to].flatMap((limit) => [limit - 9 * u, limit, limit + 9 * u]);
  const reach = 9 * prior.standardDeviation;
  const over = (from: number, to: number, of: (eta: number) => number) =>
    integral(Math.max(from, prior.mean - reach), Math.min(to, prior.mean + reach), bends, of);
  const kept = (eta: number) => density(eta) * accepted(eta);
  const consumer = over(-Infinity, inside.from, kept) + over(inside.to, Infinity, kept);
  const rightly = over(inside.from, inside.to, kept);
  const conforming =
    cdf(inside.to, prior.mean, prior.standardDeviation) -
    cdf(inside.from, prior.mean, prior.standardDeviation);
  const total = consumer + rightly;
  return computed({
    conforming,
    accepted: total,
    consumer,
    producer: over(inside.from, inside.to, (eta) => density(eta) * (1 - accepted(eta))),
    acceptedWrongly: total === 0 ? 0 : consumer / total,
  });
}

function between(low: number | null, high: number | null): { from: number; to: number } {
  return { from: low ?? -Infinity, to: high ?? Infinity };
}

function cdf(x: number, mean: number, deviation: number): number {
  return normalCdf((x - mean) / deviation);
}

function normalDensity(mean: number, deviation: number): (x: number) => number {
  const scale = 1 / (deviation * Math.sqrt(2 * Math.PI));
  return (x) => scale * Math.exp(-0.5 * ((x - mean) / deviation) ** 2);
}

function integral(from: number, to: number, bends: number[], of: (x: number) => number): number {
  if (!(from < to)) return 0;
  const inner = bends.filter((bend) => bend > from && bend < to).sort((a, b) => a - b);
  const edges = [from, ...inner, to];
  return edges.slice(1).reduce((sum, edge, i) => sum + simpson(edges[i]!, edge, of), 0);
}

function simpson(from: number, to: number, of: (x: number) => number): number {
  const parts = 1024;
  const step = (to - from) / parts;
  let sum = of(from) + of(to);
  for (let i = 1; i < parts; i++) sum += of(from + i * step) * (i % 2 === 1 ? 4 : 2);
  return (sum * step) / 3;
}
