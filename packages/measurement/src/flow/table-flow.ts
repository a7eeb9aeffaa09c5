import { type Checked, computed, problem } from '../outcome.ts';
import type { Step } from '../types.ts';
import { plainNumber } from '../units/round.ts';
import { monotoneCurve } from './monotone-curve.ts';

/** One line of a device's table: the pressure that it shows, Pa, and the flow that belongs to it, cfm. */
export interface TablePoint {
  pressure: number;
  flow: number;
}

export interface TableFlow {
  /** cfm */
  flow: number;
  /** d ln Q / d ln P there: how many percent the flow moves when the pressure moves by one */
  exponent: number;
  step: Step;
}

/**
 * Flow of a device that comes with a table instead of coefficients: a monotone curve (`monotoneCurve`) through
 * ln Q over ln P, so that a table made from a power law gives that power law back exactly.
 * @param table two lines or more, pressures (Pa) and flows (cfm) above zero, more pressure giving more flow
 * @param pressure Pa; its sign is dropped
 * Problems: `bad-table` (pressures or flows not above zero, or a flow that does not grow), those of
 * `monotoneCurve`, `not-a-number`, `zero-pressure`, `below-range`, `above-range`. Nothing is extrapolated.
 * Never throws. Source: as `monotoneCurve`; the logarithms are the company's choice, because flow devices follow
 * power laws.
 */
export function tableFlow(table: readonly TablePoint[], pressure: number): Checked<TableFlow> {
  const lines = [...table].sort((a, b) => a.pressure - b.pressure);
  if (!lines.every(({ pressure: p, flow: q }) => p > 0 && q > 0 && p < Infinity && q < Infinity)) {
    return problem('table', 'bad-table', 'The pressures and flows of a table must be above zero.');
  }
  const falls = lines.find(({ flow }, i) => flow <= (lines[i - 1]?.flow ?? 0));
  if (falls) {
    const message = `The table's flow does not grow up to ${plainNumber(falls.pressure)} Pa. Check the table.`;
    return problem('table', 'bad-table', message);
  }
  const curve = monotoneCurve(lines.map((line) => ({ x: Math.log(line.pressure), y: Math.log(line.flow) })));
  if (!curve.ok) return { ok: false, problem: { ...curve.problem, path: 'table' } };
  if (!Number.isFinite(pressure)) return problem('pressure', 'not-a-number', 'The pressure is not a number.');
  const shown = Math.abs(pressure);
  if (shown === 0)
    return problem('pressure', 'zero-pressure', 'The pressure is 0 Pa: no flow can be told from it.');
  const outside = outsideOf(lines, shown);
  if (outside) return outside;
  const at = curve.value.at(Math.log(shown));
  const exponent = curve.value.slopeAt(Math.log(shown));
  if (!at.ok) return at;
  if (!exponent.ok) return exponent;
  const flow = Math.exp(at.value);
  const working = `${beside(lines, shown)}, monotone curve through ln flow over ln pressure`;
  return computed({
    flow,
    exponent: exponent.value,
    step: { label: 'Flow from the table', working, value: flow, unit: 'cfm' },
  });
}

function outsideOf(lines: readonly TablePoint[], shown: number) {
  const [low, high] = [lines[0]?.pressure ?? NaN, lines.at(-1)?.pressure ?? NaN];
  const message = `The pressure is ${plainNumber(shown)} Pa, but the table holds from ${low} to ${high} Pa.`;
  if (shown < low) return problem('pressure', 'below-range', `${message} Use a smaller opening.`);
  if (shown > high) return problem('pressure', 'above-range', `${message} Use a larger opening.`);
  return null;
}

function beside(lines: readonly TablePoint[], shown: number): string {
  const after = Math.max(
    lines.findIndex(({ pressure }) => shown <= pressure),
    1,
  );
  const line = (point: TablePoint | undefined) =>
    point ? `${plainNumber(point.flow)} cfm at ${plainNumber(point.pressure)} Pa` : '';
  return `at ${plainNumber(shown)} Pa between ${line(lines[after - 1])} and ${line(lines[after])}`;
}
